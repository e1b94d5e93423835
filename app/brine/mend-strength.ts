/** A brine that was measured too strong or too weak. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { equilibriumFraction } from './balance.ts';
import { mixtureLitres, type BrineMixture } from './density.ts';
import { percentFromFloat } from './float.ts';
import { mixtureOf, type Ingredient, type WeighedIngredient } from './ingredients.ts';
import {
  isOverSaturated, nothingToDo, planOf, saltOf, times, toScale, tubState, voidsOf, waterOf, withMore, type MendPlan, type MendStep, type TubNow, type TubState,
} from './mend-plan.ts';
import { rawFishOf, USUAL_FISH, type FishComposition } from './recipe.ts';
import { plainNumber } from './rounding.ts';
import { saltPerWater } from './water-phase.ts';

/** How strong the brine was found, whole brine. */
export type MeasuredStrength =
  | { readonly by: 'percent'; readonly percent: number }
  | { readonly by: 'float'; readonly degrees: number; readonly celsius: number };

export interface OffStrength {
  readonly kind: 'too-strong' | 'too-weak';
  readonly measured: MeasuredStrength;
  /** Strength it should have, per cent by weight of the whole brine; that of its card unless given. */
  readonly wantedPercent?: number | undefined;
  /** Raw fish that went in, for what its soak explains. */
  readonly fish?: FishComposition | undefined;
}

/** Salt of an ingredient that brings a mixture to a water-phase fraction: the salt balance, solved. Below 0 when it is stronger already. */
export function gramsToStrengthen(mixture: Pick<BrineMixture, 'saltGrams' | 'waterGrams'>, salt: Ingredient, fraction: number): number {
  const { saltGrams, waterGrams } = mixture;
  return (100 * (fraction * (saltGrams + waterGrams) - saltGrams)) / (salt.saltPercent - fraction * (salt.saltPercent + salt.waterPercent));
}

/** Water that brings a mixture down to a water-phase fraction above 0; below 0 when it is weaker already. */
export function gramsToWeaken(mixture: Pick<BrineMixture, 'saltGrams' | 'waterGrams'>, water: Ingredient, fraction: number): number {
  const { saltGrams, waterGrams } = mixture;
  return (100 * (saltGrams - fraction * (saltGrams + waterGrams))) / (fraction * (water.saltPercent + water.waterPercent) - water.saltPercent);
}

/**
 * Salt or water that brings a brine back to its strength.
 *
 * What went wrong is not known, only what was measured, so the brine is taken to weigh what its card
 * says, with salt and water in the measured proportion. Voids: what is in it is no longer the recipe as
 * weighed, so the scheduled process and its verification go, as do float readings and the forecast.
 */
export function planStrength(tub: TubNow, trouble: OffStrength, ingredients: readonly Ingredient[]): Outcome<MendPlan> {
  const card = tubState(tub.lines, tub.celsius);
  if (!card.ok) return card;
  const measured = measuredPercent(trouble.measured, card.value);
  if (!measured.ok) return measured;
  const wanted = trouble.wantedPercent ?? card.value.percentByWeight;
  const asMeasured = linesAs(tub, measured.value, ingredients, 'trouble.measured');
  if (!asMeasured.ok) return asMeasured;
  const asWanted = linesAs(tub, wanted, ingredients, 'trouble.wantedPercent');
  if (!asWanted.ok) return asWanted;
  const now = tubState(asMeasured.value, tub.celsius);
  if (!now.ok) return now;
  const wrongWay = trouble.kind === 'too-strong' ? measured.value <= wanted : measured.value >= wanted;
  if (wrongWay) {
    const direction = trouble.kind === 'too-strong' ? 'stronger' : 'weaker';
    return bad(`${plainNumber(measured.value, 2)} % salt is not ${direction} than the ${plainNumber(wanted, 2)} % it should have.`, 'trouble.measured', 'Check the reading, its temperature, and the card.');
  }
  const explained = explainedBySoak(tub, trouble, measured.value, wanted, card.value);
  if (explained !== undefined) return good(nothingToDo(now.value, explained));
  const target = mixtureOf(asWanted.value);
  return bringToStrength(tub, now.value, target.saltGrams / (target.saltGrams + target.waterGrams), ingredients, {
    voids: voidsOf(tub.filletGrams), cautions: tub.filletGrams > 0 ? ['There is fish in the brine: stir well, and keep the salt off the fish until it is dissolved.'] : [],
  });
}

/**
 * Adds salt or water until a brine has a water-phase strength; first pours some off where the tub would run over.
 * @param steps that come before, already in `now`
 */
