import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { guest, makeBatch, receive } from './fish-and-brine.ts';
import { addLetter, addPaper } from './paper-drafts.ts';
import { refusal } from './smoke-kitchen.ts';

const DAY_MS = 86_400_000;
const TODAY = '2026-11-25';
type SetInput = Input<'limits.addSet'>;

function setInput(more: Partial<SetInput> = {}): SetInput {
  return { baseSetId: 'lodge-default', name: 'Our plan', effectiveFrom: TODAY, paperId: null, changes: [{ checkId: 'HOT-145-30', value: '150' }], ...more };
}
async function addSet(kitchen: TestKitchen, more: Partial<SetInput> = {}) {
  return (await kitchen.ask('limits.addSet', setInput(more))).set;
}
async function listed(kitchen: TestKitchen, setId: string) {
  return (await kitchen.ask('limits.list', {})).sets.find((set) => set.setId === setId);
}

describe('a set of the kitchen’s own', () => {
  it('has a stricter figure by the kitchen’s own rule, and everything else of the set it was made from', async () => {
    const kitchen = await openTestKitchen();
    const set = await addSet(kitchen);
    expect(set).toMatchObject({ name: 'Our plan', version: '1', baseSetId: 'lodge-default', paperId: null });
    expect(set.changes).toEqual([{ checkId: 'HOT-145-30', was: '145 °F or more, unbroken for 30 min', is: '150 °F or more, unbroken for 30 min', stricter: true }]);
    const [own, base] = [await listed(kitchen, set.setId), await listed(kitchen, 'lodge-default')];
    expect(own?.checks.length).toBe(base?.checks.length);
    expect(own?.checks.filter((check) => !base?.checks.some((one) => one.checkId === check.checkId)).map((check) => check.figures)).toEqual(['150 °F or more, unbroken for 30 min']);
    expect((await kitchen.ask('limits.own', {})).sets).toEqual([set]);
  });

  it('takes several figures of one cooling, by their fields', async () => {
    const kitchen = await openTestKitchen();
    const set = await addSet(kitchen, { changes: [{ checkId: 'COOL-AFDO', field: 'target-1-minutes', value: '90' }, { checkId: 'COOL-AFDO', field: 'target-2', value: '3.5', unit: 'C' }] });
    expect(set.changes.map((change) => change.is)).toEqual(['from 140 °F to 70 °F or less within 90 min, 3.5 °C or less within 4 h, each from the one before']);
    const { figures } = await kitchen.ask('limits.own', {});
    expect(figures.find((one) => one.checkId === 'COOL-AFDO')?.figures.map((figure) => figure.field)).toEqual(['from', 'target-1', 'target-1-minutes', 'target-2', 'target-2-minutes']);
    expect(figures.find((one) => one.checkId === 'COOL-AFDO.OWN-1')?.figures[1]).toEqual({ field: 'target-1', value: '70', unit: 'F', stricter: 'lower' });
  });

  it('rests on the letter it names, which must count, be of its kind and be valid then', async () => {
    const kitchen = await openTestKitchen();
    const letter = await addLetter(kitchen, 'limit-letter', { validFrom: '2026-03-01' });
    const set = await addSet(kitchen, { paperId: letter.id });
    expect((await listed(kitchen, set.setId))?.checks.find((check) => check.checkId === 'HOT-145-30.OWN-1')?.source).toContain('Northwater Process Authority');
    const permission = await addPaper(kitchen);
    const refused = async (paperId: string, more: Partial<SetInput> = {}): Promise<string> => (await refusal(kitchen.reply('limits.addSet', setInput({ name: 'Other', paperId, ...more })))).message;
    expect(await refused(permission.id)).toMatch(/not a letter on limits/);
    expect(await refused(letter.id, { effectiveFrom: '2027-01-01' })).toMatch(/valid until 31 Dec 2026/);
    expect(await refused(letter.id, { effectiveFrom: '2026-02-01' })).toMatch(/valid only from 1 Mar 2026/);
    await kitchen.ask('paper.strike', { paperId: letter.id, why: 'Withdrawn' });
    expect(await refused(letter.id)).toMatch(/struck out \(MG: Withdrawn\)/);
  });

  it('has a looser figure only with a variance on limits that is valid today, letter or not', async () => {
    const kitchen = await openTestKitchen();
    const looser = { changes: [{ checkId: 'HOT-145-30', minutes: 20 }] };
    expect(await refusal(kitchen.reply('limits.addSet', setInput(looser)))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('No variance is on file.') });
    const letter = await addLetter(kitchen, 'limit-letter');
    expect(await refusal(kitchen.reply('limits.addSet', setInput({ ...looser, paperId: letter.id })))).toMatchObject({ code: 'RULE_BLOCKS' });
    const expired = await addLetter(kitchen, 'variance', { number: 'V-1', validUntil: '2026-11-24' });
    expect((await refusal(kitchen.reply('limits.addSet', setInput(looser)))).message).toMatch(/Variance V-1 \(the kitchen\) expired on 24 Nov 2026/);
    await addLetter(kitchen, 'variance', { number: 'V-0', subject: 'nitrite' });
    expect(await refusal(kitchen.reply('limits.addSet', setInput(looser)))).toMatchObject({ code: 'RULE_BLOCKS' });
    const variance = await addLetter(kitchen, 'variance', { number: 'V-2', validUntil: TODAY });
    const set = await addSet(kitchen, { ...looser, paperId: variance.id });
    expect(set.changes).toMatchObject([{ is: '145 °F or more, unbroken for 20 min', stricter: false }]);
    expect((await listed(kitchen, set.setId))?.checks.map((check) => check.checkId)).toContain('VARIANCE.OWN-1');
    await kitchen.ask('paper.strike', { paperId: variance.id, why: 'Withdrawn' });
    expect((await refusal(kitchen.reply('limits.addSet', setInput({ ...looser, name: 'Again' })))).message).toMatch(new RegExp(expired.number));
  });

  it('does not make a figure better known that nobody here has seen', async () => {
    const kitchen = await openTestKitchen();
    const check = (await listed(kitchen, 'wi'))?.checks.find((one) => one.mark === 'second-hand' || one.mark === 'from memory');
    const { figures } = await kitchen.ask('limits.own', {});
    const unseen = (await listed(kitchen, 'wi'))?.checks.filter((one) => one.mark !== 'read') ?? [];
    const cooling = unseen.find((one) => figures.find((each) => each.checkId === one.checkId)?.figures.some((figure) => figure.field === 'limit' && figure.stricter === 'lower'));
    expect(check).toBeDefined();
    const set = await addSet(kitchen, { baseSetId: 'wi', changes: [{ checkId: cooling?.checkId ?? '', field: 'limit', value: '-90', unit: 'F' }] });
    expect((await listed(kitchen, set.setId))?.mayDecide).toBe(false);
    for (const one of unseen) await kitchen.ask('limits.confirm', { checkId: one.checkId, document: 'Our copy' });
    expect((await listed(kitchen, set.setId))?.mayDecide).toBe(true);
  });

  const wrong: [string, Partial<SetInput>, (string | number)[], RegExp][] = [
    ['no figure changed', { changes: [] }, ['changes'], /No figure is changed/],
    ['the figure it has', { changes: [{ checkId: 'HOT-145-30', value: '145' }] }, ['changes'], /No figure is changed/],
    ['a check of another set', { changes: [{ checkId: 'COOL-FC', value: '1' }] }, ['changes', 0, 'checkId'], /has no check “COOL-FC”/],
    ['a word for a figure', { changes: [{ checkId: 'HOT-145-30', value: 'hot' }] }, ['changes', 0, 'value'], /“hot” is not a number/],
    ['a part of a minute', { changes: [{ checkId: 'HOT-145-30', minutes: 30.5 }] }, ['changes', 0, 'minutes'], /not a whole number/],
    ['a field it has not', { changes: [{ checkId: 'HOT-145-30', field: 'colour', value: '1' }] }, ['changes', 0, 'value'], /no figure “colour”/],
    ['a check without figures', { changes: [{ checkId: 'NIT-NONE', value: '1' }] }, ['changes', 0, 'checkId'], /no figure that could be changed/],
    ['a set that isn’t there', { baseSetId: 'moon' }, ['baseSetId'], /no limit set “moon”/],
    ['a day that isn’t there', { effectiveFrom: '2026-02-30' }, ['effectiveFrom'], /no day/],
  ];
  it.each(wrong)('is refused with a sentence: %s', async (_what, more, path, message) => {
    const kitchen = await openTestKitchen();
    const failure = await refusal(kitchen.reply('limits.addSet', setInput(more)));
    expect(failure.message).toMatch(message);
    expect(failure.fields?.[0]?.path).toEqual(path);
  });
});

