/** Exact decimals for salt and nitrite: no floating point between a laboratory's figure and a verdict. */

export interface Decimal {
  readonly digits: bigint;
  /** Digits after the point. */
  readonly scale: number;
}

const DECIMAL = /^([+-]?)(\d+)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/;

/** Reads `3.5`, `120` or `1e-7`; throws for anything else, because callers refuse that first. */
export function decimalFrom(text: string): Decimal {
  const match = DECIMAL.exec(text.trim());
  if (match === null) throw new Error(`not a decimal: ${text}`);
  const [, sign, whole = '', fraction = '', exponent = '0'] = match;
  const scale = fraction.length - Number(exponent);
  const digits = BigInt(`${sign === '-' ? '-' : ''}${whole}${fraction}`);
  return scale >= 0 ? { digits, scale } : { digits: digits * 10n ** BigInt(-scale), scale: 0 };
}

/** Whether a text is a decimal that `decimalFrom` reads. */
export function isDecimal(text: string): boolean {
  return DECIMAL.test(text.trim());
}

/** The sum, exactly. */
export function add(left: Decimal, right: Decimal): Decimal {
  const scale = Math.max(left.scale, right.scale);
  return { digits: atScale(left, scale) + atScale(right, scale), scale };
}

/** `left − right`, exactly. */
export function subtract(left: Decimal, right: Decimal): Decimal {
  return add(left, { digits: -right.digits, scale: right.scale });
}

/** The product, exactly. */
export function multiply(left: Decimal, right: Decimal): Decimal {
  return { digits: left.digits * right.digits, scale: left.scale + right.scale };
}

/** Below zero when `left` is smaller, 0 when equal, above zero when larger. */
export function compareDecimals(left: Decimal, right: Decimal): number {
  const scale = Math.max(left.scale, right.scale);
  const difference = atScale(left, scale) - atScale(right, scale);
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** `top ÷ bottom` cut (never rounded up) to `places` digits after the point, for people to read; both not negative, bottom not 0. */
export function quotientText(top: Decimal, bottom: Decimal, places: number): string {
  const scale = Math.max(top.scale, bottom.scale);
  const cut = (atScale(top, scale) * 10n ** BigInt(places)) / atScale(bottom, scale);
  const text = cut.toString().padStart(places + 1, '0');
  return `${text.slice(0, -places)}.${text.slice(-places)}`.replace(/\.?0+$/, '');
}

function atScale(value: Decimal, scale: number): bigint {
  return value.digits * 10n ** BigInt(scale - value.scale);
}
