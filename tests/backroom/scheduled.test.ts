import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { addLetter, addPaper } from './paper-drafts.ts';
import { openSmokeKitchen, refusal } from './smoke-kitchen.ts';

type Draft = Input<'scheduled.save'>['draft'];

function draft(paperId: string, more: Partial<Draft> = {}): Draft {
  return {
    name: 'Plain brine, vacuum', paperId, recipeId: 'plain-brine', recipeVersion: 1, ratioAtLeast: '1', thicknessMmAtMost: '30', soakHoursAtLeast: '2',
    brineAtMost: { text: '40', unit: 'F' }, yieldPercentAtMost: '', laboratory: 'Northwater laboratory 7', verifiedOn: '2026-06-01', verifiedUntil: '2027-05-31', ...more,
  };
}
async function save(kitchen: TestKitchen, more: Partial<Draft> = {}) {
  const letter = await addLetter(kitchen, 'process-letter');
  return (await kitchen.ask('scheduled.save', { scheduledId: null, draft: draft(letter.id, more) })).scheduled;
}

describe('a scheduled process', () => {
  it('is kept with the letter it rests on', async () => {
    const kitchen = await openTestKitchen();
    const scheduled = await save(kitchen);
    expect(scheduled).toMatchObject({ name: 'Plain brine, vacuum', thicknessMmAtMost: '30', savedBy: 'MG', savedAtMs: kitchen.clock.nowMs() });
    expect((await kitchen.ask('paper.list', {})).scheduled).toEqual([scheduled]);
  });

  it('is refused without a process authority’s letter that counts', async () => {
    const kitchen = await openTestKitchen();
    const other = await addPaper(kitchen);
    const asked = (paperId: string) => refusal(kitchen.reply('scheduled.save', { scheduledId: null, draft: draft(paperId) }));
    expect(await asked('nowhere')).toMatchObject({ code: 'NOT_FOUND', fields: [{ path: ['draft', 'paperId'] }] });
    expect(await asked(other.id)).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('not a process authority’s letter') });
    const letter = await addLetter(kitchen, 'process-letter');
    await kitchen.ask('paper.strike', { paperId: letter.id, why: 'Replaced' });
    expect(await asked(letter.id)).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('struck out') });
  });

  const wrong: [string, Partial<Draft>, string[], RegExp][] = [
    ['a version that isn’t there', { recipeVersion: 9 }, ['draft', 'recipeVersion'], /no version 9/],
    ['a version of no recipe', { recipeId: null }, ['draft', 'recipeId'], /without its recipe/],
    ['a comma', { ratioAtLeast: '1,5' }, ['draft', 'ratioAtLeast'], /“1,5” is not a plain number/],
    ['too many decimals', { thicknessMmAtMost: '30.00001' }, ['draft', 'thicknessMmAtMost'], /at most four decimals/],
    ['nought', { soakHoursAtLeast: '0' }, ['draft', 'soakHoursAtLeast'], /0 can’t be right/],
    ['a temperature that is none', { brineAtMost: { text: 'cold', unit: 'F' } }, ['draft', 'brineAtMost', 'text'], /not a temperature/],
    ['a verification by nobody', { laboratory: '' }, ['draft', 'laboratory'], /Which laboratory/],
    ['a verification that ended before it began', { verifiedUntil: '2026-05-31' }, ['draft', 'verifiedUntil'], /report is of 1 Jun 2026/],
    ['no limit at all', { recipeId: null, recipeVersion: null, ratioAtLeast: '', thicknessMmAtMost: '', soakHoursAtLeast: '', brineAtMost: null }, ['draft', 'recipeId'], /no limit at all/],
  ];
  it.each(wrong)('is refused with a sentence: %s', async (_what, more, path, message) => {
    const kitchen = await openTestKitchen();
    const letter = await addLetter(kitchen, 'process-letter');
    const failure = await refusal(kitchen.reply('scheduled.save', { scheduledId: null, draft: draft(letter.id, more) }));
    expect(failure.message).toMatch(message);
    expect(failure.fields?.[0]?.path).toEqual(path);
  });

  it('can’t be changed under a batch that uses it, but a verification that was missing may be added', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    const scheduled = await save(kitchen, { laboratory: '', verifiedOn: null, verifiedUntil: null });
    const again = (more: Partial<Draft>) => kitchen.reply('scheduled.save', { scheduledId: scheduled.id, draft: draft(scheduled.paperId, more) });
    expect((await again({ thicknessMmAtMost: '31', laboratory: '', verifiedOn: null, verifiedUntil: null })).ok).toBe(true);
    await kitchen.ask('batch.useScheduled', { batchId, scheduledId: scheduled.id });
    expect(await refusal(again({ thicknessMmAtMost: '40' }))).toMatchObject({ code: 'CONFLICT' });
    expect((await again({ thicknessMmAtMost: '31' })).ok).toBe(true);
    expect(await refusal(again({ thicknessMmAtMost: '31', verifiedUntil: '2028-05-31' }))).toMatchObject({ code: 'CONFLICT' });
  });
});

