import { describe, expect, it } from 'vitest';
import { nextStep } from '../../renderer/places/smokehouse/next-step.ts';
import { batchOutMs, outChoices } from '../../renderer/places/smokehouse/taken-out.ts';
import { fromInstruments, instrumentChoices } from '../../renderer/readings/import-instruments.ts';

const point = (id: string, batchId: string | null) => ({ id, batchId, name: id, role: batchId === null ? 'chamber' as const : 'piece' as const, thicknessMm: null, rackPlace: '', instrumentId: null, instrumentName: '' });
const all = (shortName: string): string => `all of ${shortName}`;
const A = { id: 'a', shortName: 'LT 1' };
const B = { id: 'b', shortName: 'WF 2' };

describe('what can come out of a smoker before the rest', () => {
  it('is each batch of several, and each piece where a batch has several', () => {
    const load = { points: [point('one', 'a'), point('two', 'a'), point('three', 'b'), point('air', null)] };
    expect(outChoices({ load, batches: [A, B] }, all).map(({ name }) => name)).toEqual(['all of LT 1', 'LT 1, one', 'LT 1, two', 'all of WF 2']);
    expect(outChoices({ load: { points: load.points.slice(0, 2) }, batches: [A] }, all).map(({ name }) => name)).toEqual(['one', 'two']);
    expect(outChoices({ load: { points: load.points.slice(0, 1) }, batches: [A] }, all)).toEqual([]);
  });

  it('has the time of its own mark, and a batch without one the load’s', () => {
    const takenOut = [{ batchId: 'a', pointId: 'one', atMs: 5 }, { batchId: 'b', pointId: null, atMs: 7 }];
    const load = { points: [point('one', 'a'), point('two', 'a'), point('three', 'b')], takenOut };
    expect(outChoices({ load, batches: [A, B] }, all).map(({ atMs }) => atMs)).toEqual([null, 5, null, 7]);
    expect([batchOutMs({ outAtMs: 9, takenOut }, 'a'), batchOutMs({ outAtMs: 9, takenOut }, 'b'), batchOutMs({ outAtMs: null }, 'a')]).toEqual([9, 7, null]);
  });

  it('no longer keeps the load from coming out: only what is in must meet the chamber’s limits', () => {
    const load = { process: 'hot' as const, inAtMs: 1, outAtMs: null, cooledAtMs: null };
    const results = [{ batchId: 'a', result: { checks: [{ question: 'chamber' as const, verdict: 'not-proven' as const }] } }, { batchId: 'b', result: { checks: [{ question: 'chamber' as const, verdict: 'meets' as const }] } }];
    expect(nextStep({ load, results })).toBe('read');
    expect(nextStep({ load: { ...load, takenOut: [{ batchId: 'a', pointId: 'one', atMs: 5 }] }, results })).toBe('read');
    expect(nextStep({ load: { ...load, takenOut: [{ batchId: 'a', pointId: null, atMs: 5 }] }, results })).toBe('out');
  });
});

describe('the thermometer of an imported column', () => {
  const changed = { ...point('one', 'a'), instrumentId: 'hand', instrumentName: 'Hand thermometer', earlier: [{ instrumentId: 'probe', untilMs: 5, instrumentName: 'Probe 1' }, { instrumentId: null, untilMs: 6, instrumentName: '' }, { instrumentId: 'probe', untilMs: 7, instrumentName: 'Probe 1' }] };

  it('is asked only of a piece that had several, each of them once', () => {
    expect(instrumentChoices(changed).map(({ id }) => id)).toEqual(['probe', 'by-hand', 'hand']);
    expect(instrumentChoices(point('two', 'a'))).toHaveLength(1);
    expect(instrumentChoices(undefined)).toEqual([]);
  });

  it('is sent as it was chosen, and left unsaid otherwise', () => {
    const columns = [{ name: 'P1', pointId: 'one' }, { name: 'P2', pointId: 'two' }];
    const points = [changed, point('two', 'a')];
    expect(fromInstruments(columns, points, { P1: 'probe', P2: 'probe' })).toEqual([{ ...columns[0], instrumentId: 'probe' }, columns[1]]);
    expect(fromInstruments(columns, points, { P1: 'by-hand' })[0]).toEqual({ ...columns[0], instrumentId: null });
    expect(fromInstruments(columns, points, {})).toEqual(columns);
  });
});
