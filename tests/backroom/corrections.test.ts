import { describe, expect, it } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import { COHO, guest, HOUR_MS, LAKE_TROUT, makeBatch, receive, soakInput, WHITEFISH } from './fish-and-brine.ts';
import { openSmokeKitchen, pointId, refusal, releaseInput, smokeAndCool, type Smoked, type SmokeKitchen } from './smoke-kitchen.ts';

const DAY_MS = 86_400_000;

/** A batch of one lot, or of two, released; sealed in two packs, the first of them labelled. */
async function releasedAndPacked(lot: Partial<Input<'fishLot.receive'>> = {}): Promise<{ smoke: SmokeKitchen; smoked: Smoked; lotId: string; packIds: string[]; codes: string[] }> {
  const smoke = await openSmokeKitchen({}, lot);
  const smoked = await smokeAndCool(smoke);
  const { kitchen, batchId } = smoke;
  await kitchen.ask('batch.decide', releaseInput(batchId));
  const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }, { text: '1.1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() });
  await kitchen.ask('label.printed', { packIds: packs.slice(0, 1).map(({ id }) => id), stockId: '4x3in' });
  kitchen.clock.advance(DAY_MS);
  const [{ id: lotId } = { id: '' }] = (await kitchen.ask('fishLot.list', {})).lots;
  return { smoke, smoked, lotId, packIds: packs.map(({ id }) => id), codes: packs.map(({ code }) => code) };
}

const speciesInput = (lotId: string, speciesId: string): Input<'fishLot.correct'> => ({ lotId, speciesId, ownerName: null, why: 'The tag said so.' });

function open(items: Output<'worklist.get'>['items']): string[] {
  return items.filter(({ done }) => done === null).map(({ what }) => what);
}

describe('a correction of a lot', () => {
  it('goes to its batches, is recorded with the old, and is refused when nothing changes', async () => {
    const { smoke, lotId } = await releasedAndPacked();
    const { kitchen, batchId } = smoke;
    await kitchen.ask('fishLot.correct', speciesInput(lotId, LAKE_TROUT), 'CH');
    expect((await kitchen.ask('batch.get', { batchId })).batch.marketName).toBe('Lake Trout');
    const { entries } = await kitchen.ask('record.batch', { batchId });
    expect(entries.find((entry) => entry.kind === 'batch.correct')).toMatchObject({ why: 'The tag said so.', person: 'CH' });
    expect((await refusal(kitchen.reply('fishLot.correct', speciesInput(lotId, LAKE_TROUT)))).code).toBe('CONFLICT');
    expect((await refusal(kitchen.reply('fishLot.correct', speciesInput(lotId, 'Piscis nullus')))).code).toBe('INVALID_INPUT');
  });

  it('asks the nitrite question anew: permitted in the species that was entered, not in the one it is', async () => {
    const { smoke, lotId } = await releasedAndPacked({ speciesId: COHO });
    const { kitchen, batchId } = smoke;
    await kitchen.ask('lab.record', { batchId, sampledOn: '2026-11-26', sample: 'loin', laboratory: 'Harbour Laboratory', saltPercent: '2.40', moisturePercent: '64.1', nitritePpm: '60' });
    expect((await kitchen.ask('worklist.get', {})).items).toEqual([]);
    const { affectedBatches } = await kitchen.ask('fishLot.correct', speciesInput(lotId, LAKE_TROUT));
    expect(affectedBatches).toHaveLength(1);
    const { items } = await kitchen.ask('worklist.get', {});
    expect(items.find(({ what }) => what === 'decide-again')?.text).toContain('NIT-NONE');
    expect((await refusal(kitchen.reply('batch.decide', releaseInput(batchId)))).message).toContain('NIT-NONE');
  });

  it('leaves a release standing that still does, and asks for the labels anew: the next print names what it is', async () => {
    const { smoke, lotId, packIds, codes } = await releasedAndPacked();
    const { kitchen } = smoke;
    const { affectedBatches } = await kitchen.ask('fishLot.correct', speciesInput(lotId, LAKE_TROUT));
    expect(affectedBatches).toEqual([]);
    const { items } = await kitchen.ask('worklist.get', {});
    expect(open(items)).toEqual(['labels']);
    expect(items[0]?.text).toContain('Lake Trout, not Lake Whitefish');
    expect(items[0]?.text).toContain(codes[0]);
    expect(items[0]?.text).not.toContain(codes[1]);
    const { labels } = await kitchen.ask('label.printed', { packIds, stockId: '4x3in', why: 'The species was corrected.' });
    expect(JSON.stringify(labels[0]?.blocks)).toContain('Lake Trout');
  });

  it('of the owner comes onto the label, and asks for the printed ones anew', async () => {
    const { smoke, lotId, packIds } = await releasedAndPacked({ source: guest('Tove Lindqvist') });
    const { kitchen } = smoke;
    await kitchen.ask('fishLot.correct', { lotId, speciesId: null, ownerName: 'Ines Marchetti', why: 'Two tags were swapped.' });
    expect(open((await kitchen.ask('worklist.get', {})).items)).toEqual(['labels']);
    expect(JSON.stringify((await kitchen.ask('label.forPacks', { packIds, stockId: '4x3in' })).labels[0]?.blocks)).toContain('Ines Marchetti');
  });
});

