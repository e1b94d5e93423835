/** Nitrite at the bench: which species and which kitchens may use it, and how much a card brings into the fish. */
import { saltPerWater } from '../../../app/brine/water-phase.ts';
import { ingredientById, mixtureOf, type Ingredient, type WeighedIngredient } from '../../../app/brine/ingredients.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { FishComposition } from '../../../app/brine/recipe.ts';
import type { Kitchen } from '../../../app/contract/requests/office.ts';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import type { Species } from '../../../app/contract/requests/fish.ts';
import { Refusal } from '../refusal.ts';
import type { Room } from '../room.ts';
import { fishOf } from './species.ts';

/** Sodium nitrite of the curing salt in the program's list, per cent by weight: “6.25 % sodium nitrite, 93.75 % salt” (industry composition; from memory). */
const CURING_SALT = { ingredientId: 'curing-salt', nitritePercent: 6.25 } as const;

/** A recipe, or just what is to go into a brine. */
type Curable = Partial<Recipe> & Pick<Recipe, 'ingredients'>;

/** Whether an ingredient declares nitrite, or nitrate as its source: 21 CFR 101.4 has every maker name it (read). */
export function declaresNitrite(ingredient: Pick<Ingredient, 'labelName' | 'subIngredients'> & { readonly name: string }): boolean {
  return [ingredient.name, ingredient.labelName, ...ingredient.subIngredients].some((words) => /nitr[ai]te/i.test(words));
}

/** The name of the first of these ingredients that declares nitrite or nitrate; undefined where none does. */
export function curingAmong(used: readonly { readonly id: string; readonly name: string }[], ingredients: readonly Ingredient[]): string | undefined {
  return used.find(({ id, name }) => {
    const known = ingredientById(ingredients, id);
    return declaresNitrite({ name, labelName: known?.labelName ?? '', subIngredients: known?.subIngredients ?? [] });
  })?.name;
}

/**
 * Refuses a recipe with nitrite or nitrite's source, nitrate, for a species that no rule permits it for.
 * @param ingredients what the recipe's ids are looked up in; the program's list unless given
 * @param path the input's path, for the refusal
 * @throws Refusal RULE_BLOCKS
 */
export function refuseForbiddenNitrite(room: Pick<Room, 'catalogue'>, recipe: Curable, species: Species, ingredients: readonly Ingredient[] = room.catalogue.ingredients, path: readonly string[] = ['recipeId']): void {
  const fish = fishOf(room, species.id);
  const curing = curingAmong(recipe.ingredients, ingredients);
  if (curing === undefined || fish.nitriteAllowed !== 'none') return;
  blockNitrite(`${curing} holds nitrite or nitrate, and neither is permitted in ${species.marketName} (${fish.nitriteSource.title}).`, 'Choose a recipe without it.', path);
}

/**
 * Refuses a recipe with nitrite in a kitchen that named no paper it may use it on.
 * @param path the input's path, for the refusal
 * @throws Refusal RULE_BLOCKS
 */
export function refuseUngroundedNitrite(kitchen: Kitchen, recipe: Curable, ingredients: readonly Ingredient[], path: readonly string[] = ['recipeId']): void {
  const curing = curingAmong(recipe.ingredients, ingredients);
  if (curing === undefined || (kitchen.nitriteGround ?? '') !== '') return;
  blockNitrite(
    `${curing} holds nitrite or nitrate, and the office names no paper on which this kitchen may cure with it: food service needs a variance (US FDA, Food Code, 3-502.11, as enacted in Washington, WAC 246-215-03535; read), and for sale only the fish of 21 CFR 172.175 may hold it (read).`,
    'Enter the variance or permit in the office, or choose a recipe without it.', path,
  );
}

function blockNitrite(message: string, remedy: string, path: readonly string[]): never {
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: [...path], message }] });
}

/**
 * How much sodium nitrite a brine or cure brings into the fish if it spreads over all water as salt does, and none of it is used up.
 * @returns a caution in sentences; none where no ingredient declares nitrite
 */
export function nitriteCautions(lines: readonly WeighedIngredient[], fish: FishComposition & { readonly grams: number }, yieldPercent: number, cure: 'wet' | 'dry'): string[] {
  const curing = lines.filter(({ ingredient, grams }) => grams > 0 && declaresNitrite(ingredient));
  if (curing.length === 0) return [];
  const limit = 'The limit is 200 ppm of sodium nitrite in finished salmon, sablefish and shad, 10 ppm in tuna (21 CFR 172.175; read); only a laboratory tells what is in the fish.';
  const unknown = curing.filter(({ ingredient }) => ingredient.id !== CURING_SALT.ingredientId);
  if (unknown.length > 0) return [`How much nitrite ${unknown.map(({ ingredient }) => ingredient.name).join(' and ')} holds is not known here: go by its own paper. ${limit}`];
  const nitriteGrams = curing.reduce((sum, { grams }) => sum + (grams * CURING_SALT.nitritePercent) / 100, 0);
  const bath = mixtureOf(lines);
  const fishWaterGrams = (fish.grams * fish.moisturePercent) / 100;
  const inFishGrams = cure === 'dry' ? nitriteGrams : nitriteGrams * (fishWaterGrams / (fishWaterGrams + bath.waterGrams));
  const saltGrams = (fish.grams * fish.saltPercent) / 100 + bath.saltGrams;
  const takenSaltGrams = cure === 'dry' ? bath.saltGrams : saltPerWater(saltGrams / (saltGrams + fishWaterGrams + bath.waterGrams)) * fishWaterGrams - (fish.grams * fish.saltPercent) / 100;
  const brinedGrams = fish.grams + takenSaltGrams;
  const brinedPpm = (1e6 * inFishGrams) / brinedGrams;
  const finishedPpm = (100 * brinedPpm) / yieldPercent;
  return [`An estimate: the curing salt brings about ${plainNumber(brinedPpm, 0)} ppm of sodium nitrite into the fish at equilibrium, ${plainNumber(finishedPpm, 0)} ppm of its finished weight at ${plainNumber(yieldPercent, 0)} %, if none is used up. ${limit}`];
}
