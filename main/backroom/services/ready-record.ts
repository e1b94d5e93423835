/** What the record says before a load is lit: the thermometers' checks, the brine, and the fish before it. */
import type { ReadyItem } from '../../../app/contract/requests/corrective.ts';
import type { CheckResultWire, SetResultWire } from '../../../app/contract/requests/verdict.ts';
import type { BookRoom } from '../room.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { isReady, type LoadPlan } from './ready-plan.ts';

/** The thermometers of this load, each checked in ice today. */
export function checksItem(room: BookRoom, { smoker, pieces }: LoadPlan): ReadyItem {
  const ids = [...new Set([...pieces.map((piece) => piece.instrumentId), smoker.chamberInstrumentId])].filter((id) => id !== null);
  const unnamed = pieces.filter((piece) => piece.instrumentId === null).length;
  const due = ids.map((id) => room.book.shelf('instruments').need(id).name);
  if (due.length === 0) {
    return { id: 'checks', state: 'unknown', text: 'No thermometer is named for this load.', needed: 'Name the thermometers, and check each in ice before the load is lit.' };
  }
  return {
    id: 'checks', state: 'unknown',
    text: `Whether these were checked in ice today isn’t recorded here: ${due.join(', ')}.${unnamed === 0 ? '' : ` ${unnamed} ${unnamed === 1 ? 'piece has' : 'pieces have'} no thermometer named.`}`,
    needed: 'Put each into ice and water, stir, and write down what it shows before the load is lit.',
  };
}

const QUESTIONS: Readonly<Record<'brine' | 'raw', readonly CheckResultWire['question'][]>> = { brine: ['brine'], raw: ['raw', 'thaw', 'dry'] };
const WHAT = { brine: 'brining', raw: 'the fish before the brine and of drying' } as const;
/** Where the set asks something that no record here answers yet. */
const LOOK = { brine: 'Look at the record of the soak.', raw: 'Look at when the fish was caught, iced and received, and how cold it was.' } as const;

/** The limits on the brine and on the fish before it, by the batches' deciding sets. */
export function limitItems(room: BookRoom, { batches }: LoadPlan): ReadyItem[] {
  const judged = batches.map((batch) => ({ name: batch.shortName, result: judgeBatch(room, batch).deciding }));
  return [limitItem('brine', judged), limitItem('raw', judged)];
}

function limitItem(id: 'brine' | 'raw', judged: readonly { readonly name: string; readonly result: SetResultWire }[]): ReadyItem {
  const questions: readonly string[] = QUESTIONS[id];
  const asked = judged.flatMap(({ name, result }) => result.checks.filter((check) => questions.includes(check.question) && check.verdict !== 'does-not-apply').map((check) => ({ name, check })));
  const left = asked.filter(({ check }) => check.verdict !== 'meets' && check.verdict !== 'meets-within-error');
  if (left.length > 0) {
    return {
      id, state: left.some(({ check }) => check.verdict === 'misses') ? 'missing' : 'unknown',
      text: left.map(({ name, check }) => `${name}: ${check.reason}`).join(' '),
      needed: left.map(({ check }) => check.needed).filter((text, index, all) => text !== '' && all.indexOf(text) === index).join(' ') || LOOK[id],
    };
  }
  const unjudged = judged.some(({ result }) => result.notJudgedHere.some((question) => questions.includes(question)));
  if (unjudged) return { id, state: 'unknown', text: `What the set asks of ${WHAT[id]} is not judged here.`, needed: LOOK[id] };
  return isReady(id, asked.length === 0 ? `The set asks nothing of ${WHAT[id]}.` : `The record meets what is asked of ${WHAT[id]}.`);
}
