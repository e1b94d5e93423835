/** Sentences on a hold, for a cook. */
import type { HoldRule, PlaceHold } from './hold-rule.ts';
import type { Reading } from './judge-case.ts';
import { isGap } from './readings.ts';
import { longest, type Stretch } from './stretches.ts';
import type { Verdict } from './verdict.ts';
import { nameText, type Words } from './words.ts';

/** What one piece's record shows under a verdict. */
export function breakText(hold: PlaceHold, rule: HoldRule, verdict: Verdict, words: Words): string {
  const name = nameText(hold.point.role, hold.point.name);
  const last = hold.readings.at(-1);
  if (last === undefined) return `${name}: no reading.`;
  const proven = longest(hold.stretches.proven);
  switch (verdict) {
    case 'meets':
    case 'meets-within-error':
      return `${name}: ${rule.text} from ${words.at(proven?.fromMs ?? 0)} to ${words.at(proven?.toMs ?? 0)}, ${words.lasting(hold.provenMs)} proven.`;
    case 'open':
      return `${name}: ${words.part(hold.provenMs, rule.requiredMs)} so far.${rule.isIn(last) ? '' : ` It reads ${words.degrees(ticksOf(last, rule))} at ${words.at(last.atMs)}, not ${rule.text}.`}`;
    case 'not-proven': {
      const gap = widestGap(hold);
      const hidden = gap === undefined ? '' : `; a gap from ${words.at(gap.fromMs)} to ${words.at(gap.toMs)} hides the rest`;
      if (proven === undefined) return `${name}: no reading is ${rule.text}${gap === undefined ? '' : `; only a gap from ${words.at(gap.fromMs)} to ${words.at(gap.toMs)} could hide it`}.`;
      return `${name}: ${words.part(hold.provenMs, rule.requiredMs)} proven${hidden}.`;
    }
    default:
      return missedText(hold, rule, words);
  }
}

/** Why a piece's record can't have held it long enough. */
export function missedText(hold: PlaceHold, rule: HoldRule, words: Words): string {
  const name = nameText(hold.point.role, hold.point.name);
  const proven = longest(hold.stretches.proven);
  if (hold.provenMs >= rule.requiredMs) return `${name} alone: ${words.lasting(hold.provenMs)}, but not at the same time as the others.`;
  const [first] = hold.readings;
  if (first === undefined) return `${name}: no reading.`;
  if (proven === undefined) {
    const nearest = hold.readings.reduce((found, next) => (isNearer(next, found, rule) ? next : found));
    return `${name} was never ${rule.text}; the nearest reading is ${words.degrees(ticksOf(nearest, rule))} at ${words.at(nearest.atMs)}.`;
  }
  const after = hold.readings.find((reading) => reading.atMs > proven.toMs);
  const end = after === undefined ? 'the record ends there'
    : rule.isIn(after) ? `no reading followed until ${words.at(after.atMs)}`
      : `${words.degrees(ticksOf(after, rule))} at ${words.at(after.atMs)}${after.doubt === undefined ? '' : ', in doubt,'} broke it`;
  return `${name}: ${words.part(hold.provenMs, rule.requiredMs)} at ${rule.text} (${words.at(proven.fromMs)} to ${words.at(proven.toMs)}); ${end}.`;
}

/** What the hold would have needed, or still does; empty when met. */
export function neededText(rule: HoldRule, verdict: Verdict, provenMs: number, words: Words): string {
  switch (verdict) {
    case 'meets':
    case 'meets-within-error':
      return '';
    case 'open':
      return provenMs > 0 ? `${rule.text} for ${words.lasting(rule.requiredMs)} without a break.` : `${rule.text}, then ${words.lasting(rule.requiredMs)} without a break.`;
    default:
      return `${words.lasting(rule.requiredMs)} at ${rule.text} without a break, with no gap between readings.`;
  }
}

/** The widest stretch without readings inside the longest stretch that may have counted. */
function widestGap(hold: PlaceHold): Stretch | undefined {
  const possible = longest(hold.stretches.possible);
  const first = hold.readings[0];
  const last = hold.readings.at(-1);
  if (possible === undefined || first === undefined || last === undefined) return undefined;
  const gaps: Stretch[] = [];
  if (possible.fromMs < first.atMs) gaps.push({ fromMs: possible.fromMs, toMs: first.atMs });
  hold.readings.slice(1).forEach((reading, index) => {
    const before = hold.readings[index];
    if (before !== undefined && isGap(before, reading, hold.maxGapMs) && before.atMs >= possible.fromMs && reading.atMs <= possible.toMs) {
      gaps.push({ fromMs: before.atMs, toMs: reading.atMs });
    }
  });
  if (possible.toMs > last.atMs) gaps.push({ fromMs: last.atMs, toMs: possible.toMs });
  return longest(gaps);
}

function ticksOf(reading: Reading, rule: HoldRule): number {
  return rule.worse === 'lower' ? reading.lowTicks : reading.highTicks;
}

function isNearer(next: Reading, found: Reading, rule: HoldRule): boolean {
  return rule.worse === 'lower' ? next.lowTicks > found.lowTicks : next.highTicks < found.highTicks;
}
