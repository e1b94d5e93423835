import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { MOST_ROWS, tableOf } from '../../main/backroom/services/record-table.ts';
import type { MeasuredPoint } from '../../main/backroom/services/record-series.ts';
import { openPackedKitchen } from './trace-kitchen.ts';

const MINUTE_MS = 60_000;

function point(pointId: string, atMs: readonly number[], lowTicks: readonly number[], isOfLoad = true): MeasuredPoint {
  return { pointId, name: pointId, numbers: { atMs: Float64Array.from(atMs), lowTicks: Int32Array.from(lowTicks), cut: null }, isOfLoad };
}

function seconds(pointId: string, count: number): MeasuredPoint {
  const all = Array.from({ length: count }, (_, second) => second);
  return point(pointId, all.map((second) => second * 1000), all.map((second) => 1000 + ((second * 7919) % 501)));
}

describe('the printed table of readings', () => {
  it('has a row for each reading while they are no more than its rows', () => {
    const all = Array.from({ length: MOST_ROWS }, (_, index) => index);
    const table = tableOf([point('a', all.map((index) => index * 1000), all), point('b', [500], [7])].slice(0, 1));
    expect(table.stretchMinutes).toBeNull();
    expect(table.rows.map(({ cells }) => cells[0]?.lowTicks)).toEqual(all);
  });

  it('of 24 hours by the second has five-minute rows that hide no reading, and says how many there are', () => {
    const whole = seconds('a', 86_400);
    const table = tableOf([whole]);
    expect(table.stretchMinutes).toBe(5);
    expect(table.rows).toHaveLength(288);
    expect(table.points[0]).toMatchObject({ readings: 86_400, firstAtMs: 0, lastAtMs: 86_399_000, lowestTicks: 1000, highestTicks: 1500 });
    for (const { fromMs, cells } of table.rows) {
      const inside = [...whole.numbers.lowTicks].filter((_, index) => Math.floor((whole.numbers.atMs[index] ?? 0) / (5 * MINUTE_MS)) * 5 * MINUTE_MS === fromMs);
      expect(cells[0]).toEqual({ lowTicks: Math.min(...inside), highTicks: Math.max(...inside), readings: 300 });
    }
  });

  it('goes by rows that have a reading: a few far apart stay as they are', () => {
    const table = tableOf([point('a', [0, 90 * 86_400_000], [1, 2]), point('b', [0], [3])]);
    expect(table.rows).toEqual([
      { fromMs: 0, cells: [{ lowTicks: 1, highTicks: 1, readings: 1 }, { lowTicks: 3, highTicks: 3, readings: 1 }] },
      { fromMs: 90 * 86_400_000, cells: [{ lowTicks: 2, highTicks: 2, readings: 1 }, null] },
    ]);
  });

  it('keeps places out of its columns, and counts them all the same', () => {
    const table = tableOf([point('a', [0], [1]), point('freezer', [0, 1], [-5, -6], false)]);
    expect(table.pointIds).toEqual(['a']);
    expect(table.points[1]).toMatchObject({ pointId: 'freezer', readings: 2, lowestTicks: -6, highestTicks: -5 });
  });

  it('vouches for the readings by a digest of instants and bounds that anybody can work out', () => {
    const bytes = Buffer.alloc(48);
    [0, 1000, 1000, 1, 2000, 2000].forEach((value, index) => bytes.writeDoubleLE(value, index * 8));
    expect(tableOf([point('a', [0, 1], [1000, 2000])]).points[0]?.digest).toBe(createHash('sha256').update(bytes).digest('hex'));
  });
});

describe('the record of a batch that was packed', () => {
  it('says where each pack is and who signed for which, with the hand-over among its entries', async () => {
    const packed = await openPackedKitchen();
    const record = await packed.kitchen.ask('record.batch', { batchId: packed.batchId });
    expect(record.fates.map(({ where }) => where)).toEqual([...Array.from({ length: 12 }, () => 'handed to Lund party'), ...Array.from({ length: 12 }, () => 'in Chest freezer, basket 2')]);
    expect(record.handOvers).toMatchObject([{ guestName: 'Lund party', contact: '555 0144', codes: packed.packs.slice(0, 12).map(({ code }) => code), handOver: { signature: { name: 'Per Lund' } } }]);
    expect(record.entries.map(({ kind }) => kind)).toContain('handOver.make');
    // A smoke and a cooling by the minute: 632 moments, so a row for two minutes.
    expect(record.table).toMatchObject({ stretchMinutes: 2, pointIds: expect.arrayContaining([expect.any(String)]) });
    expect(record.table.points.find(({ name }) => name === 'Thick end')?.readings).toBe(361 + 271);
    expect(record.series.every(({ isWhole }) => isWhole)).toBe(true);
  });
});
