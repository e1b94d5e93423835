/** Salt and nitrite, worked out again with whole numbers. */
import type { JudgeCase } from '../../../app/limits/judge-case.ts';
import type { NitriteMaximumCheck, TotalSaltCheck, WaterPhaseSaltCheck } from '../../../app/limits/limit-set.ts';
import type { Verdict } from '../../../app/limits/verdict.ts';
import { worseVerdict, type Opinion } from './record.ts';

const PLACES = 12;

/** Decimal text as a count of 10⁻¹². */
export function countOf(text: string): bigint {
  const [whole = '0', fraction = ''] = text.split('.');
  return BigInt(whole + fraction.padEnd(PLACES, '0'));
}

const HUNDRED = 100n * 10n ** BigInt(PLACES);

/** 100 × salt ÷ (salt + moisture) at least the limit, without ever dividing. */
function isSaltEnough(salt: bigint, moisture: bigint, percent: bigint): boolean {
  return HUNDRED * salt >= percent * (salt + moisture);
}

/** Every sample at or above the limit; within the method's error where its error could take it below. */
export function judgeSaltAgain(check: WaterPhaseSaltCheck | TotalSaltCheck, batch: JudgeCase): Opinion {
  const percent = countOf(check.percent);
  const verdicts = batch.saltSamples.flatMap(({ saltPercent, moisturePercent, errorPercent, nitritePpm }): Verdict[] => {
    const salt = countOf(saltPercent);
    const error = countOf(errorPercent ?? '0');
    const isEnough = (grams: bigint) => check.kind === 'total-salt' ? grams >= percent : isSaltEnough(grams, countOf(moisturePercent), percent);
    const onSalt: Verdict = !isEnough(salt) ? 'misses' : isEnough(salt > error ? salt - error : 0n) ? 'meets' : 'meets-within-error';
    if (check.kind === 'total-salt' || check.nitritePpm === undefined) return [onSalt];
    if (nitritePpm === undefined) return [onSalt, 'not-proven'];
    const ppm = countOf(nitritePpm);
    const isWithin = ppm >= countOf(check.nitritePpm.least) && ppm <= countOf(check.nitritePpm.most);
    return [onSalt, isWithin ? 'meets' : 'misses'];
  });
  return worstOf(verdicts);
}

/** No sample over the maximum; one that was not tested for nitrite proves nothing. */
export function judgeNitriteAgain(check: NitriteMaximumCheck, batch: JudgeCase): Opinion {
  return worstOf(batch.saltSamples.map(({ nitritePpm }): Verdict => {
    if (nitritePpm === undefined) return 'not-proven';
    return countOf(nitritePpm) <= countOf(check.ppm) ? 'meets' : 'misses';
  }));
}

/** None in any sample. */
export function judgeNoNitriteAgain(batch: JudgeCase): Opinion {
  return worstOf(batch.saltSamples.map(({ nitritePpm }): Verdict => {
    if (nitritePpm === undefined) return 'not-proven';
    return countOf(nitritePpm) === 0n ? 'meets' : 'misses';
  }));
}

function worstOf(verdicts: Verdict[]): Opinion {
  return { verdict: verdicts.sort(worseVerdict)[0] ?? 'not-proven' };
}
