import { describe, expect, it } from 'vitest';
import { openLoad, openSmokeKitchen, pointId, refusal, releaseInput, smokeAndCool, takeOver, type Smoked, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf } from './smoke-log.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** A batch released, sealed in two packs, one of them labelled; then a day passes. */
async function releasedAndPacked(): Promise<{ smoke: SmokeKitchen; smoked: Smoked; packIds: string[]; codes: string[] }> {
  const smoke = await openSmokeKitchen();
  const smoked = await smokeAndCool(smoke, { topF: 150 });
  const { kitchen, batchId } = smoke;
  await kitchen.ask('batch.decide', releaseInput(batchId, { initialsForError: true }));
  const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }, { text: '1.1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() });
  await kitchen.ask('label.printed', { packIds: packs.slice(0, 1).map(({ id }) => id), stockId: '4x3in' });
  kitchen.clock.advance(DAY_MS);
  return { smoke, smoked, packIds: packs.map(({ id }) => id), codes: packs.map(({ code }) => code) };
}

async function readHigh({ kitchen, probeIds }: SmokeKitchen): Promise<string[]> {
  const checked = await kitchen.ask('instrument.check', { instrumentId: probeIds[0] ?? '', atMs: kitchen.clock.nowMs(), ice: { text: '35', unit: 'F' }, boiling: null, altitudeMetres: '', pressureHectopascals: '' });
  return checked.affectedBatches;
}

describe('a probe that read high, found the next day', () => {
  it('brings the released batch back as work: decide again, the labels, the packs by name', async () => {
    const { smoke, codes } = await releasedAndPacked();
    const { kitchen } = smoke;
    expect((await kitchen.ask('worklist.get', {})).items).toEqual([]);
    const affected = await readHigh(smoke);
    expect(affected).toHaveLength(1);
    const { items } = await kitchen.ask('worklist.get', {});
    expect(items.map(({ what, done }) => [what, done])).toEqual([['decide-again', null], ['labels', null], ['packs', null]]);
    expect(items[0]?.text).toContain('HOT-145-30');
    expect(items[0]?.text).toContain('Probe 1 was checked');
    expect(items[1]?.text).toContain(codes[0]);
    expect(items[1]?.text).not.toContain(codes[1]);
    for (const code of codes) expect(items[2]?.text).toContain(code);
  });

  it('stops sealing and printing until a manager decides again, and is listed once', async () => {
    const { smoke, packIds } = await releasedAndPacked();
    const { kitchen, batchId } = smoke;
    await readHigh(smoke);
    await readHigh(smoke);
    expect((await kitchen.ask('worklist.get', {})).items).toHaveLength(3);
    const seal = { batchId, weights: [{ text: '1', unit: 'lb' as const }], sealedAtMs: kitchen.clock.nowMs() };
    expect(await refusal(kitchen.reply('pack.seal', seal))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('must be decided again') });
    expect((await refusal(kitchen.reply('label.forPacks', { packIds, stockId: '4x3in' }))).code).toBe('RULE_BLOCKS');
    expect(await refusal(kitchen.reply('batch.decide', releaseInput(batchId)))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('HOT-145-30') });
    await kitchen.ask('batch.decide', releaseInput(batchId, { decision: 'hold', reason: 'The probe read high.', keptWhere: 'red tub' }));
    const { items } = await kitchen.ask('worklist.get', {});
    expect(items.map(({ what, done }) => [what, done !== null])).toEqual([['labels', false], ['packs', false], ['decide-again', true]]);
  });

  it('has its other work ticked off by name, with how; the decision can’t be ticked off', async () => {
    const { smoke } = await releasedAndPacked();
    const { kitchen } = smoke;
    await readHigh(smoke);
    const { items } = await kitchen.ask('worklist.get', {});
    const id = (what: string) => items.find((item) => item.what === what)?.id ?? '';
    expect((await refusal(kitchen.reply('worklist.done', { itemId: id('decide-again'), how: 'Done.' }))).code).toBe('RULE_BLOCKS');
    const after = await kitchen.ask('worklist.done', { itemId: id('packs'), how: 'Both in the red tub in the walk-in.' }, 'HA');
    expect(after.items.find((item) => item.what === 'packs')?.done).toMatchObject({ initials: 'HA', how: 'Both in the red tub in the walk-in.' });
    expect((await refusal(kitchen.reply('worklist.done', { itemId: id('packs'), how: 'Again.' }))).code).toBe('CONFLICT');
  });

  it('touches no batch that was read by another thermometer', async () => {
    const { smoke } = await releasedAndPacked();
    const { id } = await smoke.kitchen.ask('office.addInstrument', { name: 'Spare', kind: 'hand-thermometer', error: null });
    const { affectedBatches } = await smoke.kitchen.ask('instrument.check', { instrumentId: id, atMs: smoke.kitchen.clock.nowMs(), ice: { text: '36', unit: 'F' }, boiling: null, altitudeMetres: '', pressureHectopascals: '' });
    expect(affectedBatches).toEqual([]);
  });
});

describe('other records that come later', () => {
  it('bring a released batch back: a late reading that breaks its cooling', async () => {
    const { smoke, smoked } = await releasedAndPacked();
    const { kitchen } = smoke;
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: pointId(smoked.load, 'Thick end'), atMs: smoked.outMs + 130 * MINUTE_MS, value: { text: '90', unit: 'F' }, instrumentId: null }] });
    expect((await kitchen.ask('worklist.get', {})).items[0]?.text).toContain('COOL-AFDO');
  });

  it('bring it back: nitrite found in a species where none is permitted', async () => {
    const { smoke } = await releasedAndPacked();
    const { kitchen, batchId } = smoke;
    await kitchen.ask('lab.record', { batchId, sampledOn: '2026-11-26', sample: 'loin', laboratory: 'Harbour Laboratory', saltPercent: '2.40', moisturePercent: '64.1', nitritePpm: '60' });
    const { items } = await kitchen.ask('worklist.get', {});
    expect(items[0]).toMatchObject({ what: 'decide-again', batchId });
    expect(items[0]?.text).toContain('NIT-NONE');
  });
});

describe('what is no reason to decide again', () => {
  it('is a choice of a limit that wasn’t taken: a freezer too warm for the shorter freezings, cold enough for the longest', async () => {
    const smoke = await openSmokeKitchen({ process: 'cold' });
    const { kitchen, batchId } = smoke;
    const load = await openLoad(smoke);
    const inMs = kitchen.clock.nowMs();
    kitchen.clock.advance(10 * 60 * MINUTE_MS);
    const air = Array.from({ length: 601 }, () => 76);
    await takeOver(smoke, load, 'cold.csv', csvOf(inMs, { 'Probe 1': air.map(() => 70), 'Probe 2': air.map(() => 70), 'Probe 3': air.map(() => 70), Chamber: air }), true);
    await kitchen.ask('batch.decide', releaseInput(batchId));
    const outMs = kitchen.clock.nowMs();
    kitchen.clock.advance(DAY_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: outMs, placeId: smoke.freezerId });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: outMs + DAY_MS / 2, placeId: null });
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [1, 12, 23].map((hour) => ({ pointId: smoke.freezerId, atMs: outMs + hour * 60 * MINUTE_MS, value: { text: '-6', unit: 'F' as const }, instrumentId: smoke.handId })) });
    const { checks } = (await kitchen.ask('batch.verdict', { batchId })).deciding;
    expect(checks.filter(({ question, verdict }) => question === 'parasite' && verdict === 'misses').length).toBeGreaterThan(0);
    expect((await kitchen.ask('worklist.get', {})).items).toEqual([]);
  });
});
