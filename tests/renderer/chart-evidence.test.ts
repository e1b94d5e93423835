import { describe, expect, it } from 'vitest';
import type { CheckResultWire } from '../../app/contract/requests/verdict.ts';
import { exactTicks } from '../../app/measures/temperature.ts';
import { linesIn } from '../../renderer/chart/chart-lines.ts';
import { doubtedIndexes, gapEnds, standingApart, type ChartSeries } from '../../renderer/chart/chart-model.ts';
import { LANE_HEAD_PX, LANE_ROW_PX, lanesHeightPx, lanesOf, sentencesOf } from '../../renderer/chart/evidence-lanes.ts';

const MINUTE = 60_000;
const DOMAIN = { fromMs: 0, toMs: 100 * MINUTE, low: 0, high: 200 };

function seriesOf(pointId: string, badge: string, minutes: readonly number[]): ChartSeries {
  return {
    pointId, badge, name: `Piece ${badge}`, colour: 'black', role: 'piece',
    atMs: Float64Array.from(minutes, (minute) => minute * MINUTE), ticks: Int32Array.from(minutes, () => exactTicks(145, 'F')),
  };
}
function checkOf(checkId: string, spans: readonly (readonly [from: number, to: number, counts: boolean, pointId: string | null])[], verdict: CheckResultWire['verdict'] = 'meets'): CheckResultWire {
  return {
    checkId, title: `Title of ${checkId}`, question: 'chamber', gate: 'pack', verdict, reason: '', pieces: [], needed: '', source: '', mark: 'read', confirmation: null,
    spans: spans.map(([from, to, counts, pointId]) => ({ fromMs: from * MINUTE, toMs: to * MINUTE, counts, why: counts ? '145 °F or above' : 'no reading for 20 min', pointId })),
  };
}
const two = [seriesOf('p1', '1', [0, 10, 20]), seriesOf('p2', '2', [0, 10, 20])];

describe('the sentences of a chart', () => {
  it('are numbered as they are listed, those that don’t apply left out, and go on from batch to batch', () => {
    const checks = [checkOf('A', []), checkOf('B', [], 'does-not-apply'), checkOf('C', [])];
    expect(sentencesOf(checks, 'b1').map(({ key, number }) => [key, number])).toEqual([['b1 A', 1], ['b1 C', 2]]);
    expect(sentencesOf(checks, 'b2', 2).map(({ key, number }) => [key, number])).toEqual([['b2 A', 3], ['b2 C', 4]]);
  });

  it('have a lane each with a row a piece; one that rests on nothing shown here has none, and keeps its number', () => {
    const sentences = sentencesOf([checkOf('SALT', []), checkOf('HOLD', [[40, 60, true, 'p2'], [10, 30, true, 'p1'], [0, 10, false, 'p1']]), checkOf('FREEZE', [[500, 900, true, 'p1']])], 'b');
    const [lane, ...others] = lanesOf(sentences, two, DOMAIN);
    expect(others).toEqual([]);
    expect(lane).toMatchObject({ key: 'b HOLD', number: 2, topPx: 0, heightPx: LANE_HEAD_PX + 2 * LANE_ROW_PX });
    expect(lane?.rows.map((row) => [row.badge, row.spans.map((span) => [span.fromMs / MINUTE, span.counts, span.why])])).toEqual([
      ['1', [[0, false, 'no reading for 20 min'], [10, true, '145 °F or above']]], ['2', [[40, true, '145 °F or above']]],
    ]);
  });

  it('join what doesn’t count and touches into one stretch with all its reasons, and nothing across what counts', () => {
    const check = checkOf('HOLD', []);
    const at = (from: number, to: number, counts: boolean, why: string) => ({ fromMs: from * MINUTE, toMs: to * MINUTE, counts, why, pointId: 'p1' });
    const spans = [at(0, 0, false, 'not 145 °F or above'), at(0, 20, false, 'no reading for 20 min'), at(20, 20, false, 'not 145 °F or above'), at(30, 50, true, '145 °F or above'), at(50, 70, false, 'no reading for 20 min'), at(80, 90, false, 'not 145 °F or above')];
    const [lane] = lanesOf(sentencesOf([{ ...check, spans }], 'b'), two, DOMAIN);
    expect(lane?.rows[0]?.spans.map((span) => [span.fromMs / MINUTE, span.toMs / MINUTE, span.counts, span.why])).toEqual([
      [0, 20, false, 'not 145 °F or above; no reading for 20 min'], [30, 50, true, '145 °F or above'], [50, 70, false, 'no reading for 20 min'], [80, 90, false, 'not 145 °F or above'],
    ]);
  });

  it('are cut to what the chart shows, stand one under the other, and none is smaller than a fingertip', () => {
    const lanes = lanesOf(sentencesOf([checkOf('A', [[-50, 150, true, 'p1']]), checkOf('B', [[10, 20, false, null]])], 'b'), two, DOMAIN);
    expect(lanes[0]?.rows[0]?.spans[0]).toMatchObject({ fromMs: DOMAIN.fromMs, toMs: DOMAIN.toMs });
    expect(lanes.map((lane) => [lane.topPx, lane.heightPx])).toEqual([[0, 48], [48, 48]]);
    expect(lanesHeightPx(lanes)).toBe(96);
  });
});

describe('what is drawn into a series', () => {
  it('is a ring on either side of each gap', () => {
    const series = seriesOf('p1', '1', [0, 1, 2, 3, 30, 31, 32, 50, 51]);
    const ends = linesIn([series], { fromMs: 0, toMs: 60 * MINUTE }, 500).map((line) => [line.gapMs, ...gapEnds(line)]);
    expect(ends).toEqual([[5 * MINUTE, [3, 4], [6, 7]]]);
  });

  it('is a mark on each reading of its own that is in doubt, and no other', () => {
    const series = seriesOf('p1', '1', [0, 10, 20, 30]);
    expect(doubtedIndexes(series, [{ pointId: 'p1', fromMs: 10 * MINUTE, toMs: 20 * MINUTE, isLeftOut: true }, { pointId: 'p2', fromMs: 0, toMs: 90 * MINUTE, isLeftOut: true }])).toEqual([1, 2]);
    expect(doubtedIndexes(series, [])).toEqual([]);
  });

  it('is no mark on another, of a long doubt: the first stands, and what keeps its distance', () => {
    expect(standingApart([{ x: 3 }, { x: 8 }, { x: 13 }, { x: 22.9 }, { x: 23 }], 10)).toEqual([{ x: 3 }, { x: 13 }, { x: 23 }]);
    expect(standingApart([], 10)).toEqual([]);
  });
});
