/** The brine card: a recipe scaled to one batch, with what the cook will see and what may come of it. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { brinedFish, equilibriumFraction, finishedFraction, type Bath, type RawFish } from './balance.ts';
import { isBrineCelsius, mixtureLitres } from './density.ts';
import { floatReading, type FloatReading } from './float.ts';
import { saturatedPercent } from './freezing.ts';
import { householdMeasure, type HouseholdMeasure, type PourUnit } from './household.ts';
import { allergensOf, mixtureOf, type Ingredient, type WeighedIngredient } from './ingredients.ts';
import { rawFishOf, scaleRecipe, USUAL_FISH, type FishComposition, type ScaledBrine, type ScaleOrder } from './recipe.ts';
import { plainNumber } from './rounding.ts';
import type { ScaledLine } from './scaled-lines.ts';
import { salometerOfPercent } from './strength.ts';
import { waterPhaseFraction } from './water-phase.ts';

/** 38 °F, the temperature of a brine kept as the trade's soak rules ask: (38 − 32) ÷ 1.8 °C. */
export const COLD_BRINE_CELSIUS = 10 / 3;
/** How far a fish's moisture may lie from the figure of its species, in points of per cent (common practice). */
const MOISTURE_POINTS = 2.5;
/** How far a yield may turn out from what was expected, in points of per cent (common practice). */
const YIELD_POINTS = 1;
/** A stronger brine may leave salt crystals on the fish: Seafish (UK), Seafood Academy, “Salting or brining of the fish” (read). */
const STRONG_SALOMETER = 80;
/** Less brine than half the fish hardly covers it, even in a tight tub (meat-curing rule; read). */
const LEAST_COVERING_RATIO = 0.5;
/** A float further off than this misleads. */
const FLOAT_SLIP_DEGREES = 1;
/** Rounding to the scale that moves the strength by more than this share is worth saying. */
const ROUNDING_SHARE = 0.01;

/** What the card warns of; the words are the renderer's. */
export const CARD_CAUTIONS = [
  'salt-falls-out', 'float-misled', 'float-off-scale', 'line-below-scale-step', 'strength-moved-by-rounding',
  'salt-differs-by-crystal', 'strong-brine', 'may-not-cover', 'yield-too-low-to-estimate',
] as const;
export type CardCaution = (typeof CARD_CAUTIONS)[number];

export interface CardOrder extends ScaleOrder {
  /** Of the brine when mixed and read, 0 to 50 °C; 38 °F unless given. */
  readonly brineCelsius?: number | undefined;
  /** Finished over brined weight, measured or expected; the target's own unless given. */
  readonly yieldPercent?: number | undefined;
  readonly pour: PourUnit;
  /** The form each ingredient is measured in, by ingredient id: `{ salt: 'dense-flake' }`. */
  readonly forms?: Readonly<Record<string, string>> | undefined;
}

export interface CardLine extends ScaledLine {
  /** Absent where no measure is known. */
  readonly household?: HouseholdMeasure;
}

/** A forecast in per cent with the range that fish and smoking are likely to keep it in. It proves nothing. */
export interface CardEstimate {
  readonly percent: number;
  readonly lowPercent: number;
  readonly highPercent: number;
}

export interface BrineCard extends Omit<ScaledBrine, 'lines' | 'mixture' | 'litresAt4C' | 'unroundedPercentByWeight'> {
  readonly recipeName: string;
  readonly lines: readonly CardLine[];
  readonly brineCelsius: number;
  /** At the brine's temperature. */
  readonly litres: number;
  readonly float: FloatReading;
  /** Water-phase salt of the brined fish if left to equilibrium. */
  readonly equilibrium: CardEstimate;
  /** Water-phase salt of the finished fish if left to equilibrium; absent without a yield. */
  readonly finished?: CardEstimate;
  /** Of the ingredients; the fish itself is not among them. */
  readonly allergens: readonly string[];
  readonly cautions: readonly CardCaution[];
}

/**
 * Works out a brine card. All figures are of the grams rounded to the scale.
 * @param order the batch and how it is measured; yield above 0 up to 100
 * @param ingredients the kitchen's catalogue
 * @returns the card, or a problem naming the input: those of `scaleRecipe`, `brineCelsius`, `yieldPercent`
 */
export function brineCard(order: CardOrder, ingredients: readonly Ingredient[]): Outcome<BrineCard> {
  const brineCelsius = order.brineCelsius ?? COLD_BRINE_CELSIUS;
  if (!isBrineCelsius(brineCelsius)) return bad(`A brine at ${plainNumber(brineCelsius, 1)} °C can’t be worked out here.`, 'brineCelsius', 'Give a temperature from 0 to 50 °C.');
  const fault = yieldFault(yieldOf(order));
  if (fault !== undefined) return fault;
  const scaled = scaleRecipe(order, ingredients);
  return scaled.ok ? cardOfScaled(order, scaled.value) : scaled;
}

/**
 * The card of a brine that was scaled already, by whatever goal.
 * @param order as for `brineCard`; its target is not solved again
 */
