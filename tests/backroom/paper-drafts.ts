/** Papers for tests, asked for as the office would. Every authority and supplier is invented. */
import type { Input, Output } from '../../app/contract/contract.ts';
import type { TestKitchen } from '../support/test-kitchen.ts';

type Draft = Input<'paper.add'>;
type Paper = Output<'paper.add'>['paper'];

/** A permission to smoke, unless something else is said. */
export function paperInput(more: Partial<Draft> = {}): Draft {
  return {
    kind: 'permission', subject: 'smoking', what: 'Smoking permit', number: 'P-12', issuedBy: 'Rainy County', holder: '',
    validFrom: '2026-01-01', validUntil: '2026-12-31', fileId: null, ...more,
  };
}

export async function addPaper(kitchen: TestKitchen, more: Partial<Draft> = {}): Promise<Paper> {
  return (await kitchen.ask('paper.add', paperInput(more))).paper;
}

/** A letter with its file. */
export async function addLetter(kitchen: TestKitchen, kind: 'process-letter' | 'limit-letter' | 'variance', more: Partial<Draft> = {}): Promise<Paper> {
  const fileId = await kitchen.takeFile('letter.txt', `Northwater Process Authority, ${kind} ${more.number ?? 'L-7'}`);
  const subject = kind === 'process-letter' ? 'process' : 'limits';
  return addPaper(kitchen, { kind, subject, what: 'Letter of March', number: 'L-7', issuedBy: 'Northwater Process Authority', fileId, ...more });
}