describe('the next version of an own set', () => {
  it('keeps what the one before changed, is a set of its own, and measures looser by the published figure', async () => {
    const kitchen = await openTestKitchen();
    const first = await addSet(kitchen, { changes: [{ checkId: 'HOT-145-30', value: '150' }, { checkId: 'COLD-90-20', value: '80' }] });
    const second = await addSet(kitchen, { baseSetId: first.setId, changes: [{ checkId: 'HOT-145-30.OWN-1', value: '147' }] });
    expect([second.setId, second.version, second.baseSetId]).toEqual(['own-2', '2', 'lodge-default']);
    expect(second.changes.map((change) => [change.checkId, change.is, change.stricter])).toEqual([
      ['HOT-145-30', '147 °F or more, unbroken for 30 min', true], ['COLD-90-20', 'at most 80 °F, for at most 20 h', true],
    ]);
    expect((await kitchen.ask('limits.own', {})).sets.map((set) => set.setId)).toEqual(['own-1', 'own-2']);
    expect((await listed(kitchen, 'own-1'))?.checks.find((check) => check.checkId === 'HOT-145-30.OWN-1')?.figures).toContain('150 °F');
  });

  it('begins no earlier than the one before, and has a name that no published set has', async () => {
    const kitchen = await openTestKitchen();
    await addSet(kitchen, { effectiveFrom: '2026-12-01' });
    expect((await refusal(kitchen.reply('limits.addSet', setInput()))).message).toMatch(/in force from 1 Dec 2026, later than 25 Nov 2026/);
    const name = (await listed(kitchen, 'wi'))?.name ?? '';
    expect((await refusal(kitchen.reply('limits.addSet', setInput({ name })))).fields?.[0]?.path).toEqual(['name']);
  });
});

