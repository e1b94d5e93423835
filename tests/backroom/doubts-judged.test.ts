import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { COOL_MINUTES, coolingColumns, openLoad, openSmokeKitchen, pointId, releaseInput, SMOKE_MINUTES, smokeAndCool, smokeColumns, takeOver, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf, steadyAir, type MinuteSeries } from './smoke-log.ts';

type Doubt = Output<'doubt.list'>['doubts'][number];

async function doubtsIn({ kitchen, batchId }: SmokeKitchen): Promise<Doubt[]> {
  return (await kitchen.ask('doubt.list', { batchId })).doubts;
}
async function decideAll(smoke: SmokeKitchen, decision: 'exclude' | 'keep', why: string): Promise<void> {
  for (const { pointId: point, kind, fromMs, toMs } of await doubtsIn(smoke)) {
    await smoke.kitchen.ask('doubt.decide', { batchId: smoke.batchId, pointId: point, kind, fromMs, toMs, decision, why }, 'CH');
  }
}
async function judged({ kitchen, batchId }: SmokeKitchen, checkId: string) {
  const { deciding, asRecorded } = await kitchen.ask('batch.verdict', { batchId });
  const find = (result: Output<'batch.verdict'>['deciding'] | null) => result?.checks.find((check) => check.checkId === checkId);
  return { deciding: find(deciding), asRecorded: find(asRecorded), words: deciding.words };
}

function changed(column: MinuteSeries | undefined, change: (core: number, minute: number) => number): number[] {
  return (column ?? []).map((core, minute) => Math.round(change(core, minute) * 10) / 10);
}

/** A hot smoke whose second probe has a column of its own making; the load is out of the smoker. */
async function hotSmoke(change: (core: number, minute: number) => number): Promise<{ smoke: SmokeKitchen; load: Output<'load.open'>['load']; inMs: number }> {
  const smoke = await openSmokeKitchen();
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  smoke.kitchen.clock.set(inMs + (SMOKE_MINUTES + 60) * MINUTE_MS);
  const columns = smokeColumns();
  await takeOver(smoke, load, 'smoke.csv', csvOf(inMs, { ...columns, 'Probe 2': changed(columns['Probe 2'], change) }), true);
  return { smoke, load, inMs };
}

/** One reading far too low every twenty minutes: no half hour without one. */
const badContact = (core: number, minute: number): number => (minute > 100 && minute % 20 === 0 ? core - 40 : core);
/** Out of the fish for ten minutes of every twenty. */
const pulled = (core: number, minute: number): number => (minute > 100 && minute < 345 && minute % 25 < 10 ? 68 + (core - 68) * Math.exp(-((minute % 25) + 1) / 1.2) : core);

