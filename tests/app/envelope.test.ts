import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { envelopeOf } from '../../app/probes/envelope.ts';
import { gapMsOf, usualStepOf } from '../../app/probes/envelope-gaps.ts';

const MINUTE_MS = 60_000;

/** Records of steps from nothing to a long gap, each with a value. */
const records = fc.array(fc.tuple(fc.oneof(fc.integer({ min: 0, max: 2 * MINUTE_MS }), fc.constant(40 * MINUTE_MS)), fc.integer({ min: -50_000, max: 700_000 })), { minLength: 1, maxLength: 400 })
  .map((rows) => {
    let atMs = 1_700_000_000_000;
    return { atMs: Float64Array.from(rows, ([step]) => (atMs += step)), ticks: Int32Array.from(rows, ([, ticks]) => ticks) };
  });
const windows = fc.tuple(records, fc.double({ min: -0.2, max: 1, noNaN: true }), fc.double({ min: 0, max: 1.2, noNaN: true }), fc.integer({ min: 1, max: 40 }))
  .map(([record, start, length, columns]) => {
    const [first = 0, last = 0] = [record.atMs[0], record.atMs.at(-1)];
    const fromMs = Math.round(first + start * (last - first));
    return { ...record, fromMs, toMs: fromMs + 1 + Math.round(length * (last - first)), columns };
  });

function within<T extends { atMs: Float64Array; ticks: Int32Array }>({ atMs, ticks }: T, fromMs: number, toMs: number): { atMs: number; ticks: number }[] {
  return [...atMs].flatMap((at, index) => (at >= fromMs && at <= toMs ? [{ atMs: at, ticks: ticks[index] ?? Number.NaN }] : []));
}

describe('the envelope of a record', () => {
  it('has the lowest and the highest reading of every column of every window, and its first and last', () => {
    fc.assert(fc.property(windows, ({ atMs, ticks, fromMs, toMs, columns }) => {
      const record = { atMs, ticks };
      const drawn = envelopeOf(atMs, ticks, fromMs, toMs, columns);
      expect(drawn.readings).toBe(within(record, fromMs, toMs).length);
      for (let column = 0; column <= columns; column += 1) {
        const columnOf = (reading: { atMs: number }): number => Math.floor((reading.atMs - fromMs) / ((toMs - fromMs) / columns));
        const all = within(record, fromMs, toMs).filter((reading) => columnOf(reading) === column);
        const kept = within(drawn, fromMs, toMs).filter((reading) => columnOf(reading) === column);
        const extremes = (readings: typeof all): unknown[] => [readings.at(0), readings.at(-1), Math.min(...readings.map((one) => one.ticks)), Math.max(...readings.map((one) => one.ticks))];
        expect(extremes(kept)).toEqual(extremes(all));
      }
    }));
  });

  it('keeps only readings of the record, in their order, at most four a column and one beyond each end', () => {
    fc.assert(fc.property(windows, ({ atMs, ticks, fromMs, toMs, columns }) => {
      const drawn = envelopeOf(atMs, ticks, fromMs, toMs, columns);
      const there = new Set([...atMs].map((at, index) => `${at} ${ticks[index]}`));
      const kept = [...drawn.atMs].map((at, index) => ({ at, key: `${at} ${drawn.ticks[index]}` }));
      expect(kept.every(({ key }) => there.has(key))).toBe(true);
      expect(kept.every(({ at }, index) => index === 0 || at >= (kept[index - 1]?.at ?? 0))).toBe(true);
      expect(kept.length).toBeLessThanOrEqual(4 * (columns + 1) + 2);
      expect(kept.filter(({ at }) => at < fromMs).length).toBeLessThanOrEqual(1);
      expect(kept.filter(({ at }) => at > toMs).length).toBeLessThanOrEqual(1);
    }));
  });

  it('breaks the line exactly where the record has a gap between two of the readings kept', () => {
    fc.assert(fc.property(windows, ({ atMs, ticks, fromMs, toMs, columns }) => {
      const gapMs = 5 * MINUTE_MS;
      const drawn = envelopeOf(atMs, ticks, fromMs, toMs, columns, gapMs);
      const gaps = [...atMs].flatMap((at, index) => (index > 0 && at - (atMs[index - 1] ?? 0) > gapMs ? [[atMs[index - 1] ?? 0, at] as const] : []));
      for (let position = 1; position < drawn.atMs.length; position += 1) {
        const [before = 0, after = 0] = [drawn.atMs[position - 1], drawn.atMs[position]];
        expect(drawn.breaks.includes(position)).toBe(gaps.some(([from, to]) => before <= from && to <= after));
      }
    }));
  });

  it('shows one reading’s excursion in a day of readings a second apart', () => {
    const atMs = Float64Array.from({ length: 86_400 }, (_, second) => second * 1000);
    const ticks = Int32Array.from({ length: 86_400 }, () => 500_000);
    ticks[43_217] = 600_000;
    const drawn = envelopeOf(atMs, ticks, 0, 86_399_000, 800);
    expect([...drawn.ticks].filter((one) => one === 600_000)).toHaveLength(1);
    expect(drawn.isWhole).toBe(false);
    expect(drawn.readings).toBe(86_400);
    expect(drawn.atMs.length).toBeLessThan(2000);
  });

  it('is the whole record where it is short, and empty where there is none', () => {
    const drawn = envelopeOf(Float64Array.of(1, 2, 3), Int32Array.of(5, 6, 7), 0, 10, 1);
    expect([[...drawn.atMs], [...drawn.ticks], drawn.isWhole]).toEqual([[1, 2, 3], [5, 6, 7], true]);
    expect(envelopeOf(new Float64Array(), new Int32Array(), 0, 10, 5).atMs).toHaveLength(0);
  });
});

describe('the gaps of a record', () => {
  it('are longer than two usual steps, and than five minutes', () => {
    const everyMinutes = (minutes: number): Float64Array => Float64Array.from({ length: 9000 }, (_, index) => index * minutes * MINUTE_MS);
    expect(gapMsOf(everyMinutes(1))).toBe(5 * MINUTE_MS);
    expect(gapMsOf(everyMinutes(30))).toBe(60 * MINUTE_MS);
    expect(usualStepOf(everyMinutes(30))).toBe(30 * MINUTE_MS);
    expect(usualStepOf(Float64Array.of(7))).toBe(0);
  });
});
