/** What stays in the finished fish, for the order of a label's ingredient list. */
import { brinedFish, type RawFish } from '../../../app/brine/balance.ts';
import { mixtureOf, type WeighedIngredient } from '../../../app/brine/ingredients.ts';
import { USUAL_FISH } from '../../../app/brine/recipe.ts';
import type { LabelIngredient } from '../../../app/packs/label-types.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { Room } from '../room.ts';
import { weighedLines } from './brine-card-ingredients.ts';

const ALL_WATER_PERCENT = 100;
/** Stands for what was rounded to nothing, or isn't taken up at all: it is listed last, and not left out. */
const TRACE = 0.001;

/**
 * The fish and each ingredient of its brine by the weight that stays, heaviest first on the label.
 *
 * How much sugar or sauce a fillet takes up is not known, so every ingredient is taken to go in by
 * the share in which the salt does at equilibrium (mass balance of salt and water; an estimate).
 * Only the order rests on it: the weights are not printed. Water is left out because smoking dries
 * off more than the soak brought in (21 CFR 101.4(c): water is declared where it stays; from memory).
 */
export function labelIngredients(room: Pick<Room, 'catalogue'>, batch: Pick<StoredBatch, 'id' | 'fillets' | 'card' | 'ownIngredients'>, marketName: string): LabelIngredient[] {
  const fish: LabelIngredient = { name: marketName, grams: batch.fillets.grams, allergens: [`fish: ${marketName}`] };
  const weighed = weighedLines(room, batch);
  // A dry cure stays on the fish, drip and all.
  const share = batch.card.cure === 'dry' ? 1 : shareTakenUp(batch.fillets.grams, weighed);
  return [fish, ...mergeSameName(weighed.filter(({ ingredient }) => !isWater(ingredient)), share)];
}

/** Nothing but water: the smoke dries off more than the fish took up, so it is not on the label. Its allergens would stay. */
function isWater({ waterPercent, allergens }: WeighedIngredient['ingredient']): boolean {
  return waterPercent >= ALL_WATER_PERCENT && allergens.length === 0;
}

/** Two salts, or two soy sauces, are one name on the label. */
function mergeSameName(weighed: readonly WeighedIngredient[], share: number): LabelIngredient[] {
  const merged = new Map<string, LabelIngredient>();
  for (const { ingredient, grams } of weighed) {
    const before = merged.get(ingredient.labelName);
    merged.set(ingredient.labelName, {
      name: ingredient.labelName,
      grams: (before?.grams ?? 0) + Math.max(grams, TRACE) * Math.max(share, TRACE),
      subIngredients: [...new Set([...(before?.subIngredients ?? []), ...ingredient.subIngredients])],
      allergens: [...new Set([...(before?.allergens ?? []), ...ingredient.allergens])],
    });
  }
  return [...merged.values()];
}

/** The share of the brine's salt that the fillets hold at equilibrium, 0 to 1. */
function shareTakenUp(filletGrams: number, weighed: readonly WeighedIngredient[]): number {
  const fish: RawFish = { grams: filletGrams, moistureFraction: USUAL_FISH.moisturePercent / 100, saltFraction: USUAL_FISH.saltPercent / 100 };
  const bath = mixtureOf(weighed);
  if (bath.saltGrams <= 0) return 0;
  const takenGrams = brinedFish(fish, bath).saltGrams - fish.grams * fish.saltFraction;
  return Math.min(1, Math.max(0, takenGrams / bath.saltGrams));
}