export function cardOfScaled(order: CardOrder, scaled: ScaledBrine): Outcome<BrineCard> {
  const brineCelsius = order.brineCelsius ?? COLD_BRINE_CELSIUS;
  const yieldPercent = yieldOf(order);
  const composition = order.fish ?? USUAL_FISH;
  const fish = rawFishOf(order.filletGrams, composition);
  if (!fish.ok) return fish;
  const { mixture, litresAt4C: _litresAt4C, unroundedPercentByWeight: _unrounded, ...figures } = scaled;
  const float = floatReading(mixture, brineCelsius);
  const finished = yieldPercent === undefined ? undefined : finishedEstimate(fish.value, composition, mixture, yieldPercent);
  return good({
    ...figures,
    recipeName: order.recipe.name,
    lines: scaled.lines.map((line) => cardLine(line, order, brineCelsius)),
    brineCelsius,
    litres: mixtureLitres(mixture, brineCelsius),
    float,
    equilibrium: equilibriumEstimate(fish.value, composition, mixture),
    ...(finished === undefined ? {} : { finished }),
    allergens: allergensOf(scaled.lines.map((line) => line.ingredient)),
    cautions: cautionsOf(order, scaled, float, brineCelsius, yieldPercent !== undefined && finished === undefined),
  });
}

/** Why a yield in per cent can't be, naming `yieldPercent`; undefined where it can, or none is given. */
export function yieldFault(yieldPercent: number | undefined): Extract<Outcome<never>, { ok: false }> | undefined {
  if (yieldPercent === undefined || (yieldPercent > 0 && yieldPercent <= 100)) return undefined;
  return bad(`A yield of ${plainNumber(yieldPercent, 2)} % can’t be.`, 'yieldPercent', 'Give finished over brined weight in per cent, above 0 and at most 100.');
}

/**
 * A brine as it lies weighed in the tub, as if it had been scaled so.
 * @param lines grams above 0 in all, with water among them, and salt water of at most 28 % salt
 */
export function brineOfLines(lines: readonly WeighedIngredient[], fish: RawFish): ScaledBrine {
  const mixture = mixtureOf(lines);
  const totalGrams = lines.reduce((sum, line) => sum + line.grams, 0);
  const percentByWeight = (100 * mixture.saltGrams) / totalGrams;
  return {
    lines: lines.map(({ ingredient, grams }) => ({ ingredient, grams, saltGrams: (grams * ingredient.saltPercent) / 100 })),
    mixture, totalGrams, percentByWeight,
    litresAt4C: mixtureLitres(mixture, 4),
    waterPhasePercent: 100 * waterPhaseFraction(mixture.saltGrams, mixture.waterGrams),
    salometerDegrees: salometerOfPercent(percentByWeight),
    equilibriumWaterPhasePercent: 100 * equilibriumFraction(fish, mixture),
    unroundedPercentByWeight: percentByWeight,
  };
}

function yieldOf(order: CardOrder): number | undefined {
  if (order.yieldPercent !== undefined) return order.yieldPercent;
  return order.target.form === 'finishedWaterPhasePercent' ? order.target.yieldPercent : undefined;
}

function cardLine(line: ScaledLine, order: CardOrder, brineCelsius: number): CardLine {
  const household = householdMeasure(line.ingredient, line.grams, order.pour, brineCelsius, order.forms?.[line.ingredient.id]);
  return household === undefined ? line : { ...line, household };
}

function equilibriumEstimate(fish: RawFish, composition: FishComposition, bath: Bath): CardEstimate {
  const corners = moistures(composition).map((moistureFraction) => 100 * equilibriumFraction({ ...fish, moistureFraction }, bath));
  return estimate(100 * equilibriumFraction(fish, bath), corners);
}

/** Undefined when some fish of the range would lose all its water: then there is no telling. */
function finishedEstimate(fish: RawFish, composition: FishComposition, bath: Bath, yieldPercent: number): CardEstimate | undefined {
  const corners: number[] = [];
  for (const moistureFraction of moistures(composition)) {
    for (const percent of [yieldPercent - YIELD_POINTS, yieldPercent + YIELD_POINTS]) {
      const fraction = finishedFraction(brinedFish({ ...fish, moistureFraction }, bath), Math.min(1, percent / 100));
      if (fraction === undefined) return undefined;
      corners.push(100 * fraction);
    }
  }
  const middle = finishedFraction(brinedFish(fish, bath), yieldPercent / 100);
  return middle === undefined ? undefined : estimate(100 * middle, corners);
}

function moistures(composition: FishComposition): number[] {
  const most = 100 - composition.saltPercent;
  const { moisturePercent } = composition;
  return [Math.max(moisturePercent - MOISTURE_POINTS, 0) / 100, Math.min(moisturePercent + MOISTURE_POINTS, most) / 100];
}

function estimate(percent: number, corners: readonly number[]): CardEstimate {
  return { percent, lowPercent: Math.min(percent, ...corners), highPercent: Math.max(percent, ...corners) };
}

function cautionsOf(order: CardOrder, scaled: ScaledBrine, float: FloatReading, brineCelsius: number, noEstimate: boolean): CardCaution[] {
  const asked = scaled.unroundedPercentByWeight;
  const applies: Readonly<Record<CardCaution, boolean>> = {
    'salt-falls-out': scaled.waterPhasePercent > saturatedPercent(brineCelsius),
    'float-misled': float.kind === 'shows' && Math.abs(float.degrees - scaled.salometerDegrees) > FLOAT_SLIP_DEGREES,
    'float-off-scale': float.kind !== 'shows',
    'line-below-scale-step': scaled.lines.some((line) => line.grams === 0 && line.ingredient.id !== order.recipe.salt.ingredientId),
    'strength-moved-by-rounding': Math.abs(scaled.percentByWeight - asked) > ROUNDING_SHARE * asked,
    'salt-differs-by-crystal': scaled.lines.some((line) => line.ingredient.chooseForm && line.grams > 0 && order.forms?.[line.ingredient.id] === undefined),
    'strong-brine': scaled.salometerDegrees > STRONG_SALOMETER,
    'may-not-cover': order.ratio < LEAST_COVERING_RATIO,
    'yield-too-low-to-estimate': noEstimate,
  };
  return CARD_CAUTIONS.filter((caution) => applies[caution]);
}
