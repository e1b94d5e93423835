import { describe, expect, it } from 'vitest';
import { columnsOf, ROWS } from '../../renderer/print/paper-rows.ts';
import { lostStretch } from '../../renderer/places/smokehouse/alarm-lost-stretch.ts';

const MINUTE = 60_000;
const point = (id: string, role: 'piece' | 'chamber') => ({ id, role, name: id, batchId: null, thicknessMm: role === 'piece' ? 30 : null, rackPlace: role === 'piece' ? 'door side' : '', instrumentId: null, instrumentName: '' });
const LOAD = {
  id: 'l', number: 1, smokerId: 's', smokerName: 'Smoker', process: 'hot' as const, batchIds: ['b'], openedAtMs: 0, openedBy: 'MG',
  inAtMs: 0, endOfSmokingAtMs: null, outAtMs: null as number | null, cooledAtMs: null as number | null, points: [point('one', 'piece'), point('air', 'chamber')],
};
function shown(lastMs: number | null, load: Partial<typeof LOAD> = {}) {
  return {
    load: { ...LOAD, ...load },
    needs: [{ pointId: 'one', lastTicks: lastMs === null ? null : 0, lastAtMs: lastMs, provenMinutes: null, requiredMinutes: null, text: '' }],
    series: [{ pointId: 'one', series: { length: 0, atMs: '', ticks: '' }, breaks: [], gapMs: 5 * MINUTE, readings: 0, isWhole: true }],
  };
}

describe('what a running load lost while the program was off', () => {
  it('is the stretch from its newest reading to the start, with what is to be read now', () => {
    expect(lostStretch(shown(10 * MINUTE), 40 * MINUTE)).toEqual({ fromMs: 10 * MINUTE, toMs: 40 * MINUTE, pointIds: ['one', 'air'] });
    expect(lostStretch(shown(10 * MINUTE, { outAtMs: 9 * MINUTE }), 40 * MINUTE)?.pointIds).toEqual(['one']);
  });

  it('is nothing within a gap of its record, once something was read since, without a reading, and once it is closed', () => {
    expect(lostStretch(shown(35 * MINUTE), 40 * MINUTE)).toBeNull();
    expect(lostStretch(shown(41 * MINUTE), 40 * MINUTE)).toBeNull();
    expect(lostStretch(shown(null), 40 * MINUTE)).toBeNull();
    expect(lostStretch(shown(10 * MINUTE, { cooledAtMs: 11 * MINUTE }), 40 * MINUTE)).toBeNull();
  });
});

describe('a sheet for paper', () => {
  it('has the columns of the screen that it is copied to', () => {
    expect(columnsOf('smoke', LOAD).map(({ key, about }) => [key, about])).toEqual([['one', '30 mm, door side'], ['air', '']]);
    expect(columnsOf('cool', LOAD).map(({ key }) => key)).toEqual(['one']);
    expect(columnsOf('soak', null)).toHaveLength(3);
    expect(columnsOf('store', null)).toHaveLength(1);
    expect(ROWS.store).toBe(31);
  });
});
