/** From the written times of a log read from its bytes to instants, row by row. */
import { findInstants, zoneOf } from './log-instants.ts';
import type { RowTime } from './log-row-times.ts';
import type { LogTable } from './log-table.ts';
import type { LogZone } from './log-zone.ts';

const HOUR_MS = 3_600_000;

/** How a row's time becomes an instant; NaN where the clocks changed over it. `undefined` while something must be asked. */
export function instantsOf(table: LogTable): ((ms: number, kind: RowTime['kind']) => number) | undefined {
  const { plan, answers } = table;
  const zone = zoneOf(table);
  if (zone !== undefined && !zone.ok) return undefined;
  if (plan.kind === 'elapsed-number') {
    const start = findInstants({ lines: [1], ms: [0], kinds: ['elapsed'], series: [], refused: [], tracks: [[0]], blank: 0 }, { ...table, answers, isOrderOpen: false });
    const base = start.ok && start.value.questions.length === 0 ? start.value.atMs[0] : undefined;
    return base === undefined ? undefined : (ms) => base + ms;
  }
  return wallReader(zone?.value);
}

/** Walls in a zone: an hour whose both ends have one meaning and the same offset is resolved at a glance. */
function wallReader(zone: LogZone | undefined): (ms: number, kind: RowTime['kind']) => number {
  let [fromMs, toMs, offsetMs] = [0, 0, 0];
  return (ms, kind) => {
    if (kind === 'instant') return ms;
    if (ms >= fromMs && ms < toMs) return ms - offsetMs;
    if (zone === undefined) return Number.NaN;
    const hourMs = Math.floor(ms / HOUR_MS) * HOUR_MS;
    const [first, last] = [zone.meaningOf(hourMs), zone.meaningOf(hourMs + HOUR_MS)];
    if (first.kind !== 'one' || last.kind !== 'one' || last.atMs - first.atMs !== HOUR_MS) return Number.NaN;
    [fromMs, toMs, offsetMs] = [hourMs, hourMs + HOUR_MS, hourMs - first.atMs];
    return ms - offsetMs;
  };
}
