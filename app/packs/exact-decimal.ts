/** Exact arithmetic on decimal numbers as they were entered, so that a printed weight never leans on float rounding. */

const DECIMAL = /^(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/;

/** A non-negative number as a fraction of whole numbers. */
export interface Fraction {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/**
 * The exact value of a number's shortest decimal form: 0.1 is one tenth, as it was typed.
 * @throws for negative or infinite numbers: callers refuse those first
 */
export function fractionFromNumber(value: number): Fraction {
  const match = DECIMAL.exec(String(value));
  if (match === null) throw new Error(`not a non-negative finite number: ${value}`);
  const [, whole = '', decimals = '', exponent = '0'] = match;
  const shift = Number(exponent) - decimals.length;
  const digits = BigInt(whole + decimals);
  return shift >= 0
    ? { numerator: digits * 10n ** BigInt(shift), denominator: 1n }
    : { numerator: digits, denominator: 10n ** BigInt(-shift) };
}

/** The largest whole number not above `value × multiplier`. */
export function floorTimes(value: number, multiplier: Fraction): bigint {
  const { numerator, denominator } = fractionFromNumber(value);
  return (numerator * multiplier.numerator) / (denominator * multiplier.denominator);
}

/** The sum of several fractions. */
export function sumOf(fractions: readonly Fraction[]): Fraction {
  return fractions.reduce(
    (sum, next) => ({
      numerator: sum.numerator * next.denominator + next.numerator * sum.denominator,
      denominator: sum.denominator * next.denominator,
    }),
    { numerator: 0n, denominator: 1n },
  );
}

/** Whether `left` is above `right`, exactly. */
export function isAbove(left: Fraction, right: Fraction): boolean {
  return left.numerator * right.denominator > right.numerator * left.denominator;
}