describe('readings in doubt, judged', () => {
  it('raise no doubt in clean logs of a smoke and its cooling', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    expect(await doubtsIn(smoke)).toEqual([]);
  });

  it('raise none in the demonstration book', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const { batches } = await kitchen.ask('batch.list', {});
    expect(batches.length).toBeGreaterThan(2);
    for (const { id, shortName } of batches) expect((await kitchen.ask('doubt.list', { batchId: id })).doubts, shortName).toEqual([]);
  });

  it('break a hold until somebody decides; left out, its short holes break it no more, and as recorded it stays broken', async () => {
    const { smoke } = await hotSmoke(badContact);
    expect((await doubtsIn(smoke)).map(({ kind, readings }) => [kind, readings])).toEqual(Array.from({ length: 12 }, () => ['spike', 1]));
    const undecided = await judged(smoke, 'HOT-145-30');
    expect(undecided.deciding).toMatchObject({ verdict: 'misses', reason: expect.stringContaining('in doubt') });
    expect(undecided.asRecorded).toBeUndefined();
    await decideAll(smoke, 'exclude', 'Bad contact or cable.');
    const left = await judged(smoke, 'HOT-145-30');
    expect(left.deciding?.verdict).toBe('meets');
    expect(left.asRecorded?.verdict).toBe('misses');
    expect(left.words).toContain('With 12 readings excluded');
  });

  it('count as real once they are kept', async () => {
    const { smoke } = await hotSmoke(badContact);
    await decideAll(smoke, 'keep', 'I saw it: the reading is right.');
    const { deciding, asRecorded } = await judged(smoke, 'HOT-145-30');
    expect(deciding?.verdict).toBe('misses');
    expect(deciding?.reason).not.toContain('in doubt');
    expect(asRecorded).toBeUndefined();
  });

  it('of a pulled probe leave holes that prove nothing, but no longer prove a miss', async () => {
    const { smoke } = await hotSmoke(pulled);
    expect(new Set((await doubtsIn(smoke)).map(({ kind }) => kind))).toEqual(new Set(['pulled-probe']));
    expect((await judged(smoke, 'HOT-145-30')).deciding?.verdict).toBe('misses');
    await decideAll(smoke, 'exclude', 'The probe was out of the fish.');
    const left = await judged(smoke, 'HOT-145-30');
    expect(left.deciding?.verdict).toBe('not-proven');
    expect(left.asRecorded?.verdict).toBe('misses');
  });

  it('are over a ceiling as real ones are, until they are left out', async () => {
    const smoke = await openSmokeKitchen({ process: 'cold' });
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    smoke.kitchen.clock.set(inMs + 10 * HOUR_MS);
    const chamber = changed(steadyAir(600, 78), (air, minute) => (minute === 200 ? 200 : air + (minute % 3) * 0.2));
    await takeOver(smoke, load, 'night.csv', csvOf(inMs, { 'Probe 1': changed(steadyAir(600, 70), (core, minute) => core + (minute % 3) * 0.2), Chamber: chamber }), true);
    expect(await doubtsIn(smoke)).toMatchObject([{ kind: 'spike', pointName: 'Chamber', readings: 1 }]);
    expect((await judged(smoke, 'COLD-90-20')).deciding?.verdict).toBe('misses');
    await decideAll(smoke, 'exclude', 'Bad contact or cable.');
    const left = await judged(smoke, 'COLD-90-20');
    expect(left.deciding?.verdict).toBe('meets');
    expect(left.asRecorded?.verdict).toBe('misses');
  });

  it('are those of one thermometer: what another one read in the same minute stays', async () => {
    const { smoke, load, inMs } = await hotSmoke(badContact);
    const atMs = inMs + 200 * MINUTE_MS;
    await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: pointId(load, 'Centre cut'), atMs, value: { text: '120', unit: 'F' }, instrumentId: smoke.handId }] });
    await decideAll(smoke, 'exclude', 'Bad contact or cable.');
    expect((await judged(smoke, 'HOT-145-30')).words).toContain('With 12 readings excluded');
    const { deciding } = await judged(smoke, 'HOT-145-30');
    const piece = deciding?.pieces.find(({ name }) => name === 'Centre cut');
    // The hand thermometer's 120 °F at minute 200 is out: the hold ends there, and begins again after it.
    expect(deciding?.spans.some(({ pointId: point, toMs, counts }) => point === pointId(load, 'Centre cut') && counts && toMs > atMs)).toBe(true);
    expect(piece?.provenMinutes).toBeLessThan(SMOKE_MINUTES - 200);
  });

  it('are decided on as they were on record: what is entered later in that stretch is in doubt anew, and not left out', async () => {
    const { smoke, load, inMs } = await hotSmoke((core, minute) => (minute >= 300 && minute < 312 ? pulled(core, minute - 300 + 125) : core));
    await decideAll(smoke, 'exclude', 'The probe was out of the fish.');
    expect((await doubtsIn(smoke)).map(({ readings, decided }) => [readings, decided?.decision])).toEqual([[10, 'exclude']]);
    const between = changed(smokeColumns()['Probe 2'], (core, minute) => (minute >= 302 && minute < 308 ? 70 : core));
    await takeOver(smoke, load, 'later.csv', csvOf(inMs + MINUTE_MS / 2, { 'Probe 2': between }, (minute) => minute < 302 || minute >= 308), false);
    expect((await doubtsIn(smoke)).map(({ readings, decided }) => [readings, decided])).toEqual([[16, null]]);
    expect((await judged(smoke, 'HOT-145-30')).words).toContain('With 10 readings excluded');
  });

  it('may be decided anew: a batch released on what was left out comes back as work when it is kept after all', async () => {
    const { smoke, load, inMs } = await hotSmoke(badContact);
    const { kitchen, batchId } = smoke;
    const outMs = inMs + SMOKE_MINUTES * MINUTE_MS;
    const cooledMs = outMs + COOL_MINUTES * MINUTE_MS;
    kitchen.clock.set(cooledMs);
    await takeOver(smoke, load, 'cooling.csv', csvOf(outMs + MINUTE_MS, coolingColumns(smokeColumns())), false);
    await kitchen.ask('load.mark', { loadId: load.id, what: 'cooled', atMs: cooledMs });
    await decideAll(smoke, 'exclude', 'Bad contact or cable.');
    await kitchen.ask('batch.decide', releaseInput(batchId, { initialsForError: true }));
    await decideAll(smoke, 'keep', 'I saw it: the reading is right.');
    expect((await judged(smoke, 'HOT-145-30')).deciding?.verdict).toBe('misses');
    expect((await kitchen.ask('worklist.get', {})).items).toMatchObject([{ batchId, what: 'decide-again', done: null, text: expect.stringContaining('HOT-145-30') }]);
    const { entries } = await kitchen.ask('record.batch', { batchId });
    expect(entries.filter(({ kind }) => kind === 'doubt.exclude')).toHaveLength(13);
    expect(entries.filter(({ kind }) => kind === 'doubt.keep')).toHaveLength(13);
  });
});
