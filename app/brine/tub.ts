/** How much brine goes into a tub beside the fish. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { isBrineCelsius, mixtureLitres } from './density.ts';
import type { Ingredient } from './ingredients.ts';
import { scaleRecipe, type ScaledBrine, type ScaleOrder } from './recipe.ts';
import { plainNumber } from './rounding.ts';

/** Grams in a millilitre of raw fillet (from memory): flesh is a little heavier than water. */
export const FILLET_GRAMS_PER_ML = 1.055;
/** 38 °F, the temperature of a brine kept as the trade's soak rules ask: (38 − 32) ÷ 1.8 °C. */
const COLD_CELSIUS = 10 / 3;
/** Less brine than half the fish hardly covers it, even in a tight tub (meat-curing rule; read). */
const LEAST_COVERING_RATIO = 0.5;
const LARGEST_TUB_LITRES = 5000;
/** Keeps the search free of the scale's steps. */
const FINE_STEP_GRAMS = 1e-6;
const HEAVY_BRINE_GRAMS_PER_LITRE = 1200;
const MOST_ROUNDS = 100;

export interface Tub {
  readonly tubLitres: number;
  /** Left empty for stirring and turning, per cent of the tub. */
  readonly headroomPercent: number;
  readonly filletGramsPerMl?: number | undefined;
  /** Of the brine as it fills the tub, 0 to 50; 38 °F unless given. */
  readonly brineCelsius?: number | undefined;
}

export interface TubFilling {
  /** Brine to fish by weight, before rounding to the scale. */
  readonly ratio: number;
  /** What is free for fish and brine. */
  readonly usableLitres: number;
  readonly fishLitres: number;
  readonly brineLitres: number;
  readonly brineGrams: number;
  /** Scaled at that ratio. */
  readonly scaled: ScaledBrine;
  /** In sentences: too little brine to cover. */
  readonly remarks: readonly string[];
}

/**
 * Scales a recipe to fill what a tub leaves beside the fish. The brine's density depends on its
 * strength, and a strength that is set by the fish depends on how much brine there is: the ratio is
 * where volume and strength agree.
 * @param order as for `scaleRecipe`, without the ratio
 * @returns the brine, or a problem naming `tubLitres`, `headroomPercent`, `filletGramsPerMl`, `brineCelsius`, or as `scaleRecipe` names it
 */
export function brineForTub(tub: Tub, order: Omit<ScaleOrder, 'ratio'>, ingredients: readonly Ingredient[]): Outcome<TubFilling> {
  const brineCelsius = tub.brineCelsius ?? COLD_CELSIUS;
  const fault = tubFault(tub, brineCelsius);
  if (fault !== undefined) return fault;
  const usableLitres = tub.tubLitres * (1 - tub.headroomPercent / 100);
  const fishLitres = order.filletGrams / 1000 / (tub.filletGramsPerMl ?? FILLET_GRAMS_PER_ML);
  const roomLitres = usableLitres - fishLitres;
  // Fillets of no weight, or of none that can be read, are refused by the scaling itself.
  if (order.filletGrams > 0 && !(roomLitres > 0)) {
    return bad(
      `${plainNumber(order.filletGrams / 1000, 2)} kg of fillets take ${plainNumber(fishLitres, 1)} litres, and the tub has ${plainNumber(usableLitres, 1)} litres to fill.`,
      'tubLitres', 'Take a larger tub, or brine the fish in two.',
    );
  }
  const ratio = fillingRatio(roomLitres, brineCelsius, order, ingredients);
  if (!ratio.ok) return ratio;
  const scaled = scaleRecipe({ ...order, ratio: ratio.value }, ingredients);
  if (!scaled.ok) return scaled;
  return good({
    ratio: ratio.value, usableLitres, fishLitres,
    brineLitres: mixtureLitres(scaled.value.mixture, brineCelsius),
    brineGrams: scaled.value.totalGrams,
    scaled: scaled.value,
    remarks: ratio.value < LEAST_COVERING_RATIO ? [`Only ${plainNumber(ratio.value, 2)} of brine to 1 of fish fits in: it may not cover the fish. Take a larger tub, or less fish.`] : [],
  });
}

/** Each round fills the room at the density of the round before; density hardly follows the ratio, so it settles fast. */
function fillingRatio(roomLitres: number, celsius: number, order: Omit<ScaleOrder, 'ratio'>, ingredients: readonly Ingredient[]): Outcome<number> {
  // From above: a little too much brine is weaker, so a strength within reach is never refused for the guess.
  let ratio = (roomLitres * HEAVY_BRINE_GRAMS_PER_LITRE) / order.filletGrams;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const scaled = scaleRecipe({ ...order, ratio, scaleStepGrams: FINE_STEP_GRAMS }, ingredients);
    if (!scaled.ok) return scaled.problem.field === 'ratio' ? bad(scaled.problem.message, 'tubLitres', 'Take a smaller tub for so little fish, or check the weights.') : scaled;
    const next = (roomLitres * (scaled.value.totalGrams / mixtureLitres(scaled.value.mixture, celsius))) / order.filletGrams;
    if (Math.abs(next - ratio) <= 1e-8 * next) return good(next);
    ratio = next;
  }
  return bad('How much brine fits beside so much fish can’t be worked out.', 'tubLitres', 'Give the ratio of brine to fish instead.');
}

function tubFault(tub: Tub, brineCelsius: number): Extract<Outcome<never>, { ok: false }> | undefined {
  const { tubLitres, headroomPercent, filletGramsPerMl: density } = tub;
  if (!(tubLitres > 0)) return bad(`A tub of ${plainNumber(tubLitres, 1)} litres can’t be.`, 'tubLitres', 'Give its volume to the rim in litres, more than zero.');
  if (tubLitres > LARGEST_TUB_LITRES) return bad(`A tub of ${plainNumber(tubLitres, 0)} litres is larger than any kitchen has.`, 'tubLitres', 'Check the unit and the point.');
  if (!(headroomPercent >= 0 && headroomPercent < 100)) return bad(`A headroom of ${plainNumber(headroomPercent, 1)} % leaves no tub.`, 'headroomPercent', 'Give what stays empty in per cent of the tub, such as 15.');
  if (density !== undefined && !(density >= 0.9 && density <= 1.2)) return bad(`Fillets of ${plainNumber(density, 3)} g/ml can’t be.`, 'filletGramsPerMl', 'Raw fillet is about 1.055 g/ml.');
  if (!isBrineCelsius(brineCelsius)) return bad(`A brine at ${plainNumber(brineCelsius, 1)} °C can’t be worked out here.`, 'brineCelsius', 'Give a temperature from 0 to 50 °C.');
  return undefined;
}
