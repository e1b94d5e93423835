/**
 * What a soak is likely to do to the thickest and to the thinnest piece. An estimate from a slab in a
 * bath of limited size; it proves nothing, and only salt measured in the thickest part does.
 */
import { good, type Outcome } from '../measures/outcome.ts';
import { brinedFish, equilibriumFraction, finishedFraction, fractionBeforeSmoking, type Bath, type RawFish } from './balance.ts';
import { conditionsOf, orderFault, yieldOfOrder, type SoakOrder, type SoakTarget } from './soak-order.ts';
import { centreApproach, finiteBathApproach, fourierNumber, fourierOfApproach, type Skin } from './uptake.ts';
import { coefficientAt, type UptakeCoefficient } from './uptake-coefficient.ts';
import { saltPerWater, waterPhaseFraction } from './water-phase.ts';

/**
 * The long soak that a kitchen may fall back on: 48 hours, turned once at 24 (common practice, no
 * source known). Turning keeps pieces from lying on each other; in this model, where the brine is
 * stirred and reaches every face, it changes nothing.
 */
export const LONG_SOAK_HOURS = 48;
/** How far a piece may be thicker or thinner than measured, as a factor (common practice). */
const THICKNESS_FACTOR = 0.1;
/** How far a fish's moisture may lie from its species' figure, in points of per cent (common practice). */
const MOISTURE_POINTS = 2.5;
/** How far a yield may turn out from what was expected, in points of per cent (common practice). */
const YIELD_POINTS = 1;

/** Per cent of water-phase salt: what is likely, and the range it will probably keep to. */
export interface SoakEstimate {
  readonly percent: number;
  readonly lowPercent: number;
  readonly highPercent: number;
}

/** Hours to the target, 0 where the raw fish is there already; null where it is never reached. */
export interface ReachHours {
  readonly earliestHours: number | null;
  readonly likelyHours: number | null;
  readonly latestHours: number | null;
}

/** A piece after so many hours. */
export interface SoakedPiece {
  readonly hours: number;
  /** Mean of the whole piece. */
  readonly brined: SoakEstimate;
  /** What is likely in the part furthest from the brine, before salt evens out. */
  readonly innermostPercent: number;
  /** Mean of the finished piece; absent without a yield, and where the likely range of yields would take all the water. */
  readonly finished?: SoakEstimate;
}

export interface PieceForecast {
  readonly thicknessMm: number;
  /** Absent without a target. */
  readonly reaches?: ReachHours;
  readonly afterSoak: SoakedPiece;
  readonly afterLongSoak: SoakedPiece;
}

export interface SoakForecast {
  readonly coefficient: UptakeCoefficient;
  /** Of fish and brine left together for good. */
  readonly equilibriumPercent: number;
  readonly thickest: PieceForecast;
  readonly thinnest: PieceForecast;
}

/** All that decides how one piece takes up salt. */
export interface PieceSoak {
  readonly fish: RawFish;
  readonly bath: Bath;
  readonly thicknessMm: number;
  readonly skin: Skin;
  readonly celsius: number;
  readonly coefficient: UptakeCoefficient;
}

/** One corner of the likely range. */
interface Corner {
  readonly fish: RawFish;
  /** Water of the bath over water of the fish. */
  readonly alpha: number;
  /** Dimensionless time that passes in an hour. */
  readonly fourierPerHour: number;
}

/**
 * Forecasts a soak. Each piece is taken as if all the fish in the bath were of its thickness; salt
 * alone moves; the piece is brined on both faces, or on one where the skin is on. The range is that of
 * the corners: coefficient × its factors, thickness ± 10 %, moisture ± 2.5 points, yield ± 1 point.
 * @param order grams, millimetres, hours, °C, fractions and per cent as its keys say
 * @returns the forecast in hours and per cent, or a problem naming the key at fault
 */
export function soakForecast(order: SoakOrder): Outcome<SoakForecast> {
  const coefficient = conditionsOf(order);
  if (!coefficient.ok) return coefficient;
  const fault = orderFault(order);
  if (fault !== undefined) return fault;
  const { fish, bath, skin, celsius } = order;
  function forecastOf(thicknessMm: number, used: UptakeCoefficient): PieceForecast {
    const piece: PieceSoak = { fish, bath, thicknessMm, skin, celsius, coefficient: used };
    const yieldPercent = yieldOfOrder(order);
    return {
      thicknessMm,
      ...(order.target === undefined ? {} : { reaches: reachHours(piece, order.target) }),
      afterSoak: soakedPiece(piece, order.soakHours, yieldPercent),
      afterLongSoak: soakedPiece(piece, LONG_SOAK_HOURS, yieldPercent),
    };
  }
  return good({
    coefficient: coefficient.value,
    equilibriumPercent: 100 * equilibriumFraction(fish, bath),
    thickest: forecastOf(order.thickestMm, coefficient.value),
    thinnest: forecastOf(order.thinnestMm, coefficient.value),
  });
}

/** Water-phase salt of a finished piece after a soak; undefined where the range of yields takes all the water. */
export function finishedEstimate(piece: PieceSoak, hours: number, yieldPercent: number): SoakEstimate | undefined {
  const likely = finishedAt(likelyCorner(piece), piece.bath, hours, yieldPercent);
  const corners = cornersOf(piece).flatMap((corner) => yieldsAround(yieldPercent).map((each) => finishedAt(corner, piece.bath, hours, each)));
  const known = corners.filter((percent) => percent !== undefined);
  return likely === undefined || known.length < corners.length ? undefined : estimateOf(likely, known);
}