export function bringToStrength(
  tub: TubNow, now: TubState, fraction: number, ingredients: readonly Ingredient[], extra: Parameters<typeof planOf>[4], steps: readonly MendStep[] = [],
): Outcome<MendPlan> {
  const strengthen = now.waterPhasePercent <= 100 * fraction;
  const found = strengthen ? saltOf(tub, ingredients) : waterOf(tub, ingredients);
  if (!found.ok) return found;
  const ingredient = found.value;
  if (!strengthen && fraction === 0) return bad('No water makes a brine free of salt.', 'trouble.wantedPercent', 'Ask for more than 0 %.');
  const needed = strengthen ? gramsToStrengthen(now.mixture, ingredient, fraction) : gramsToWeaken(now.mixture, ingredient, fraction);
  if (!(needed >= 0)) return bad(`${ingredient.name} is too weak to bring this brine to ${plainNumber(100 * fraction, 2)} % of its water.`, 'saltIngredientId', 'Use plain salt.');
  const keep = keptShare(tub, now, ingredient, needed);
  const pourOffGrams = toScale(tub, now.totalGrams * (1 - keep));
  const left = times(now.lines, 1 - pourOffGrams / now.totalGrams);
  const grams = toScale(tub, needed * keep);
  if (grams === 0 && steps.length === 0) return good(nothingToDo(now, 'What is missing is less than the scale shows.'));
  const all: MendStep[] = [
    ...steps,
    ...(pourOffGrams > 0 ? [{ what: 'pour-off', grams: pourOffGrams, litres: (now.litres * pourOffGrams) / now.totalGrams } as const] : []),
    ...(grams > 0 ? [{ what: 'add', ingredientId: ingredient.id, grams } as const] : []),
  ];
  return planOf(tub, now, withMore(left, ingredient, grams), all, extra);
}

/** The share of the brine that may stay, so that it fits its tub with what is added; 1 where no tub is given. */
function keptShare(tub: TubNow, now: TubState, ingredient: Ingredient, addedGrams: number): number {
  if (tub.roomLitres === undefined || !(tub.roomLitres > 0)) return 1;
  const litres = mixtureLitres(mixtureOf(withMore(now.lines, ingredient, addedGrams)), tub.celsius);
  return Math.min(1, tub.roomLitres / litres);
}

function measuredPercent(measured: MeasuredStrength, card: TubState): Outcome<number> {
  if (measured.by === 'percent') {
    return measured.percent >= 0 && measured.percent < 100
      ? good(measured.percent)
      : bad(`A brine of ${plainNumber(measured.percent, 2)} % salt can’t be.`, 'trouble.measured.percent', 'Give the salt in per cent of the brine’s weight.');
  }
  const sugarPercent = (100 * (card.mixture.sugarGrams + card.mixture.otherGrams)) / card.totalGrams;
  const percent = percentFromFloat(measured.degrees, measured.celsius, sugarPercent);
  return percent.ok ? percent : bad(percent.problem.message, `trouble.measured.${percent.problem.field === 'celsius' ? 'celsius' : 'degrees'}`, percent.problem.remedy);
}

/** The card's lines at another strength: the same weight, with salt in the place of water or water in that of salt. */
function linesAs(tub: TubNow, percent: number, ingredients: readonly Ingredient[], field: string): Outcome<WeighedIngredient[]> {
  const salt = saltOf(tub, ingredients);
  if (!salt.ok) return salt;
  const water = waterOf(tub, ingredients);
  if (!water.ok) return water;
  const mixture = mixtureOf(tub.lines);
  const totalGrams = tub.lines.reduce((sum, line) => sum + line.grams, 0);
  const swapGrams = ((percent / 100) * totalGrams - mixture.saltGrams) / ((salt.value.saltPercent - water.value.saltPercent) / 100);
  const lines = withMore(withMore(tub.lines, salt.value, swapGrams), water.value, -swapGrams);
  const after = mixtureOf(lines);
  if (!(percent >= 0) || lines.some((line) => line.grams < -1e-9)) {
    return bad(`${plainNumber(percent, 2)} % salt can’t be in this brine: its other ingredients alone say otherwise.`, field, 'Check the figure, and what the card says is in the tub.');
  }
  if (isOverSaturated((100 * after.saltGrams) / (after.saltGrams + after.waterGrams))) {
    return bad(`${plainNumber(percent, 2)} % salt is more than the water of this brine can hold.`, field, 'Check the figure: a float reads high in sugar and cold.');
  }
  return good(lines);
}

/** A brine weakens as its fish takes up salt; down to equilibrium that is no trouble, and salt would be too much of it. */
function explainedBySoak(tub: TubNow, trouble: OffStrength, measured: number, wanted: number, card: TubState): string | undefined {
  if (trouble.kind !== 'too-weak' || trouble.wantedPercent !== undefined || !(tub.filletGrams > 0)) return undefined;
  const fish = rawFishOf(tub.filletGrams, trouble.fish ?? USUAL_FISH);
  if (!fish.ok) return undefined;
  const { mixture } = card;
  const saltLeft = saltPerWater(equilibriumFraction(fish.value, mixture)) * mixture.waterGrams;
  const lowest = (100 * saltLeft) / (card.totalGrams - mixture.saltGrams + saltLeft);
  if (measured < lowest) return undefined;
  return `The fish takes salt up, and this brine weakens from ${plainNumber(wanted, 2)} % to ${plainNumber(lowest, 2)} % by that alone. ${plainNumber(measured, 2)} % is on that way: more salt would be too much.`;
}
