/** The thickness of a piece as typed. Pure. */

/**
 * @param mostMm the thickest that a request takes
 * @returns mm, or null when it is no number of 1 to `mostMm` with a point
 */
export function readThicknessMm(text: string, mostMm: number): number | null {
  const trimmed = text.trim();
  if (!/^\d+(\.\d*)?$/.test(trimmed)) return null;
  const thicknessMm = Number(trimmed);
  return thicknessMm >= 1 && thicknessMm <= mostMm ? thicknessMm : null;
}
