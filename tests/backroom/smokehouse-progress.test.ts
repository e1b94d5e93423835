import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { exactTicks } from '../../app/measures/temperature.ts';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, smokeColumns, takeOver, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf } from './smoke-log.ts';

type Load = Output<'load.open'>['load'];

/** A load that went in at 10:10, with what its page shows after a row read by hand in every piece. */
async function handRecord(): Promise<{ smoke: SmokeKitchen; load: Load; inMs: number; read(minute: number, degrees: string): Promise<Output<'load.get'>> }> {
  const smoke = await openSmokeKitchen();
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  smoke.kitchen.clock.set(inMs);
  await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
  const pieces = load.points.filter((point) => point.role === 'piece');
  const read = async (minute: number, degrees: string) => {
    const atMs = inMs + minute * MINUTE_MS;
    smoke.kitchen.clock.set(atMs);
    await smoke.kitchen.ask('readings.enter', {
      how: 'by-hand', readings: pieces.map(({ id }) => ({ pointId: id, atMs, value: { text: degrees, unit: 'F' as const }, instrumentId: smoke.handId })),
    });
    return smoke.kitchen.ask('load.get', { loadId: load.id });
  };
  return { smoke, load, inMs, read };
}

const needTexts = (shown: Output<'load.get'>) => [...new Set(shown.needs.map((need) => need.text))];
const dueTexts = (shown: Output<'load.get'>) => shown.nextReadings.map((next) => next.text);

describe('a hot load read by hand', () => {
  it('says how far each piece has to go, and when to read once it is there', async () => {
    const { read, inMs } = await handRecord();
    const early = await read(60, '140.9');
    expect(needTexts(early)).toEqual(['4.1 °F to go']);
    expect(dueTexts(early).at(0)).toBe('Piece Thick end: at 140.9 °F. From the first 145 °F on, read it every 10 min until 30 min are kept.');
    const reached = await read(90, '145.4');
    expect(needTexts(reached)).toEqual(['kept 0 of 30 min, all pieces together']);
    expect(reached.nextReadings.at(0)).toMatchObject({ atMs: inMs + 100 * MINUTE_MS, overdue: false, text: expect.stringContaining('read by 11:50: must show 145 °F or more') });
  });

  it('counts the minutes kept at 0, 10, 20 and 30, and then asks no more of the hold', async () => {
    const { read } = await handRecord();
    await read(90, '145.4');
    await read(100, '146');
    expect(needTexts(await read(110, '147'))).toEqual(['kept 20 of 30 min, all pieces together']);
    const kept = await read(120, '147.5');
    expect(needTexts(kept)).toEqual(['kept 30 of 30 min, all pieces together']);
    expect(kept.needs.at(0)).toMatchObject({ provenMinutes: 30, requiredMinutes: 30, lastTicks: exactTicks(147.5, 'F') });
    expect(kept.nextReadings).toEqual([]);
  });

  it('starts the minutes again after a gap, and says so', async () => {
    const { smoke, read, load } = await handRecord();
    await read(90, '146');
    await read(100, '146');
    smoke.kitchen.clock.advance(20 * MINUTE_MS);
    const shown = await smoke.kitchen.ask('load.get', { loadId: load.id });
    expect(shown.nextReadings.at(0)).toMatchObject({ overdue: true, text: expect.stringContaining('start again with the next reading') });
    expect(needTexts(await read(125, '146'))).toEqual(['kept 0 of 30 min, all pieces together']);
    expect(needTexts(await read(134, '146'))).toEqual(['kept 9 of 30 min, all pieces together']);
  });

  it('leads through the cooling: out, again within 15 min, then each target by its time', async () => {
    const { smoke, load, inMs, read } = await handRecord();
    for (const minute of [90, 100, 110, 120]) await read(minute, '147');
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: inMs + 121 * MINUTE_MS });
    const out = await smoke.kitchen.ask('load.get', { loadId: load.id });
    expect(dueTexts(out).at(0)).toBe('Piece Thick end: it has come out: read it now.');
    expect(dueTexts(await read(123, '142')).at(0)).toContain('Read it again within 15 min');
    const cooling = await read(135, '128');
    expect(needTexts(cooling)).toEqual(['70 °F or less by 14:13']);
    expect(cooling.limitLines.filter((line) => line.kind === 'target')).toEqual([
      { checkId: 'COOL-AFDO', ticks: exactTicks(70, 'F'), kind: 'target', text: '70 °F or less', byMs: inMs + 243 * MINUTE_MS },
      { checkId: 'COOL-AFDO', ticks: exactTicks(40, 'F'), kind: 'target', text: '40 °F or less', byMs: null },
    ]);
    const second = await read(230, '69');
    expect(needTexts(second)).toEqual(['40 °F or less by 16:25']);
    expect(dueTexts(second).at(0)).toContain('never over 120 min between readings');
    const done = await read(340, '39');
    expect(needTexts(done)).toEqual(['cooled to 40 °F or less']);
    expect(done.nextReadings).toEqual([]);
  });
});

