/** The clock of a hold that all pieces keep together: the run that still goes on, and what was proven. */
import type { JudgeContext } from './finding.ts';
import { heatRule, measurePlace, type PlaceHold } from './hold-rule.ts';
import type { JudgeCase } from './judge-case.ts';
import type { HoldCheck } from './limit-set.ts';
import { pointsOf } from './readings.ts';
import { cutAround, outsOf } from './spot-checks.ts';
import { intersectAll, lengthOf, longest, type Stretch } from './stretches.ts';

export interface CommonHold {
  /** The longest stretch proven of all pieces at once. */
  readonly provenMs: number;
  /** The common stretch that still goes on; undefined where none does. */
  readonly running: Stretch | undefined;
}

/**
 * The common clock of the pieces, as the judge counts it: a piece whose record is short is a spot check
 * once enough others run through, and only its out readings break it. Undefined where the set asks each piece for
 * itself, or only one piece counts.
 */
export function commonHold(check: HoldCheck, judged: JudgeCase, context: JudgeContext): CommonHold | undefined {
  if (!context.together) return undefined;
  const rule = heatRule(check, 0);
  const all = pointsOf(judged, 'piece', 'process').map((point) => measurePlace(point, rule, judged, judged.records.process));
  const full = all.filter((hold) => hold.recordMs >= rule.requiredMs);
  const counting: readonly PlaceHold[] = full.length >= context.probesAsked ? full : all;
  if (counting.length < 2) return undefined;
  const spots = all.filter((hold) => !counting.includes(hold));
  const shared = cutAround(intersectAll(counting.map((hold) => hold.stretches.proven)), counting, outsOf(spots, rule));
  // It goes on while no piece has broken it since: up to the last reading of the piece that was read longest ago.
  const latestMs = Math.min(...counting.map((hold) => hold.readings.at(-1)?.atMs ?? Number.MIN_SAFE_INTEGER));
  const last = shared.at(-1);
  return { provenMs: lengthOf(longest(shared)), running: last !== undefined && last.toMs >= latestMs ? last : undefined };
}
