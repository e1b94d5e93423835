/** How the weights of a portioned batch add up: finished fish in, packs, trim and remainder out. Grams throughout. */

/** What was weighed. */
export interface Portioned {
  /** Into the brine. */
  readonly filletsGrams: number;
  /** Out of the smoker and cooled; undefined where nobody weighed it. */
  readonly finishedGrams: number | undefined;
  readonly packGrams: readonly number[];
  /** Of every portioning so far: trim adds up, of the remainders the last one is what is left. */
  readonly closed: readonly { readonly trimGrams: number; readonly remainderGrams: number }[];
}

export interface Balance {
  readonly packedGrams: number;
  readonly trimGrams: number;
  readonly remainderGrams: number;
  /** Still there to be packed: finished less packs and trim, never below nothing. */
  readonly leftGrams: number | undefined;
  /** Per cent of the fillets that went into the brine, and of the finished fish. */
  readonly yieldOfFilletsPercent: number;
  readonly yieldOfFinishedPercent: number | undefined;
  /** Finished less packs, trim and remainder: below nothing where more was weighed than there was. */
  readonly unaccountedGrams: number | undefined;
  readonly unaccountedPercent: number | undefined;
}

/** The kitchen’s own tolerance where it chose none, in per cent of the finished weight (our choice). */
export const USUAL_TOLERANCE_PERCENT = 2;

/**
 * Adds up. 9,000 g finished, packs of 8,400 g, 350 g of trim and 200 g left over leave 50 g unaccounted, 0.56 %.
 */
export function balanceOf({ filletsGrams, finishedGrams, packGrams, closed }: Portioned): Balance {
  const packedGrams = sum(packGrams);
  const trimGrams = sum(closed.map((one) => one.trimGrams));
  const remainderGrams = closed.at(-1)?.remainderGrams ?? 0;
  const yieldOfFilletsPercent = (packedGrams / filletsGrams) * 100;
  if (finishedGrams === undefined) {
    return { packedGrams, trimGrams, remainderGrams, yieldOfFilletsPercent, leftGrams: undefined, yieldOfFinishedPercent: undefined, unaccountedGrams: undefined, unaccountedPercent: undefined };
  }
  const unaccountedGrams = finishedGrams - packedGrams - trimGrams - remainderGrams;
  return {
    packedGrams, trimGrams, remainderGrams, yieldOfFilletsPercent,
    leftGrams: Math.max(0, finishedGrams - packedGrams - trimGrams),
    yieldOfFinishedPercent: (packedGrams / finishedGrams) * 100,
    unaccountedGrams,
    unaccountedPercent: (unaccountedGrams / finishedGrams) * 100,
  };
}

/** Whether the weights add up within the tolerance; exactly the tolerance does. Without a finished weight nothing can be said. */
export function addsUp(balance: Balance, finishedGrams: number, tolerancePercent: number): boolean {
  return Math.abs(balance.unaccountedGrams ?? 0) <= (finishedGrams * tolerancePercent) / 100 + 1e-9;
}

/**
 * The net weight of what stood on the scale.
 * @returns grams, or undefined where the bag would weigh as much as bag and fish together
 */
export function netOfGross(grossGrams: number, tareGrams: number): number | undefined {
  const net = grossGrams - tareGrams;
  return net > 0 ? net : undefined;
}

function sum(grams: readonly number[]): number {
  return grams.reduce((total, one) => total + one, 0);
}
