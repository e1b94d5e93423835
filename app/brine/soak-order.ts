/** What a soak forecast is asked with, and what is wrong with it. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { fractionBeforeSmoking, type Bath, type RawFish } from './balance.ts';
import { plainNumber } from './rounding.ts';
import type { Skin } from './uptake.ts';
import { usualCoefficient, type UptakeCoefficient } from './uptake-coefficient.ts';

/** Water-phase salt to be reached in the brined fish, or in the finished fish at a yield of the brined weight. */
export type SoakTarget =
  | { readonly brinedWaterPhasePercent: number }
  | { readonly finishedWaterPhasePercent: number; readonly yieldPercent: number };

/** How a piece is soaked. Give the fat of the flesh, or a coefficient, which comes first. */
export interface SoakConditions {
  /** Above 0, at most 200. */
  readonly thickestMm: number;
  readonly skin: Skin;
  /** Of the brine in the soak, 0 to 30. */
  readonly celsius: number;
  /** Above 0, at most 240. */
  readonly soakHours: number;
  /** Of the raw flesh, 0 to 100. */
  readonly fatPercent?: number | undefined;
  readonly coefficient?: UptakeCoefficient | undefined;
}

export interface SoakOrder extends SoakConditions {
  /** All the fish in the bath. */
  readonly fish: RawFish;
  readonly bath: Bath;
  /** Above 0, at most the thickest. */
  readonly thinnestMm: number;
  /** Without one there are no hours to tell, only the salt after the soak. */
  readonly target?: SoakTarget | undefined;
  /** Finished over brined weight, above 0 up to 100; the target's own unless given. */
  readonly yieldPercent?: number | undefined;
}

type Fault = Extract<Outcome<never>, { ok: false }>;

/** Thicker than any fillet. */
const THICKEST_MM = 200;
const HOTTEST_SOAK_CELSIUS = 30;
/** Ten days: no soak of smoked fish is longer. */
const LONGEST_SOAK_HOURS = 240;

/** Why a piece can't be soaked so, naming the key at fault; or the coefficient to use. */
export function conditionsOf(order: SoakConditions): Outcome<UptakeCoefficient> {
  const thickness = thicknessFault(order.thickestMm, 'thickestMm');
  if (thickness !== undefined) return thickness;
  const { celsius, soakHours, coefficient, fatPercent } = order;
  if (!(celsius >= 0 && celsius <= HOTTEST_SOAK_CELSIUS)) {
    return bad(`A soak at ${plainNumber(celsius, 1)} °C can’t be worked out here.`, 'celsius', `Give the brine’s temperature, from 0 to ${HOTTEST_SOAK_CELSIUS} °C.`);
  }
  if (!(soakHours > 0)) return bad(`A soak of ${plainNumber(soakHours, 2)} hours can’t be.`, 'soakHours', 'Give the hours of the soak, more than zero.');
  if (soakHours > LONGEST_SOAK_HOURS) return bad(`A soak of ${plainNumber(soakHours, 1)} hours is more than ten days.`, 'soakHours', `Give the hours, at most ${LONGEST_SOAK_HOURS}.`);
  if (coefficient !== undefined) return coefficientOrFault(coefficient);
  if (fatPercent === undefined) return bad('The fat of the fish is missing.', 'fatPercent', 'Give the fat of the raw flesh in per cent: salt goes into fat fish more slowly.');
  if (!(fatPercent >= 0 && fatPercent <= 100)) return bad(`A fish with ${plainNumber(fatPercent, 1)} % fat can’t be.`, 'fatPercent', 'Give the fat of the raw flesh in per cent, such as 6.');
  return good(usualCoefficient(fatPercent));
}

function coefficientOrFault(coefficient: UptakeCoefficient): Outcome<UptakeCoefficient> {
  const { squareMetresPerSecond, lowFactor, highFactor } = coefficient;
  const isUsable = squareMetresPerSecond > 0 && Number.isFinite(squareMetresPerSecond) && lowFactor > 0 && lowFactor <= 1 && highFactor >= 1 && Number.isFinite(highFactor);
  return isUsable ? good(coefficient) : bad('The coefficient of the salt’s uptake is no usable figure.', 'coefficient', 'Leave it out, so that the usual one is taken.');
}

