import { describe, expect, it } from 'vitest';
import { Species } from '../../app/contract/requests/fish.ts';
import { Stock } from '../../app/contract/requests/packing.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';

describe('the data that comes with the program', () => {
  it('fits its schemas, part by part, and is parsed once', () => {
    expect(catalogue.limits.sets.map((set) => set.id).toSorted()).toEqual([
      'ak', 'ca-on', 'eu-uk', 'home', 'lodge-default', 'me', 'mi-plant', 'ny-food-service', 'ny-plant', 'or-retail', 'us-fda-sale', 'us-food-code', 'wi',
    ]);
    expect(catalogue.limits).toBe(catalogue.limits);
    expect(catalogue.ingredients.map(({ id }) => id)).toEqual(expect.arrayContaining(['water', 'salt', 'brown-sugar', 'white-sugar', 'honey', 'maple-syrup', 'soy-sauce']));
    expect(catalogue.recipes.length).toBeGreaterThan(0);
  });
  it('shows species and label stocks as the contract has them', () => {
    for (const species of catalogue.species) expect(Species.parse(species)).toEqual(species);
    for (const stock of catalogue.stocks) expect(Stock.parse(stock)).toEqual(stock);
    expect(catalogue.species.map(({ id }) => id)).toEqual(catalogue.fish.map(({ scientificName }) => scientificName));
  });
  it('has recipes of known ingredients only', () => {
    const known = new Set(catalogue.ingredients.map(({ id }) => id));
    for (const recipe of catalogue.recipes) {
      for (const { id } of recipe.ingredients) expect(known).toContain(id);
      expect(recipe.ingredients.map(({ id }) => id)).toContain(recipe.salt.ingredientId);
    }
  });
});
