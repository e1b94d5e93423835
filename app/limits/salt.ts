/** Salt and nitrite by laboratory samples, in exact decimals. */
import { add, compareDecimals, decimalFrom, multiply, quotientText, subtract, type Decimal } from './decimals.ts';
import { plainFinding, worstBy, type Finding, type JudgeContext } from './finding.ts';
import type { JudgeCase, SaltSample } from './judge-case.ts';
import type { NitriteMaximumCheck, NitriteNoneCheck, TotalSaltCheck, WaterPhaseSaltCheck } from './limit-set.ts';
import type { Verdict } from './verdict.ts';

const HUNDRED = decimalFrom('100');
const ZERO = decimalFrom('0');

interface SampleFinding {
  readonly verdict: Verdict;
  readonly text: string;
}

/**
 * Water-phase salt of every sample: salt × 100 ÷ (salt + moisture) at or above the limit (Code of
 * Maine Rules 01-001 chapter 359 § 1; Ontario Fish Plant Guidelines F.B.14.14; read), compared
 * without a division: 100 × salt against limit × (salt + moisture).
 */
export function judgeWaterPhaseSalt(check: WaterPhaseSaltCheck, judged: JudgeCase): Finding {
  const limit = decimalFrom(check.percent);
  const needed = `Laboratory result: water-phase salt ${check.percent} % or more${check.nitritePpm === undefined ? '' : `, nitrite ${check.nitritePpm.least} to ${check.nitritePpm.most} ppm`}.`;
  return judgeSamples(judged, needed, (sample) => {
    const salt = decimalFrom(sample.saltPercent);
    const moisture = decimalFrom(sample.moisturePercent);
    const waterPhase = (saltPercent: Decimal) => `${quotientText(multiply(HUNDRED, saltPercent), add(saltPercent, moisture), 4)} %`;
    const isMet = (saltPercent: Decimal) => compareDecimals(multiply(HUNDRED, saltPercent), multiply(limit, add(saltPercent, moisture))) >= 0;
    const nitrite = check.nitritePpm === undefined ? undefined : judgeRange(sample, check.nitritePpm);
    const text = `water-phase salt ${waterPhase(salt)}, ${check.percent} % asked${nitrite === undefined ? '' : `; ${nitrite.text}`}`;
    if (!isMet(salt)) return { verdict: 'misses', text };
    if (nitrite !== undefined && nitrite.verdict !== 'meets') return { verdict: nitrite.verdict, text };
    if (sample.errorPercent !== undefined && !isMet(atLeastZero(subtract(salt, decimalFrom(sample.errorPercent))))) return { verdict: 'meets-within-error', text: `${text}, within the method’s error` };
    return { verdict: 'meets', text };
  });
}

/** Salt over the whole contents. */
export function judgeTotalSalt(check: TotalSaltCheck, judged: JudgeCase): Finding {
  const limit = decimalFrom(check.percent);
  return judgeSamples(judged, `Laboratory result: salt ${check.percent} % or more.`, (sample) => {
    const salt = decimalFrom(sample.saltPercent);
    const text = `salt ${sample.saltPercent} %, ${check.percent} % asked`;
    if (compareDecimals(salt, limit) < 0) return { verdict: 'misses', text };
    const isWithin = sample.errorPercent !== undefined && compareDecimals(subtract(salt, decimalFrom(sample.errorPercent)), limit) < 0;
    return isWithin ? { verdict: 'meets-within-error', text: `${text}, within the method’s error` } : { verdict: 'meets', text };
  });
}

/** Nitrite of every sample at or below a maximum. */
export function judgeNitriteMaximum(check: NitriteMaximumCheck, judged: JudgeCase, context: JudgeContext): Finding {
  const needed = `Laboratory result: nitrite ${check.ppm} ppm or less.`;
  return withoutNitrite(judged, context, needed) ?? judgeSamples(judged, needed, (sample) => {
    if (sample.nitritePpm === undefined) return { verdict: 'not-proven', text: 'no nitrite result' };
    const isOver = compareDecimals(decimalFrom(sample.nitritePpm), decimalFrom(check.ppm)) > 0;
    return { verdict: isOver ? 'misses' : 'meets', text: `nitrite ${sample.nitritePpm} ppm, ${check.ppm} ppm allowed` };
  });
}

/** Nitrite found in a species that no rule of the set permits it for. */
export function judgeNitriteNone(_check: NitriteNoneCheck, judged: JudgeCase, context: JudgeContext): Finding {
  const needed = 'No nitrite in this species.';
  const name = judged.species ?? 'this species';
  if (judged.facts?.nitriteUsed === true) return plainFinding('misses', `Nitrite was used, and it is not permitted in ${name}.`, needed);
  return withoutNitrite(judged, context, needed) ?? judgeSamples(judged, needed, (sample) => {
    if (sample.nitritePpm === undefined) return { verdict: 'not-proven', text: 'no nitrite result' };
    const isFound = compareDecimals(decimalFrom(sample.nitritePpm), ZERO) > 0;
    return { verdict: isFound ? 'misses' : 'meets', text: `nitrite ${sample.nitritePpm} ppm${isFound ? `, not permitted in ${name}` : ''}` };
  });
}

/** Every sample must meet; the worst decides; none proves nothing. */
function judgeSamples(judged: JudgeCase, needed: string, judge: (sample: SaltSample) => SampleFinding): Finding {
  if (judged.saltSamples.length === 0) return plainFinding('not-proven', 'There is no laboratory result.', needed);
  const samples = judged.saltSamples.map((sample, index) => ({ ...judge(sample), index }));
  const worst = worstBy(samples, () => 0);
  const which = samples.length === 1 ? '' : `Sample ${worst.index + 1} of ${samples.length}: `;
  const sentence = `${which}${worst.text}.`;
  return plainFinding(worst.verdict, sentence.charAt(0).toUpperCase() + sentence.slice(1), worst.verdict === 'meets' ? '' : needed);
}

/**
 * No sample has a nitrite result. In a set the batch then raises the question only where nitrite was
 * used; judged alone, the result that was asked for is missing.
 */
function withoutNitrite(judged: JudgeCase, context: JudgeContext, needed: string): Finding | undefined {
  if (judged.saltSamples.some((sample) => sample.nitritePpm !== undefined)) return undefined;
  if (context.alone || judged.facts?.nitriteUsed === true) return plainFinding('not-proven', 'There is no nitrite result.', needed);
  return plainFinding('does-not-apply', 'No nitrite is recorded in this batch.');
}

function judgeRange(sample: SaltSample, range: { readonly least: string; readonly most: string }): SampleFinding {
  if (sample.nitritePpm === undefined) return { verdict: 'not-proven', text: 'no nitrite result' };
  const ppm = decimalFrom(sample.nitritePpm);
  const isInRange = compareDecimals(ppm, decimalFrom(range.least)) >= 0 && compareDecimals(ppm, decimalFrom(range.most)) <= 0;
  return { verdict: isInRange ? 'meets' : 'misses', text: `nitrite ${sample.nitritePpm} ppm, ${range.least} to ${range.most} ppm asked` };
}

function atLeastZero(value: Decimal): Decimal {
  return compareDecimals(value, ZERO) < 0 ? ZERO : value;
}
