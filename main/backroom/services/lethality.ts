/** What the heat was worth, for the detail of a batch whose heat check is met; nothing is decided by it. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Lethality as LethalityWire } from '../../../app/contract/requests/verdict.ts';
import { HEAT_TARGETS, type HeatTarget } from '../../../app/heat/heat-targets.ts';
import { accumulateLethality, subscriptText } from '../../../app/heat/lethality.ts';
import type { JudgeCase, MeasuredPoint } from '../../../app/limits/judge-case.ts';
import { maxGapMs } from '../../../app/limits/readings.ts';
import { sayingSource } from './judging/wire-set.ts';

const MINUTE_MS = 60_000;
/** Written with each figure of this kind, wherever it stands. */
const NOTES = [
  'For information: no limit is judged by it.',
  'Each piece by itself, from its readings while it was in the smoker and cooling; nothing is credited where readings are too far apart.',
] as const;

/**
 * The lethality of each piece at each published target.
 * @param judged the batch's case; the caller asks only where the heat check is met
 */
export async function lethalityOf(judged: JudgeCase): Promise<LethalityWire> {
  const pieces = judged.points.filter((point) => point.role === 'piece' && point.record === 'process' && point.readings.length > 1);
  const targets: LethalityWire['targets'] = [];
  for (const target of HEAT_TARGETS) {
    targets.push({
      name: subscriptText(target), organism: target.organism, requiredMinutes: target.requiredMinutes,
      sources: target.sources.map((source) => ({ text: sayingSource(source), mark: source.mark })),
      pieces: pieces.map((piece) => worthOf(piece, target, judged)),
    });
    // A long record of many pieces takes a while; others are answered in between.
    await nextTurn();
  }
  return { targets, notes: [...NOTES] };
}

function worthOf(piece: MeasuredPoint, target: HeatTarget, judged: JudgeCase): LethalityWire['targets'][number]['pieces'][number] {
  const { minutes, logReductions, gapMs } = accumulateLethality(piece.readings, target, maxGapMs({ kind: 'heat-hold' }, piece.readings, judged));
  return { name: piece.name, minutes, logReductions: logReductions ?? null, gapMinutes: gapMs / MINUTE_MS };
}
