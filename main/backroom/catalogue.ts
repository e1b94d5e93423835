/** The data that comes with the program, each part parsed when it is first asked for: limits, ingredients, species, label stocks, starting recipes. */
import type { z } from 'zod';
import recipeData from '../../assets/demo/recipes.json' with { type: 'json' };
import fishData from '../../assets/fish/fish.json' with { type: 'json' };
import ingredientData from '../../assets/ingredients/ingredients.json' with { type: 'json' };
import checks from '../../assets/limits/checks.json' with { type: 'json' };
import akLimits from '../../assets/limits/ak.json' with { type: 'json' };
import caOnLimits from '../../assets/limits/ca-on.json' with { type: 'json' };
import euUkLimits from '../../assets/limits/eu-uk.json' with { type: 'json' };
import homeLimits from '../../assets/limits/home.json' with { type: 'json' };
import lodgeDefaultLimits from '../../assets/limits/lodge-default.json' with { type: 'json' };
import meLimits from '../../assets/limits/me.json' with { type: 'json' };
import miPlantLimits from '../../assets/limits/mi-plant.json' with { type: 'json' };
import nyFoodServiceLimits from '../../assets/limits/ny-food-service.json' with { type: 'json' };
import nyPlantLimits from '../../assets/limits/ny-plant.json' with { type: 'json' };
import orRetailLimits from '../../assets/limits/or-retail.json' with { type: 'json' };
import usFdaSaleLimits from '../../assets/limits/us-fda-sale.json' with { type: 'json' };
import usFoodCodeLimits from '../../assets/limits/us-food-code.json' with { type: 'json' };
import wiLimits from '../../assets/limits/wi.json' with { type: 'json' };
import stockData from '../../assets/stocks/label-stocks.json' with { type: 'json' };
import type { FishSpecies } from '../../app/brine/fish-species.ts';
import type { Ingredient } from '../../app/brine/ingredients.ts';
import { FishAsset, IngredientsAsset, StartingRecipesAsset } from '../../app/contract/assets.ts';
import { bookOfLimits } from '../../app/contract/assets-limits.ts';
import { LabelStocksFile } from '../../app/contract/assets-stocks.ts';
import type { Species } from '../../app/contract/requests/fish.ts';
import type { Stock } from '../../app/contract/requests/packing.ts';
import type { LimitBook } from '../../app/limits/limit-set.ts';

export type StartingRecipe = z.output<typeof StartingRecipesAsset>['recipes'][number];

/** Each part is parsed when it is first asked for, so that one short question stays short. */
export interface Catalogue {
  readonly limits: LimitBook;
  readonly ingredients: readonly Ingredient[];
  /** Species as the contract shows them; the id is the scientific name. */
  readonly species: readonly Species[];
  /** The same species in the same order, with composition and law. */
  readonly fish: readonly FishSpecies[];
  readonly stocks: readonly Stock[];
  /** The recipes a kitchen may start with. */
  readonly recipes: readonly StartingRecipe[];
}

const SETS: readonly unknown[] = [
  akLimits, caOnLimits, euUkLimits, homeLimits, lodgeDefaultLimits, meLimits, miPlantLimits, nyFoodServiceLimits, nyPlantLimits, orRetailLimits, usFdaSaleLimits, usFoodCodeLimits, wiLimits,
];

const limits = onFirstUse(() => bookOfLimits(checks, SETS));
const ingredients = onFirstUse(() => IngredientsAsset.parse(ingredientData).ingredients);
const fish = onFirstUse(() => FishAsset.parse(fishData).species);
const species = onFirstUse(() => fish().map(speciesOnContract));
const stocks = onFirstUse(() => LabelStocksFile.parse(stockData).stocks.map(({ use: _use, ...stock }) => stock));
const recipes = onFirstUse(() => StartingRecipesAsset.parse(recipeData).recipes);

/** The catalogue of this program. A part whose data does not fit its schema throws at its first use: a bug of ours. */
export const catalogue: Catalogue = {
  get limits() {
    return limits();
  },
  get ingredients() {
    return ingredients();
  },
  get species() {
    return species();
  },
  get fish() {
    return fish();
  },
  get stocks() {
    return stocks();
  },
  get recipes() {
    return recipes();
  },
};

function onFirstUse<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => (made ??= { value: make() }).value;
}

function speciesOnContract(kind: FishSpecies): Species {
  return {
    id: kind.scientificName,
    commonName: kind.commonName,
    marketName: kind.marketName,
    scientificName: kind.scientificName,
    letters: kind.twoLetterCode,
    freshwater: kind.freshwater,
  };
}
