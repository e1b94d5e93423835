/** From the sentences of a verdict to the lanes under the chart: what of the record each of them rests on. Pure. */
import type { CheckResultWire } from '../../app/contract/requests/verdict.ts';
import type { ChartSeries, Domain } from './chart-model.ts';

/** A sentence with its number, as the list and the print count them. */
export interface Sentence {
  /** Tells sentences of several batches apart. */
  readonly key: string;
  readonly number: number;
  readonly check: Pick<CheckResultWire, 'title' | 'verdict' | 'spans'>;
}

export interface LaneSpan {
  readonly fromMs: number;
  readonly toMs: number;
  readonly counts: boolean;
  readonly why: string;
}
interface LaneRow {
  /** The piece's number; empty for the chamber, and where a span is of no one place. */
  readonly badge: string;
  readonly name: string;
  readonly spans: readonly LaneSpan[];
}
export interface Lane {
  readonly key: string;
  readonly number: number;
  readonly title: string;
  /** Where it stands, counted from the top of the first lane. */
  readonly topPx: number;
  readonly heightPx: number;
  readonly rows: readonly LaneRow[];
}

/** The words over a lane, and the bar of one place. */
export const LANE_HEAD_PX = 24;
export const LANE_ROW_PX = 18;
/** No lane is smaller than a fingertip. */
const LEAST_LANE_PX = 48;

/** The sentences of a result that are shown, numbered from 1. */
export function sentencesOf(checks: readonly CheckResultWire[], batchId: string, before = 0): Sentence[] {
  return checks.filter((check) => check.verdict !== 'does-not-apply').map((check, index) => ({ key: sentenceKey(batchId, check.checkId), number: before + index + 1, check }));
}

export function sentenceKey(batchId: string, checkId: string): string {
  return `${batchId} ${checkId}`;
}

/** A lane for each sentence that rests on what this chart shows; the spans cut to it, a row for each place. */
export function lanesOf(sentences: readonly Sentence[], series: readonly ChartSeries[], domain: Domain): Lane[] {
  let topPx = 0;
  return sentences.flatMap(({ key, number, check }) => {
    const rows = rowsOf(check.spans, series, domain);
    if (rows.length === 0) return [];
    const heightPx = Math.max(LEAST_LANE_PX, LANE_HEAD_PX + rows.length * LANE_ROW_PX);
    const lane = { key, number, title: check.title, topPx, heightPx, rows };
    topPx += heightPx;
    return [lane];
  });
}

/** What doesn't count and touches is one stretch, with all its reasons: a record by hand would else be a gap after each reading. */
function mergeUncounted(spans: readonly LaneSpan[]): LaneSpan[] {
  return spans.reduce<LaneSpan[]>((merged, span) => {
    const before = merged.at(-1);
    if (before === undefined || before.counts || span.counts || span.fromMs > before.toMs) return [...merged, span];
    const reasons = [...new Set([...before.why.split('; '), span.why])];
    return [...merged.slice(0, -1), { ...before, toMs: Math.max(before.toMs, span.toMs), why: reasons.join('; ') }];
  }, []);
}

/** How high all lanes are together. */
export function lanesHeightPx(lanes: readonly Lane[]): number {
  return lanes.reduce((sum, lane) => sum + lane.heightPx, 0);
}

function rowsOf(spans: CheckResultWire['spans'], series: readonly ChartSeries[], domain: Domain): LaneRow[] {
  const places = [...series.map((each) => ({ id: each.pointId, badge: each.badge, name: each.name })), { id: null, badge: '', name: '' }];
  return places.flatMap(({ id, badge, name }) => {
    const own = spans.filter((span) => span.pointId === id && span.toMs >= domain.fromMs && span.fromMs <= domain.toMs)
      .map(({ fromMs, toMs, counts, why }) => ({ fromMs: Math.max(fromMs, domain.fromMs), toMs: Math.min(toMs, domain.toMs), counts, why }));
    return own.length === 0 ? [] : [{ badge, name, spans: mergeUncounted(own.toSorted((one, other) => one.fromMs - other.fromMs)) }];
  });
}
