/** How many pieces were recorded through the hold. */
import { plainFinding, type Finding, type JudgeContext } from './finding.ts';
import { heatRule, measurePlace, type PlaceHold } from './hold-rule.ts';
import type { JudgeCase } from './judge-case.ts';
import type { ProbeCountCheck } from './limit-set.ts';
import { pointsOf } from './readings.ts';
import { lengthOf, unbrokenRuns, type Stretch } from './stretches.ts';

/** Distinct pieces whose record spans the hold without a gap; without a proven hold, whose record is at least as long as the hold. */
export function judgeProbeCount(check: ProbeCountCheck, judged: JudgeCase, context: JudgeContext): Finding {
  const span = judged.records.process;
  const isOpen = span.open && span.outMs === undefined;
  const counts = context.holds.map((hold) => {
    const rule = heatRule(hold, 0);
    return countPieces(pointsOf(judged, 'piece', 'process').map((point) => measurePlace(point, rule, judged, span)), rule.requiredMs, context);
  });
  const count = Math.max(0, ...counts);
  const said = `${count} of ${check.pieces} piece${check.pieces === 1 ? '' : 's'} recorded through the hold`;
  if (count >= check.pieces) return plainFinding('meets', `${said}.`);
  const needed = `${check.pieces} piece${check.pieces === 1 ? '' : 's'}, each read without a gap through the same hold.`;
  return isOpen ? plainFinding('open', `${said} so far.`, needed) : plainFinding('not-proven', `${said}.`, needed);
}

/**
 * The most pieces recorded through one window of the hold's length that lies inside a proven hold.
 * Pieces recorded one after another are not recorded through the same hold, so they don't add up.
 */
function countPieces(holds: readonly PlaceHold[], requiredMs: number, context: JudgeContext): number {
  const full = holds.filter((hold) => hold.recordMs >= requiredMs).length;
  // A common hold is one of all full records, so each of them spans it; without one their length counts.
  if (context.together) return full;
  const completed = holds.flatMap((hold) => hold.stretches.proven).filter((stretch) => lengthOf(stretch) >= requiredMs);
  if (completed.length === 0) return full;
  const runs = holds.map((hold) => unbrokenRuns(hold.readings, hold.maxGapMs).filter((run) => lengthOf(run) >= requiredMs));
  const starts = [...completed, ...runs.flat()].map((stretch) => stretch.fromMs);
  const windows = starts.map((fromMs): Stretch => ({ fromMs, toMs: fromMs + requiredMs })).filter((window) => completed.some((hold) => covers(hold, window)));
  return Math.max(...windows.map((window) => runs.filter((list) => list.some((run) => covers(run, window))).length));
}

function covers(outer: Stretch, inner: Stretch): boolean {
  return outer.fromMs <= inner.fromMs && outer.toMs >= inner.toMs;
}
