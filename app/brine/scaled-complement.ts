/** exp(x²) × erfc(x), the complement of the error function freed of its fall: what a well-stirred bath cools and thins by. */

/** Up to here the power series keeps its digits; beyond it the continued fraction converges fast. */
const SERIES_TO = 2;
/** Levels of the continued fraction: enough for the last digit at `SERIES_TO` and above. */
const FRACTION_LEVELS = 120;

/**
 * 1 − exp(x²)·erfc(x), without the loss of digits near zero; from 0 at 0 rising to 1.
 * Power series and continued fraction as in Abramowitz and Stegun, Handbook of Mathematical
 * Functions (1964), 7.1.8 and 7.1.14 (from memory).
 * @param x zero or more
 */
export function shortfallOfScaledComplement(x: number): number {
  return x <= SERIES_TO ? seriesShortfall(x) : 1 - fractionComplement(x);
}

/** exp(x²)·erfc(x) for `x` zero or more: from 1 falling to 0. */
export function scaledComplement(x: number): number {
  return x <= SERIES_TO ? 1 - seriesShortfall(x) : fractionComplement(x);
}

/** 1 − Σ (−x)ⁿ ÷ Γ(n/2 + 1); odd and even terms each follow from the one two before. */
function seriesShortfall(x: number): number {
  let earlier = 1;
  let term = (-2 * x) / Math.sqrt(Math.PI);
  let sum = term;
  for (let n = 2; Math.abs(term) + Math.abs(earlier) > 1e-18 * Math.abs(sum); n += 1) {
    const next = (earlier * x * x) / (n / 2);
    earlier = term;
    term = next;
    sum += term;
  }
  return -sum;
}

function fractionComplement(x: number): number {
  let tail = x;
  for (let level = FRACTION_LEVELS; level >= 1; level -= 1) tail = x + level / 2 / tail;
  return 1 / (Math.sqrt(Math.PI) * tail);
}