function soakedPiece(piece: PieceSoak, hours: number, yieldPercent: number | undefined): SoakedPiece {
  const { bath } = piece;
  const middle = likelyCorner(piece);
  const finished = yieldPercent === undefined ? undefined : finishedEstimate(piece, hours, yieldPercent);
  return {
    hours,
    brined: estimateOf(brinedAt(middle, bath, hours), cornersOf(piece).map((corner) => brinedAt(corner, bath, hours))),
    innermostPercent: innermostAt(middle, bath, hours),
    ...(finished === undefined ? {} : { finished }),
  };
}

function reachHours(piece: PieceSoak, target: SoakTarget): ReachHours {
  const { bath } = piece;
  const likely = hoursTo(likelyCorner(piece), bath, target);
  const all = [likely, ...cornersOf(piece).flatMap((corner) => targetsAround(target).map((each) => hoursTo(corner, bath, each)))];
  return { earliestHours: hoursOrNever(Math.min(...all)), likelyHours: hoursOrNever(likely), latestHours: hoursOrNever(Math.max(...all)) };
}

function hoursOrNever(hours: number): number | null {
  return hours === Infinity ? null : hours;
}

/** Infinity where it never gets there. */
function hoursTo(corner: Corner, bath: Bath, target: SoakTarget): number {
  const { fish } = corner;
  const wanted = 'brinedWaterPhasePercent' in target
    ? target.brinedWaterPhasePercent / 100
    : fractionBeforeSmoking(fish, target.finishedWaterPhasePercent / 100, target.yieldPercent / 100);
  // A yield that takes all the water leaves nothing but salt: any target is met at once.
  if (wanted === undefined) return 0;
  const own = fish.saltFraction / fish.moistureFraction;
  const risen = saltPerWater(wanted) - own;
  if (risen <= 0) return 0;
  const atEquilibrium = saltPerWater(equilibriumFraction(fish, bath)) - own;
  const fourier = atEquilibrium > 0 ? fourierOfApproach(risen / atEquilibrium, corner.alpha) : undefined;
  return fourier === undefined ? Infinity : fourier / corner.fourierPerHour;
}

function brinedAt(corner: Corner, bath: Bath, hours: number): number {
  const brined = brinedFish(corner.fish, bath, finiteBathApproach(corner.fourierPerHour * hours, corner.alpha));
  return 100 * waterPhaseFraction(brined.saltGrams, brined.waterGrams);
}

function innermostAt(corner: Corner, bath: Bath, hours: number): number {
  const like = brinedFish(corner.fish, bath, centreApproach(corner.fourierPerHour * hours, corner.alpha));
  return 100 * waterPhaseFraction(like.saltGrams, like.waterGrams);
}

function finishedAt(corner: Corner, bath: Bath, hours: number, yieldPercent: number): number | undefined {
  const brined = brinedFish(corner.fish, bath, finiteBathApproach(corner.fourierPerHour * hours, corner.alpha));
  const fraction = finishedFraction(brined, yieldPercent / 100);
  return fraction === undefined ? undefined : 100 * fraction;
}

function likelyCorner(piece: PieceSoak): Corner {
  return cornerOf(piece, piece.fish.moistureFraction, piece.thicknessMm, 1);
}

/** Coefficient and thickness both hasten or both slow, so two speeds bound them; with each the ends of the moisture. */
function cornersOf(piece: PieceSoak): Corner[] {
  const { fish, thicknessMm, coefficient } = piece;
  const slip = MOISTURE_POINTS / 100;
  // A fish drier than that slip is no fish, but must not come out with no water at all.
  const moistures = [Math.max(fish.moistureFraction - slip, fish.moistureFraction / 2), Math.min(fish.moistureFraction + slip, 1 - fish.saltFraction)];
  return moistures.flatMap((moisture) => [
    cornerOf(piece, moisture, thicknessMm * (1 + THICKNESS_FACTOR), coefficient.lowFactor),
    cornerOf(piece, moisture, thicknessMm * (1 - THICKNESS_FACTOR), coefficient.highFactor),
  ]);
}

function cornerOf(piece: PieceSoak, moistureFraction: number, thicknessMm: number, factor: number): Corner {
  const squareMetresPerSecond = factor * coefficientAt(piece.coefficient, piece.celsius);
  return {
    fish: { ...piece.fish, moistureFraction },
    alpha: piece.bath.waterGrams / (piece.fish.grams * moistureFraction),
    fourierPerHour: fourierNumber({ hours: 1, thicknessMm, skin: piece.skin, squareMetresPerSecond }),
  };
}

function yieldsAround(yieldPercent: number): number[] {
  return [Math.max(yieldPercent - YIELD_POINTS, 0), Math.min(yieldPercent + YIELD_POINTS, 100)];
}

function targetsAround(target: SoakTarget): SoakTarget[] {
  if ('brinedWaterPhasePercent' in target) return [target];
  return yieldsAround(target.yieldPercent).map((yieldPercent) => ({ ...target, yieldPercent }));
}

function estimateOf(percent: number, corners: readonly number[]): SoakEstimate {
  return { percent, lowPercent: Math.min(percent, ...corners), highPercent: Math.max(percent, ...corners) };
}
