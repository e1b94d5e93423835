/** Where published texts say different things about one history of a fish, in sentences. */
import type { Words } from '../limits/words.ts';
import type { RuleExposure } from './exposure-rules.ts';
import type { TimeBounds } from './exposure-stretches.ts';

export interface Compared {
  readonly hasSmoking: boolean;
  /** A cooling after the completed hold. */
  readonly hasCooling: boolean;
  /** Above 50 °F and below 135 °F in all steps. */
  readonly all: TimeBounds;
  readonly rules: readonly RuleExposure[];
}

/** The sentences that apply, none where the texts agree. */
export function disagreementsOf({ hasSmoking, hasCooling, all, rules }: Compared, words: Words): string[] {
  const found: string[] = [];
  if (hasSmoking) {
    found.push(`British Columbia leaves the smoking step out of the count; FDA appendix 4 makes no such exception. With every step counted the fish was above 50 °F for ${lengthText(all, words)}.`);
  }
  if (hasCooling) {
    found.push('Of meat, USDA’s come-up time starts again after a completed cook; no text says so of fish, and toxins and spores outlast a smoking. The cooling is judged by its own rule.');
  }
  const judged = rules.filter(({ rule }) => rule.reads === 'counted');
  const verdicts = new Set(judged.map(({ verdict }) => verdict));
  if (verdicts.size > 1) {
    found.push(`The texts differ: ${judged.map(({ rule, verdict, limbs }) => `${rule.title} ${SAID[verdict]}${limbs.length === 0 ? '' : ` (${limbs.map((limb) => `${limb.text} at most ${words.lasting(limb.allowedMinutes * 60_000)}`).join(', ')})`}`).join('; ')}.`);
  }
  return found;
}

const SAID: Readonly<Record<RuleExposure['verdict'], string>> = {
  misses: 'is not met', 'not-proven': 'is not proven', 'no-figure': 'has no figure', open: 'is met so far',
  'meets-within-error': 'is met within the error', meets: 'is met', 'does-not-apply': 'does not apply',
};

function lengthText(time: TimeBounds, words: Words): string {
  if (time.shortestMs === time.longestMs) return words.lasting(time.longestMs);
  return `${words.lasting(time.shortestMs)} to ${words.lasting(time.longestMs)}`;
}
