/** One line a measure: `name  figure  limit  met|missed`. */

export interface Measure {
  readonly name: string;
  /** Plain decimals, without thousands mark or exponent. */
  readonly figure: number;
  readonly decimals: number;
  readonly limit: number;
  /** A minimum is met from its limit up, a maximum up to it. */
  readonly side: 'at-least' | 'at-most';
}

/** Whether a figure is within its limit. */
export function isWithin({ figure, limit, side }: Measure): boolean {
  return side === 'at-least' ? figure >= limit : figure <= limit;
}

/** The line that is printed; a figure is cut, never rounded over its limit. */
export function measureLine(measure: Measure): string {
  const { name, figure, decimals, limit, side } = measure;
  const scale = 10 ** decimals;
  const cut = (side === 'at-least' ? Math.floor(figure * scale + 1e-9) : Math.ceil(figure * scale - 1e-9)) / scale;
  const limitText = limit.toFixed(decimals);
  return `${name}  ${cut.toFixed(decimals)}  ${side === 'at-least' ? `>= ${limitText}` : limitText}  ${isWithin(measure) ? 'met' : 'missed'}`;
}
