/** Sentences on a cooling, for a cook. */
import type { PieceDescent } from './descent.ts';
import type { Stage } from './descent-stages.ts';
import type { DescentCheck } from './limit-set.ts';
import { figureText, nameText, type Words } from './words.ts';

/** What one piece's cooling shows. */
export function descentText(check: DescentCheck, piece: PieceDescent, words: Words): string {
  const name = nameText('piece', piece.point.name);
  const last = piece.readings.at(-1);
  if (last === undefined) return `${name}: no reading.`;
  if (piece.worst === undefined) {
    if (check.from === undefined) return `${name}: the end of smoking is not marked, or nothing was read after it.`;
    return `${name} has not fallen to ${figureText(check.from)} yet: ${words.degrees(last.highTicks)} at ${words.at(last.atMs)}.`;
  }
  const { worst: stage, start, wideStep } = piece.worst;
  const said = stageText(check, stage, words);
  if (piece.verdict === 'not-proven' && stage.verdict === 'meets' && wideStep !== undefined) {
    return `${name}: no reading for ${words.lasting(wideStep.toMs - wideStep.fromMs)} from ${words.at(wideStep.fromMs)}; over 2 hours between readings prove nothing.`;
  }
  const began = start.earliestMs === start.latestMs ? `at ${words.at(start.latestMs)}`
    : start.earliestMs === undefined ? `before ${words.at(start.latestMs)}, and the end of smoking is not marked`
      : `between ${words.at(start.earliestMs)} and ${words.at(start.latestMs)}`;
  return `${name}: ${said}. It began to count ${began}.`;
}

/** What the cooling would have needed, or still does. */
export function descentNeeded(check: DescentCheck, piece: PieceDescent | undefined, words: Words): string {
  const stage = piece?.worst?.worst;
  const target = stage === undefined ? undefined : check.targets[stage.number];
  if (stage === undefined || target === undefined) return `${check.title}, read at the right moments and never over 2 hours apart.`;
  return `${figureText(target.limit)} or below within ${words.lasting(stage.withinMs)}, by a reading that shows it.`;
}

function stageText(check: DescentCheck, stage: Stage, words: Words): string {
  const target = check.targets[stage.number];
  const goal = target === undefined ? '' : figureText(target.limit);
  const from = check.clock === 'separate' && stage.number > 0 ? figureText(check.targets[stage.number - 1]?.limit ?? { value: '', unit: 'F' })
    : check.from === undefined ? 'the end of smoking' : figureText(check.from);
  const within = words.lasting(stage.withinMs);
  if (!stage.isReached) return `still above ${goal} ${words.lasting(stage.shortestMs)} after ${from}, ${within} allowed`;
  const took = stage.longestMs === undefined ? `at least ${words.lasting(stage.shortestMs)}`
    : stage.longestMs === stage.shortestMs ? words.lasting(stage.longestMs)
      : `between ${words.lasting(stage.shortestMs)} and ${words.lasting(stage.longestMs)}`;
  return `${from} to ${goal} took ${took}, ${within} allowed`;
}