describe('a load that a logger records', () => {
  it('is not nagged for readings while it smokes, and shows its series, limits and verdict so far', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    smoke.kitchen.clock.set(inMs + 140 * MINUTE_MS);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
    const columns = Object.fromEntries(Object.entries(smokeColumns()).map(([name, series]) => [name, series.slice(0, 141)]));
    await takeOver(smoke, load, 'so-far.csv', csvOf(inMs, columns), false);
    const shown = await smoke.kitchen.ask('load.get', { loadId: load.id });
    expect(shown.nextReadings).toEqual([]);
    expect(needTexts(shown)).toEqual(['kept 12 of 30 min, all pieces together']);
    expect(shown.limitLines.at(0)).toEqual({ checkId: 'HOT-145-30', ticks: exactTicks(145, 'F'), kind: 'minimum', text: '145 °F or above for 30 min', byMs: null });
    expect(shown.results).toMatchObject([{ batchId: smoke.batchId, result: { verdict: 'open', words: expect.stringMatching(/^So far: /) } }]);
    expect(shown.series.map(({ series }) => series.length)).toEqual([141, 141, 141, 141]);
  });

  it('sends series as little-endian arrays that give the readings back', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    smoke.kitchen.clock.set(inMs + 10 * MINUTE_MS);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
    await takeOver(smoke, load, 'three.csv', csvOf(inMs, { 'Probe 1': [41.5, 42, 44.1] }), false);
    const [first] = (await smoke.kitchen.ask('load.get', { loadId: load.id })).series;
    if (first === undefined) throw new Error('no series');
    const instants = new DataView(Uint8Array.from(atob(first.series.atMs), (letter) => letter.charCodeAt(0)).buffer);
    const ticks = new DataView(Uint8Array.from(atob(first.series.ticks), (letter) => letter.charCodeAt(0)).buffer);
    expect([0, 1, 2].map((index) => [instants.getFloat64(8 * index, true), ticks.getInt32(4 * index, true)])).toEqual([
      [inMs, exactTicks(41.5, 'F')], [inMs + MINUTE_MS, exactTicks(42, 'F')], [inMs + 2 * MINUTE_MS, exactTicks(44.1, 'F')],
    ]);
  });
});

describe('a cold load', () => {
  it('is asked of its chamber: how warm at most, and when it must be out', async () => {
    const smoke = await openSmokeKitchen({ process: 'cold' });
    const load = await openLoad(smoke);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: smoke.readyMs });
    const shown = await smoke.kitchen.ask('load.get', { loadId: load.id });
    expect(shown.needs.at(-1)?.text).toBe('keep at 50 °F or below; out by 10:00 on 26 Nov 2026');
    expect(shown.limitLines).toEqual([
      { checkId: 'COLD-90-20', ticks: exactTicks(90, 'F'), kind: 'maximum', text: '90 °F or below, 20 h at most', byMs: null },
      { checkId: 'COLD-50-24', ticks: exactTicks(50, 'F'), kind: 'maximum', text: '50 °F or below, 24 h at most', byMs: null },
    ]);
    const chamber = load.points.find((point) => point.role === 'chamber')?.id ?? '';
    smoke.kitchen.clock.advance(20 * MINUTE_MS);
    const atMs = smoke.kitchen.clock.nowMs();
    await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: chamber, atMs, value: { text: '72', unit: 'F' }, instrumentId: null }] });
    const warmer = await smoke.kitchen.ask('load.get', { loadId: load.id });
    expect(warmer.needs.at(-1)?.text).toBe('keep at 90 °F or below; out by 06:00 on 26 Nov 2026');
  });
});
