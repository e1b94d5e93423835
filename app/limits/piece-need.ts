/** What one piece still needs, in a few words: the biggest thing on the cook's page. */
import type { JudgeContext } from './finding.ts';
import { measureDescent } from './descent.ts';
import { heatRule, measurePlace } from './hold-rule.ts';
import type { JudgeCase, MeasuredPoint } from './judge-case.ts';
import { findCheck, type DescentCheck, type LimitBook, type LimitSet } from './limit-set.ts';
import { fitOf } from './conditions.ts';
import { limitTicks } from './readings.ts';
import { lengthOf } from './stretches.ts';
import { figureText } from './words.ts';

const MINUTE_MS = 60_000;

export interface PieceNeed {
  readonly pointId?: string | undefined;
  readonly pointName: string;
  readonly lastTicks: number | undefined;
  readonly lastAtMs: number | undefined;
  /** Whole minutes of the longest proven stretch so far; undefined where the set has no hold. */
  readonly provenMinutes: number | undefined;
  readonly requiredMinutes: number | undefined;
  /** “4.1 °F to go”, “kept 22 of 30 min”, “70 °F or less by 14:05”, “kept 30 min”. */
  readonly text: string;
}

/** The coolings a set asks of this batch. */
export function coolingChecks(set: LimitSet, judged: JudgeCase, book: LimitBook): DescentCheck[] {
  return set.answers.filter((answer) => answer.question === 'cooling' && fitOf(answer.when, judged).fit !== 'contradicted')
    .flatMap((answer) => [...(answer.checks ?? []), ...(answer.oneOf ?? [])])
    .flatMap((id) => {
      const check = findCheck(book, id);
      return check?.kind === 'descent' && fitOf(check.conditions, judged).fit !== 'contradicted' ? [check] : [];
    });
}

/** What a piece needs next: its hold first, then its cooling. */
export function pieceNeed(point: MeasuredPoint, judged: JudgeCase, context: JudgeContext, coolings: readonly DescentCheck[]): PieceNeed {
  const { words } = context;
  const hold = context.holds[0];
  const cooling = coolings[0];
  const measured = hold === undefined ? undefined : measurePlace(point, heatRule(hold, 0), judged, judged.records.process);
  const piece = cooling === undefined ? undefined : measureDescent(cooling, point, judged, context, 0);
  const last = measured?.readings.at(-1) ?? piece?.readings.at(-1);
  const need = (text: string): PieceNeed => ({
    pointId: point.id, pointName: point.name, lastTicks: last?.lowTicks, lastAtMs: last?.atMs,
    provenMinutes: measured === undefined ? undefined : Math.floor(measured.provenMs / MINUTE_MS),
    requiredMinutes: hold?.minutes, text,
  });
  if (last === undefined) return need('not read yet');
  const isHeld = measured === undefined || hold === undefined || measured.provenMs >= hold.minutes * MINUTE_MS;
  if (!isHeld && judged.records.process.outMs === undefined) {
    const run = measured.stretches.proven.at(-1);
    if (run?.toMs === last.atMs) return need(`kept ${words.part(lengthOf(run), hold.minutes * MINUTE_MS)}`);
    const missingTicks = limitTicks(hold.limit) - last.lowTicks;
    // High enough and yet no run: nobody has decided yet whether it is real.
    return need(missingTicks > 0 ? `${words.difference(missingTicks)} to go` : 'its last reading is in doubt');
  }
  const stages = piece === undefined || piece.record.isHot ? undefined : piece.descents.at(-1);
  const stage = stages?.stages.find((one) => !one.isReached);
  const target = stage === undefined ? undefined : cooling?.targets[stage.number];
  if (stages !== undefined && stage !== undefined && target !== undefined && cooling !== undefined) {
    const base = cooling.clock === 'shared' || stage.number === 0 ? stages.start : stages.stages[stage.number - 1]?.end ?? stages.start;
    return need(`${figureText(target.limit)} or less by ${words.at((base.earliestMs ?? base.latestMs) + stage.withinMs)}`);
  }
  if (stages !== undefined) return need('cooled');
  if (measured === undefined || hold === undefined) return need(words.degrees(last.highTicks));
  return need(isHeld ? `kept ${words.lasting(hold.minutes * MINUTE_MS)}` : `kept ${words.part(measured.provenMs, hold.minutes * MINUTE_MS)}`);
}