describe('a batch of two lots', () => {
  async function ofTwoLots(lot: Partial<Input<'fishLot.receive'>> = {}): Promise<{ smoke: SmokeKitchen; batchId: string; lotIds: [string, string] }> {
    const smoke = await openSmokeKitchen();
    const [first, second] = [await receive(smoke.kitchen, lot), await receive(smoke.kitchen, lot)];
    const { id } = await makeBatch(smoke.kitchen, [first.id, second.id]);
    return { smoke, batchId: id, lotIds: [first.id, second.id] };
  }

  it('keeps its species until both are corrected, and then is what they are', async () => {
    const { smoke: { kitchen }, batchId, lotIds: [first, second] } = await ofTwoLots();
    await kitchen.ask('fishLot.correct', speciesInput(first, LAKE_TROUT));
    expect((await kitchen.ask('batch.get', { batchId })).batch.marketName).toBe('Lake Whitefish');
    await kitchen.ask('fishLot.correct', speciesInput(second, LAKE_TROUT));
    expect((await kitchen.ask('batch.get', { batchId })).batch.marketName).toBe('Lake Trout');
  });

  it('is not released while they differ in species, nor while they differ in owner', async () => {
    const { smoke: { kitchen }, batchId, lotIds: [first] } = await ofTwoLots({ source: guest('Tove Lindqvist') });
    await kitchen.ask('fishLot.correct', speciesInput(first, LAKE_TROUT));
    expect(await refusal(kitchen.reply('batch.decide', releaseInput(batchId)))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('one tub takes one species') });
    await kitchen.ask('fishLot.correct', { ...speciesInput(first, WHITEFISH), ownerName: 'Ines Marchetti' });
    expect((await refusal(kitchen.reply('batch.decide', releaseInput(batchId)))).message).toContain('each guest gets their own fish back');
  });

  it('comes back when it was released, and goes out only by a new decision', async () => {
    const { smoke, batchId, lotIds: [first, second] } = await ofTwoLots();
    const { kitchen } = smoke;
    await kitchen.ask('soak.log', soakInput(batchId, 'start', kitchen.clock.nowMs()));
    kitchen.clock.advance(2 * HOUR_MS);
    await kitchen.ask('soak.log', soakInput(batchId, 'end', kitchen.clock.nowMs()));
    await smokeAndCool({ ...smoke, batchId, readyMs: kitchen.clock.nowMs() });
    await kitchen.ask('batch.decide', releaseInput(batchId));
    expect((await kitchen.ask('fishLot.correct', speciesInput(first, LAKE_TROUT))).affectedBatches).toHaveLength(1);
    const seal = { batchId, weights: [{ text: '1', unit: 'lb' as const }], sealedAtMs: kitchen.clock.nowMs() };
    expect((await refusal(kitchen.reply('pack.seal', seal))).message).toContain('must be decided again');
    await kitchen.ask('fishLot.correct', speciesInput(second, LAKE_TROUT));
    expect((await refusal(kitchen.reply('pack.seal', seal))).message).toContain('must be decided again');
    await kitchen.ask('batch.decide', releaseInput(batchId));
    expect(open((await kitchen.ask('worklist.get', {})).items)).toEqual([]);
    expect((await kitchen.ask('pack.seal', seal)).packs).toHaveLength(1);
  });
});

describe('a correction of how thick the fish is', () => {
  it('stays within what fillets are, and belongs to the batch', async () => {
    const { smoke, smoked } = await releasedAndPacked();
    const { kitchen, batchId } = smoke;
    const piece = pointId(smoked.load, 'Tail');
    await kitchen.ask('batch.correct', { batchId, thickestMm: 41, pieces: [{ pointId: piece, thicknessMm: 22 }], why: 'Measured again.' });
    expect((await kitchen.ask('batch.get', { batchId })).batch.thickestMm).toBe(41);
    expect((await refusal(kitchen.reply('batch.correct', { batchId, thickestMm: 0, pieces: [], why: 'x' }))).fields?.[0]?.path).toEqual(['thickestMm']);
    expect((await refusal(kitchen.reply('batch.correct', { batchId, thickestMm: 41, pieces: [], why: 'x' }))).code).toBe('CONFLICT');
    expect((await refusal(kitchen.reply('batch.correct', { batchId, thickestMm: null, pieces: [{ pointId: pointId(smoked.load, 'Chamber'), thicknessMm: 20 }], why: 'x' }))).code).toBe('INVALID_INPUT');
  });

  it('is refused where the thinnest piece would be thicker than the thickest', async () => {
    const smoke = await openSmokeKitchen({ thickestMm: 30, thinnestMm: 24 });
    const failure = await refusal(smoke.kitchen.reply('batch.correct', { batchId: smoke.batchId, thickestMm: 20, pieces: [], why: 'Measured again.' }));
    expect(failure).toMatchObject({ code: 'INVALID_INPUT', message: expect.stringContaining('24 mm') });
  });
});
