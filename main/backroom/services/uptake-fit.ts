/** Fits the coefficient of the salt's uptake to the kitchen's own analysed pieces. */
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { brinedFish, equilibriumFraction, finishedFraction, type Bath, type RawFish } from '../../../app/brine/balance.ts';
import { coefficientAt, type UptakeCoefficient } from '../../../app/brine/uptake-coefficient.ts';
import { approachInBath, fourierNumber, type Skin } from '../../../app/brine/uptake.ts';
import { waterPhaseFraction } from '../../../app/brine/water-phase.ts';

/** A piece that was soaked and analysed whole, through its full thickness. */
export interface UptakeSample {
  readonly thicknessMm: number;
  readonly skin: Skin;
  readonly hours: number;
  readonly celsius: number;
  /** All the fish that was in the bath, raw, and the bath when it went in. */
  readonly fish: RawFish;
  readonly bath: Bath;
  readonly measuredWaterPhasePercent: number;
  /** Finished over brined weight where it was analysed after smoking; absent for a piece out of the brine. */
  readonly yieldPercent?: number | undefined;
}

export interface UptakeFit extends UptakeCoefficient {
  /** Samples that tell nothing of the speed: at equilibrium before they were taken, or figures that can't be. */
  readonly leftOut: number;
}

/** A piece come so far even at the slowest usual speed tells nothing of the speed. */
const TELLING_APPROACH = 0.95;
/** Nor does one whose brine was hardly stronger than the fish, in fraction of water-phase salt. */
const TELLING_RISE = 0.005;
/** Fewer samples than this don't show their own scatter. */
const FEWEST_FOR_SCATTER = 3;
/** The range is twice the standard error of ln D to either side. */
const STANDARD_ERRORS = 2;
/** And never narrower than this: the next fish is another fish (common practice). */
const NARROWEST_LOW = 0.8;
const NARROWEST_HIGH = 1.25;
/** Flesh from 1/30 to 30 times the usual would be no flesh: a fit that ends here is none. */
const WIDEST_LOG = Math.log(30);
const LOG_STEP = 1e-4;
/** A fit of one figure settles in a dozen. */
const MOST_ITERATIONS = 40;

/**
 * Fits ln D at 4 °C to measured water-phase salt by least squares (Levenberg and Marquardt), all
 * samples of equal weight. Range: ± 2 standard errors of ln D, from the scatter of the residuals over
 * the sensitivity, from three samples on; with fewer the usual range stands around the fitted middle.
 * @param samples of one kind of fish; millimetres, hours, °C, grams, per cent
 * @param usual where the fit starts and what its range is taken from
 * @returns the fitted coefficient, or the usual one where no sample tells anything or no fit is found
 */
export function fitUptake(samples: readonly UptakeSample[], usual: UptakeCoefficient): UptakeFit {
  const usualLog = Math.log(usual.squareMetresPerSecond);
  const telling = samples.filter(isSample).map(modelOf).filter((model) => tellsSpeed(model, usual));
  const leftOut = samples.length - telling.length;
  if (telling.length === 0) return { ...usual, leftOut };
  // The library wants two points at least; one counted twice has its minimum where it had it.
  const points = telling.length === 1 ? [...telling, ...telling] : telling;
  const fitted = levenbergMarquardt(
    { x: points.map((_, index) => index), y: points.map((model) => model.sample.measuredWaterPhasePercent) },
    ([log = usualLog]) => (index) => points[index]?.percentAt(log) ?? NaN,
    {
      initialValues: [usualLog], minValues: [usualLog - WIDEST_LOG], maxValues: [usualLog + WIDEST_LOG],
      gradientDifference: LOG_STEP, centralDifference: true, errorTolerance: 1e-14, maxIterations: MOST_ITERATIONS,
    },
  );
  const log = fitted.parameterValues[0] ?? NaN;
  if (!(Math.abs(log - usualLog) < WIDEST_LOG - LOG_STEP)) return { ...usual, leftOut };
  return { squareMetresPerSecond: Math.exp(log), ...rangeOf(telling, log, usual), ground: 'fitted', samples: telling.length, leftOut };
}

/** A sample and what the uptake of its slab makes of a coefficient, given as ln D at 4 °C. */
interface SampleModel {
  readonly sample: UptakeSample;
  approachAt(log: number): number;
  /** Water-phase salt in per cent; NaN where the yield takes all the water. */
  percentAt(log: number): number;
}

function modelOf(sample: UptakeSample): SampleModel {
  const { fish, bath, yieldPercent } = sample;
  const approachOf = approachInBath(bath.waterGrams / (fish.grams * fish.moistureFraction));
  const fourierOfUnit = fourierNumber({ ...sample, squareMetresPerSecond: coefficientAt({ squareMetresPerSecond: 1 }, sample.celsius) });
  function approachAt(log: number): number {
    return approachOf(Math.exp(log) * fourierOfUnit);
  }
  function percentAt(log: number): number {
    return 100 * (finishedFraction(brinedFish(fish, bath, approachAt(log)), (yieldPercent ?? 100) / 100) ?? NaN);
  }
  return { sample, approachAt, percentAt };
}

function isSample({ measuredWaterPhasePercent, celsius, hours, thicknessMm, fish, bath }: UptakeSample): boolean {
  return measuredWaterPhasePercent >= 0 && measuredWaterPhasePercent < 100 && hours > 0 && thicknessMm > 0 && Number.isFinite(celsius)
    && fish.grams > 0 && fish.moistureFraction > 0 && bath.waterGrams > 0 && bath.saltGrams >= 0;
}

function tellsSpeed({ sample: { fish, bath }, approachAt, percentAt }: SampleModel, usual: UptakeCoefficient): boolean {
  const slowestLog = Math.log(usual.squareMetresPerSecond * usual.lowFactor);
  const rise = equilibriumFraction(fish, bath) - waterPhaseFraction(fish.saltFraction, fish.moistureFraction);
  return rise > TELLING_RISE && approachAt(slowestLog) < TELLING_APPROACH && Number.isFinite(percentAt(slowestLog));
}

function rangeOf(models: readonly SampleModel[], log: number, usual: UptakeCoefficient): Pick<UptakeCoefficient, 'lowFactor' | 'highFactor'> {
  const usualRange = { lowFactor: usual.lowFactor, highFactor: usual.highFactor };
  if (models.length < FEWEST_FOR_SCATTER) return usualRange;
  let residualSquares = 0;
  let sensitivitySquares = 0;
  for (const { sample, percentAt } of models) {
    residualSquares += (sample.measuredWaterPhasePercent - percentAt(log)) ** 2;
    sensitivitySquares += ((percentAt(log + LOG_STEP) - percentAt(log - LOG_STEP)) / (2 * LOG_STEP)) ** 2;
  }
  const standardError = Math.sqrt(residualSquares / (models.length - 1) / sensitivitySquares);
  if (!Number.isFinite(standardError)) return usualRange;
  return {
    lowFactor: Math.min(NARROWEST_LOW, Math.exp(-STANDARD_ERRORS * standardError)),
    highFactor: Math.max(NARROWEST_HIGH, Math.exp(STANDARD_ERRORS * standardError)),
  };
}