describe('which set decides', () => {
  it('goes by whose fish it is, from the day a version is in force, and a batch keeps the one it was made under', async () => {
    const kitchen = await openTestKitchen();
    const first = await addSet(kitchen);
    await kitchen.ask('limits.decideFor', { guest: first.setId, supplier: 'lodge-default' });
    const catchLot = await receive(kitchen, { source: guest('Ada Berg') });
    const bought = await receive(kitchen);
    expect((await makeBatch(kitchen, [bought.id], { fillets: { text: '2', unit: 'lb' } })).setId).toBe('lodge-default');
    const batch = await makeBatch(kitchen, [catchLot.id], { fillets: { text: '2', unit: 'lb' } });
    expect(batch.setId).toBe('own-1');
    await addSet(kitchen, { baseSetId: 'own-1', effectiveFrom: '2026-11-26', changes: [{ checkId: 'HOT-145-30', value: '160' }] });
    expect((await makeBatch(kitchen, [catchLot.id], { fillets: { text: '2', unit: 'lb' } })).setId).toBe('own-1');
    kitchen.clock.advance(DAY_MS);
    expect((await makeBatch(kitchen, [catchLot.id], { fillets: { text: '2', unit: 'lb' } })).setId).toBe('own-2');
    expect((await kitchen.ask('batch.get', { batchId: batch.id })).batch.setId).toBe('own-1');
    expect((await kitchen.ask('limits.list', {})).sets.filter((set) => set.decides).map((set) => set.setId).toSorted()).toEqual(['lodge-default', 'own-2']);
  });

  it('is refused for a set that isn’t in force yet, may only be compared against, or isn’t there', async () => {
    const kitchen = await openTestKitchen();
    await addSet(kitchen, { effectiveFrom: '2026-12-01' });
    const refused = (guestSet: string) => refusal(kitchen.reply('limits.decideFor', { guest: guestSet, supplier: 'lodge-default' }));
    expect(await refused('own-1')).toMatchObject({ code: 'RULE_BLOCKS', message: 'Our plan, version 1, is in force only from 1 Dec 2026.', fields: [{ path: ['guest'] }] });
    expect(await refused('wi')).toMatchObject({ code: 'RULE_BLOCKS' });
    expect(await refused('moon')).toMatchObject({ code: 'NOT_FOUND' });
    expect((await kitchen.ask('limits.own', {})).decidingFor).toEqual({ guest: 'lodge-default', supplier: 'lodge-default' });
  });

  it('is a manager’s to choose', async () => {
    const kitchen = await openTestKitchen();
    expect(await refusal(kitchen.reply('limits.decideFor', { guest: 'lodge-default', supplier: 'lodge-default' }, 'CH'))).toMatchObject({ code: 'NOT_ALLOWED' });
  });
});
