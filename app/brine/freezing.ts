/** When a salt brine freezes, and when it lets salt fall. */

/** Above this percentage salt comes out of a cooling brine first, below it ice. Salt Institute, “Chemical and physical properties of salt” (read). */
const EUTECTIC_PERCENT = 23.31;

/**
 * Percentage of salt in saturated brine at a temperature: [°C, % by weight].
 * Salt Institute, “Chemical and physical properties of salt”, table of solubility by temperature (read).
 */
const SOLUBILITY: readonly (readonly [celsius: number, percent: number])[] = [
  [-21.11, 23.31], [-17.78, 23.83], [-12.22, 24.7], [-6.67, 25.53], [-1.1, 26.16], [0, 26.29], [0.1, 26.31],
  [4.44, 26.33], [10, 26.36], [15.56, 26.395], [21.11, 26.45], [26.67, 26.52], [37.78, 26.68], [51.67, 26.92],
  [65.56, 27.21], [79.44, 27.62], [93.33, 27.91], [100, 28.12], [104.44, 28.29], [108.7, 28.46],
];

/**
 * The temperature in °C at which the first solid forms in a cooling brine: ice up to 23.31 %, salt above.
 * Ice: fit (computed) to Lange's Handbook of Chemistry, 15th ed. (1999), Table 5.13 (read), within
 * 0.03 °C. Salt: interpolated in the Salt Institute's solubility table (read).
 * @param percent salt by weight of salt and water, 0 to 28.46
 * @throws RangeError outside that range
 */
export function firstSolidCelsius(percent: number): number {
  if (!(percent >= 0 && percent <= 28.46)) throw new RangeError(`no freezing point for ${percent} % salt`);
  if (percent === 0) return 0;
  if (percent <= EUTECTIC_PERCENT) return percent * (-0.54196 + percent * (-0.011137 + percent * (0.00015069 - percent * 1.4838e-5)));
  return between(SOLUBILITY, percent, 1, 0);
}

/** Whether what comes out first on cooling is salt and not ice. */
export function saltFallsFirst(percent: number): boolean {
  return percent > EUTECTIC_PERCENT;
}

/**
 * Percentage of salt that water can hold at a temperature, interpolated in the same table.
 * @param celsius −21.11 to 108.7
 * @throws RangeError outside that range
 */
export function saturatedPercent(celsius: number): number {
  if (!(celsius >= -21.11 && celsius <= 108.7)) throw new RangeError(`no solubility at ${celsius} °C`);
  return between(SOLUBILITY, celsius, 0, 1);
}

function between(table: readonly (readonly [number, number])[], at: number, from: 0 | 1, to: 0 | 1): number {
  const upper = table.findIndex((row) => row[from] >= at);
  const high = table[upper];
  const low = table[upper - 1] ?? high;
  if (high === undefined || low === undefined) throw new RangeError(`${at} is outside the table`);
  if (high[from] === low[from]) return high[to];
  return low[to] + ((at - low[from]) / (high[from] - low[from])) * (high[to] - low[to]);
}