describe('a batch’s scheduled process', () => {
  it('is given by a chef and taken off again', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    const scheduled = await save(kitchen);
    expect(await kitchen.ask('batch.useScheduled', { batchId, scheduledId: scheduled.id }, 'CH')).toEqual({ batchId });
    await kitchen.ask('batch.useScheduled', { batchId, scheduledId: null }, 'CH');
    expect(await refusal(kitchen.reply('batch.useScheduled', { batchId, scheduledId: scheduled.id }, 'HA'))).toMatchObject({ code: 'NOT_ALLOWED' });
    expect(await refusal(kitchen.reply('batch.useScheduled', { batchId, scheduledId: 'none' }))).toMatchObject({ code: 'NOT_FOUND' });
  });

  it('is not given once its letter is struck out', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    const scheduled = await save(kitchen);
    await kitchen.ask('paper.strike', { paperId: scheduled.paperId, why: 'Withdrawn' });
    expect(await refusal(kitchen.reply('batch.useScheduled', { batchId, scheduledId: scheduled.id }))).toMatchObject({ code: 'RULE_BLOCKS' });
  });

  it('is not changed after the batch was rejected, which a HOLD alone is not', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    const scheduled = await save(kitchen);
    const decide = (decision: 'hold' | 'reject') => kitchen.ask('batch.decide', { batchId, decision, reason: 'Looked at.', pack: 'vacuum', store: 'frozen', keptWhere: 'Cooler', initialsForError: false });
    await decide('hold');
    await kitchen.ask('batch.useScheduled', { batchId, scheduledId: scheduled.id });
    await decide('reject');
    expect(await refusal(kitchen.reply('batch.useScheduled', { batchId, scheduledId: null }))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('rejected by MG') });
  });
});

describe('the scheduled processes beside a batch', () => {
  it('say limit by limit what the batch was, and whether it is inside', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    await save(kitchen, { thicknessMmAtMost: '20' });
    const { chosenId, choices } = await kitchen.ask('scheduled.forBatch', { batchId }, 'HA');
    const { batch } = await kitchen.ask('batch.get', { batchId });
    expect(chosenId).toBeNull();
    expect(choices).toMatchObject([{ name: 'Plain brine, vacuum', letter: 'Northwater Process Authority, L-7', inside: false, reason: expect.stringMatching(/^Outside Plain brine, vacuum: thickest piece in mm .+, at most 20 asked/) }]);
    const window = new Map(choices[0]?.window.map((item) => [item.what, item]));
    expect(window.get('thickest piece in mm')).toEqual({ what: 'thickest piece in mm', asked: 'at most 20', actual: String(batch.thickestMm), inside: false });
    expect(window.get('hours in the brine')).toEqual({ what: 'hours in the brine', asked: 'at least 2', actual: '2', inside: true });
  });

  it('are those whose letter counts, and the chosen one whatever became of its letter', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    expect(await kitchen.ask('scheduled.forBatch', { batchId })).toEqual({ chosenId: null, choices: [] });
    const scheduled = await save(kitchen);
    await kitchen.ask('batch.useScheduled', { batchId, scheduledId: scheduled.id });
    await kitchen.ask('paper.strike', { paperId: scheduled.paperId, why: 'Withdrawn' });
    const asked = await kitchen.ask('scheduled.forBatch', { batchId });
    expect(asked).toMatchObject({ chosenId: scheduled.id, choices: [{ scheduledId: scheduled.id, inside: false }] });
    await kitchen.ask('batch.useScheduled', { batchId, scheduledId: null });
    expect(await kitchen.ask('scheduled.forBatch', { batchId })).toEqual({ chosenId: null, choices: [] });
  });

  it('say the same as the verdict of a batch that was given one', async () => {
    const { kitchen, batchId } = await openSmokeKitchen({ pack: 'vacuum', store: 'refrigerated' });
    const scheduled = await save(kitchen, { brineAtMost: null, thicknessMmAtMost: '60' });
    await kitchen.ask('batch.useScheduled', { batchId, scheduledId: scheduled.id });
    const { choices } = await kitchen.ask('scheduled.forBatch', { batchId });
    const { deciding } = await kitchen.ask('batch.verdict', { batchId });
    const inVerdict = deciding.checks.find(({ checkId }) => checkId === 'SCHEDULED');
    expect(choices[0]?.inside).toBe(true);
    expect(inVerdict).toMatchObject({ verdict: 'meets', reason: choices[0]?.reason });
  });
});
