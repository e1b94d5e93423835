import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactTicks } from '../../app/measures/temperature.ts';
import { insideOf, linesIn, nearestOf } from '../../renderer/chart/chart-lines.ts';
import type { ChartSeries, Line } from '../../renderer/chart/chart-model.ts';
import { moved, shownSpan, viewOf, zoomed } from '../../renderer/chart/chart-view.ts';
import { sayLine } from '../../renderer/chart/series-sentences.ts';
import { formatsOf } from '../../renderer/parts/format.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const WHOLE = { fromMs: 0, toMs: 10 * HOUR };
const FORMATS = formatsOf({ temperatureUnit: 'F', massUnit: 'lb', timeZone: 'UTC' });

function seriesOf(points: readonly (readonly [minute: number, degrees: number])[], thinned?: ChartSeries['thinned']): ChartSeries {
  return {
    pointId: 'p1', badge: '1', name: 'Thickest piece', colour: 'black', role: 'piece',
    atMs: Float64Array.from(points, ([minute]) => minute * MINUTE), ticks: Int32Array.from(points, ([, degrees]) => exactTicks(degrees, 'F')),
    ...(thinned === undefined ? {} : { thinned }),
  };
}
function lineOf(series: ChartSeries, fromMinute: number, toMinute: number): Line {
  const [line] = linesIn([series], { fromMs: fromMinute * MINUTE, toMs: toMinute * MINUTE }, 800);
  if (line === undefined) throw new Error('no line');
  return line;
}

describe('the part of a record that is shown', () => {
  it('never leaves the record, and is at least a minute', () => {
    fc.assert(fc.property(fc.integer({ min: -20 * HOUR, max: 20 * HOUR }), fc.integer({ min: -20 * HOUR, max: 20 * HOUR }), (one, other) => {
      const view = viewOf(one, other, WHOLE);
      if (view === null) {
        expect(Math.abs(one - other)).toBeGreaterThanOrEqual(10 * HOUR);
        return;
      }
      expect(view.fromMs).toBeGreaterThanOrEqual(0);
      expect(view.toMs).toBeLessThanOrEqual(10 * HOUR);
      expect(view.toMs - view.fromMs).toBeGreaterThanOrEqual(MINUTE);
    }));
  });

  it('is dragged in either direction, zoomed about a moment that stays where it is, and the whole once it is as wide', () => {
    expect(viewOf(5 * HOUR, 3 * HOUR, WHOLE)).toEqual({ fromMs: 3 * HOUR, toMs: 5 * HOUR, follows: false });
    expect(zoomed({ fromMs: 2 * HOUR, toMs: 6 * HOUR }, 0.5, 3 * HOUR, WHOLE)).toEqual({ fromMs: 2.5 * HOUR, toMs: 4.5 * HOUR, follows: false });
    expect(zoomed({ fromMs: 2 * HOUR, toMs: 8 * HOUR }, 2, 5 * HOUR, WHOLE)).toBeNull();
    expect(moved({ fromMs: 2 * HOUR, toMs: 4 * HOUR }, 0.5, WHOLE)).toEqual({ fromMs: 3 * HOUR, toMs: 5 * HOUR, follows: false });
    expect(moved({ fromMs: 0, toMs: 4 * HOUR }, -0.5, WHOLE)).toEqual({ fromMs: 0, toMs: 4 * HOUR, follows: false });
  });

  it('moves on with new readings where it was chosen up to the right edge, and else stays', () => {
    const later = { fromMs: 0, toMs: 11 * HOUR };
    const atEdge = viewOf(8 * HOUR, 10 * HOUR, WHOLE);
    expect(atEdge?.follows).toBe(true);
    expect(shownSpan(atEdge, later)).toEqual({ fromMs: 9 * HOUR, toMs: 11 * HOUR });
    expect(shownSpan(viewOf(7 * HOUR, 9 * HOUR, WHOLE), later)).toMatchObject({ fromMs: 7 * HOUR, toMs: 9 * HOUR });
    expect(shownSpan(null, later)).toEqual(later);
  });
});

describe('the lines of a part', () => {
  const minutes = Array.from({ length: 600 }, (_, minute) => [minute, 60 + minute / 10] as const);

  it('hold its readings and one beyond each end', () => {
    const line = lineOf(seriesOf(minutes), 100, 110);
    expect([line.atMs[0], line.atMs.at(-1)]).toEqual([99 * MINUTE, 111 * MINUTE]);
    expect(line).toMatchObject({ readings: 11, isWhole: true });
    expect(insideOf(line, { fromMs: 100 * MINUTE, toMs: 110 * MINUTE })).toEqual({ from: 1, end: 12 });
  });

  it('of a series that came thinned are cut, keeping its breaks where they were', () => {
    const line = lineOf(seriesOf([[0, 50], [10, 60], [40, 70], [50, 80], [90, 90]], { breaks: [2, 4], gapMs: 20 * MINUTE, readings: 9000, isWhole: false }), 35, 60);
    expect([...line.atMs].map((atMs) => atMs / MINUTE)).toEqual([10, 40, 50, 90]);
    expect(line).toMatchObject({ breaks: [1, 3], readings: 9000, isWhole: false });
  });

  it('tell the reading nearest to a moment, and none across a gap', () => {
    const line = lineOf(seriesOf([[0, 50], [1, 51], [2, 52], [60, 90]]), 0, 60);
    expect([0.4, 0.6, 2.2, 30, 59, 200].map((minute) => nearestOf(line, minute * MINUTE))).toEqual([0, 1, 2, null, 3, null]);
  });
});

describe('a line in words', () => {
  it('says where it begins and ends, its highest and lowest reading, and its gaps', () => {
    const series = seriesOf([[0, 68], [2, 64.5], [4, 100], [6, 146.2], [8, 140], [60, 139], [62, 138]]);
    expect(sayLine(lineOf(series, 0, 70), { fromMs: 0, toMs: 70 * MINUTE }, FORMATS)).toBe(
      'Thickest piece: 7 readings, from 68.0 °F at 1 Jan, 00:00 to 138.0 °F at 1 Jan, 01:02. Highest 146.2 °F at 1 Jan, 00:06. Lowest 64.5 °F at 1 Jan, 00:02. Nothing was measured from 1 Jan, 00:08 to 1 Jan, 01:00.',
    );
  });

  it('says of no reading, of one, and of a steady line just that', () => {
    const said = (points: readonly (readonly [number, number])[]): string => sayLine(lineOf(seriesOf(points), 0, 20), { fromMs: 0, toMs: 20 * MINUTE }, FORMATS);
    expect([said([]), said([[3, 40]]), said([[3, 40], [4, 40]])]).toEqual([
      'Thickest piece: no reading here.', 'Thickest piece: one reading, 40.0 °F at 1 Jan, 00:03.', 'Thickest piece: 2 readings from 1 Jan, 00:03 to 1 Jan, 00:04, all 40.0 °F.',
    ]);
  });

  it('counts the readings of the record, not those that were drawn', () => {
    const line = lineOf(seriesOf([[0, 50], [10, 60]], { breaks: [], gapMs: 20 * MINUTE, readings: 86_400, isWhole: false }), 0, 20);
    expect(sayLine(line, { fromMs: 0, toMs: 20 * MINUTE }, FORMATS)).toContain('86,400 readings');
  });
});
