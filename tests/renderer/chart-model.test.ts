import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactTicks } from '../../app/measures/temperature.ts';
import { chartDomain, degreeTicks, linePath, placeMarks, spreadApart, timeTicks } from '../../renderer/chart/chart-model.ts';
import { decodeSeries } from '../../renderer/chart/decode-series.ts';

const MINUTE = 60_000;

function seriesOf(points: readonly (readonly [number, number])[]) {
  return { atMs: Float64Array.from(points, ([minute]) => minute * MINUTE), ticks: Int32Array.from(points, ([, degrees]) => exactTicks(degrees, 'F')) };
}

describe('a series for the chart', () => {
  it('comes back from the contract’s base64 exactly as it went in', () => {
    fc.assert(fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 4e12 }), fc.integer({ min: -1_800_000, max: 9_000_000 })), { maxLength: 40 }), (points) => {
      const atMs = Float64Array.from(points, ([at]) => at);
      const ticks = Int32Array.from(points, ([, value]) => value);
      const base64 = (array: Float64Array | Int32Array): string => Buffer.from(array.buffer).toString('base64');
      const decoded = decodeSeries({ length: points.length, atMs: base64(atMs), ticks: base64(ticks) });
      expect([...decoded.atMs]).toEqual([...atMs]);
      expect([...decoded.ticks]).toEqual([...ticks]);
    }));
  });

  it('is refused whole when its lengths disagree', () => {
    expect(() => decodeSeries({ length: 2, atMs: '', ticks: '' })).toThrow('a series of 2');
  });

  it('breaks its line where nothing was measured, and draws a reading alone as a dot', () => {
    const series = seriesOf([[0, 40], [5, 50], [30, 60], [60, 60], [65, 70]]);
    const path = linePath({ ...series, breaks: [2, 3] }, (atMs) => atMs / MINUTE, () => 0.26);
    expect(path).toBe('M0 0.3L5 0.3M30 0.3h0M60 0.3L65 0.3');
  });
});

describe('the domain of a chart', () => {
  it('holds every reading, every limit and every moment', () => {
    const domain = chartDomain([seriesOf([[0, 38], [60, 151]])], [exactTicks(145, 'F'), exactTicks(40, 'F')], [90 * MINUTE], 'F');
    expect(domain).toEqual({ fromMs: 0, toMs: 90 * MINUTE, low: 30, high: 160 });
  });

  it('is none without a reading, a limit or a moment', () => {
    expect(chartDomain([], [], [], 'F')).toBeNull();
  });

  it('marks time on whole steps of the wall clock, also in a zone half an hour off', () => {
    const ticks = timeTicks({ fromMs: 7 * MINUTE, toMs: 127 * MINUTE, low: 0, high: 10 }, 30 * MINUTE);
    expect(ticks.map((atMs) => (atMs / MINUTE + 30) % 15)).toEqual(ticks.map(() => 0));
    expect(ticks.length).toBeGreaterThan(5);
  });

  it('marks temperatures on the smallest whole step that leaves at most nine', () => {
    expect(degreeTicks({ fromMs: 0, toMs: 1, low: 30, high: 190 })).toEqual([40, 60, 80, 100, 120, 140, 160, 180]);
    expect(degreeTicks({ fromMs: 0, toMs: 1, low: 30, high: 230 })).toEqual([50, 100, 150, 200]);
  });
});

describe('what stands beside the lines', () => {
  it('keeps the numbers at the lines’ ends apart, in order and inside the plot', () => {
    fc.assert(fc.property(fc.array(fc.float({ min: -50, max: 450, noNaN: true }), { minLength: 1, maxLength: 8 }), (heights) => {
      const placed = spreadApart(heights, 23, 20, 400);
      const sorted = placed.toSorted((a, b) => a - b);
      sorted.slice(1).forEach((height, index) => expect(height - (sorted[index] ?? 0)).toBeGreaterThanOrEqual(23 - 1e-9));
      expect(sorted[0]).toBeGreaterThanOrEqual(20 - 1e-9);
      expect(sorted.at(-1)).toBeLessThanOrEqual(400 + 1e-9);
      heights.forEach((height, index) => heights.forEach((other, at) => {
        if (height < other) expect(placed[index]).toBeLessThan(placed[at] ?? 0);
      }));
    }));
  });

  it('puts two marks that are close on rows of their own, and one at the edge left of its line', () => {
    const placed = placeMarks([{ atMs: 50, text: 'end of smoking' }, { atMs: 52, text: 'out' }, { atMs: 100, text: 'cooled' }], (atMs) => atMs * 5, 500);
    expect(placed.map((mark) => [mark.text, mark.row, mark.anchor])).toEqual([['end of smoking', 0, 'start'], ['out', 1, 'start'], ['cooled', 0, 'end']]);
  });
});