function thicknessFault(millimetres: number, field: 'thickestMm' | 'thinnestMm'): Fault | undefined {
  if (!(millimetres > 0)) return bad(`A piece ${plainNumber(millimetres, 1)} mm thick can’t be.`, field, 'Measure its thickest part and give the millimetres, more than zero.');
  if (millimetres > THICKEST_MM) return bad(`A piece ${plainNumber(millimetres, 1)} mm thick is no fillet.`, field, `Give the millimetres, at most ${THICKEST_MM}.`);
  return undefined;
}

/** The yield that an order speaks of, in per cent. */
export function yieldOfOrder(order: Pick<SoakOrder, 'target' | 'yieldPercent'>): number | undefined {
  if (order.yieldPercent !== undefined) return order.yieldPercent;
  return order.target !== undefined && 'yieldPercent' in order.target ? order.target.yieldPercent : undefined;
}

/** What is wrong with an order beside its conditions, naming the key at fault; undefined if nothing is. */
export function orderFault(order: SoakOrder): Fault | undefined {
  const thin = thicknessFault(order.thinnestMm, 'thinnestMm');
  if (thin !== undefined) return thin;
  if (order.thinnestMm > order.thickestMm) {
    return bad(`The thinnest piece, ${plainNumber(order.thinnestMm, 1)} mm, is thicker than the thickest, ${plainNumber(order.thickestMm, 1)} mm.`, 'thinnestMm', 'Swap them, or give both the same.');
  }
  return fishFault(order.fish) ?? bathFault(order.bath) ?? targetFault(order) ?? yieldFault(order.yieldPercent, 'yieldPercent');
}

function fishFault(fish: RawFish): Fault | undefined {
  const { grams, moistureFraction, saltFraction } = fish;
  if (!(grams > 0 && Number.isFinite(grams))) return bad(`Fish of ${plainNumber(grams, 1)} g can’t be.`, 'fish.grams', 'Weigh the fillets and give the grams, more than zero.');
  if (!(moistureFraction > 0 && saltFraction >= 0 && moistureFraction + saltFraction <= 1)) {
    return bad('The moisture and salt of the fish can’t be so.', 'fish.moistureFraction', 'Give fractions of its weight, such as 0.72 and 0.0015; together they can’t be over 1.');
  }
  return undefined;
}

function bathFault(bath: Bath): Fault | undefined {
  if (!(bath.waterGrams > 0 && Number.isFinite(bath.waterGrams))) return bad(`A brine with ${plainNumber(bath.waterGrams, 1)} g of water can’t be.`, 'bath.waterGrams', 'Give the grams of water in it, more than zero.');
  if (!(bath.saltGrams >= 0 && Number.isFinite(bath.saltGrams))) return bad(`A brine with ${plainNumber(bath.saltGrams, 1)} g of salt can’t be.`, 'bath.saltGrams', 'Give the grams of salt in it, zero or more.');
  return undefined;
}

function targetFault({ target, fish }: SoakOrder): Fault | undefined {
  if (target === undefined) return undefined;
  if ('brinedWaterPhasePercent' in target) return percentFault(target.brinedWaterPhasePercent, 'target.brinedWaterPhasePercent');
  const { finishedWaterPhasePercent, yieldPercent } = target;
  const fault = percentFault(finishedWaterPhasePercent, 'target.finishedWaterPhasePercent') ?? yieldFault(yieldPercent, 'target.yieldPercent');
  if (fault !== undefined) return fault;
  if (fractionBeforeSmoking(fish, finishedWaterPhasePercent / 100, yieldPercent / 100) !== undefined) return undefined;
  return dryYieldFault(yieldPercent, fish, 'target.yieldPercent');
}

/** The sentence for a yield that takes all the water of the fish. */
export function dryYieldFault(yieldPercent: number, fish: Pick<RawFish, 'moistureFraction'>, field: string): Fault {
  return bad(`A yield of ${plainNumber(yieldPercent, 2)} % takes all the water the fish has.`, field, `Check the weights: this fish is ${plainNumber(fish.moistureFraction * 100, 1)} % water.`);
}

function percentFault(percent: number, field: string): Fault | undefined {
  return percent >= 0 && percent < 100 ? undefined : bad(`A target of ${plainNumber(percent, 3)} % water-phase salt can’t be.`, field, 'Give per cent, from 0 to below 100; 2 to 8 is usual.');
}

function yieldFault(percent: number | undefined, field: string): Fault | undefined {
  if (percent === undefined || (percent > 0 && percent <= 100)) return undefined;
  return bad(`A yield of ${plainNumber(percent, 2)} % can’t be.`, field, 'Give finished over brined weight in per cent, above 0 and at most 100.');
}
