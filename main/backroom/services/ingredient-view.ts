/** An ingredient as the contract shows it, with where its figures come from in a sentence. */
import type { Ingredient as Listed, SourceNote } from '../../../app/brine/ingredients.ts';
import type { MixesById } from '../../../app/brine/mix.ts';
import type { Composition, Ingredient, IngredientDraft } from '../../../app/contract/requests/recipes.ts';
import type { Stored } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { figuresOf, notesOf, sameFigures } from './ingredient-figures.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { declaresNitrite } from './nitrite-rule.ts';

export type OwnIngredient = Stored<'ingredients'>;

const CHANGED_SINCE = 'One of its parts has changed since these figures were worked out: save it again to take the new ones in.';

/** Every ingredient of the list and of the kitchen's own. */
export function viewIngredients(room: BookRoom): Ingredient[] {
  const own = room.book.shelf('ingredients').all();
  return [
    ...room.catalogue.ingredients.map((ingredient) => view(ingredient, 'list', [])),
    ...own.map((one) => viewOwn(room, one)),
  ];
}

/** One of the kitchen's own, with what its figures do not know. */
export function viewOwn(room: BookRoom, own: OwnIngredient): Ingredient {
  const changed = own.composition.ground === 'mix' && !isCurrent(room, own) ? [CHANGED_SINCE] : [];
  return view(own.figures, own.composition.ground, [...notesOf(own.composition), ...changed]);
}

/** How the kitchen's mixes are made, by ingredient id. */
export function mixesOf(all: readonly Pick<OwnIngredient, 'id' | 'composition'>[]): MixesById {
  return Object.fromEntries(all.flatMap(({ id, composition }) => (composition.ground === 'mix' ? [[id, composition.parts]] : [])));
}

/** Figures are frozen when saved, so that a recipe's strength never moves by itself; whether they still follow from the parts is told. */
function isCurrent(room: BookRoom, { id, figures, composition }: OwnIngredient): boolean {
  const surroundings = { ingredients: ingredientsOf(room), mixes: mixesOf(room.book.shelf('ingredients').all()) };
  const worked = figuresOf(id, draftOf(figures, composition), surroundings);
  return worked.ok && sameFigures(worked.value, figures);
}

/** An ingredient as it was given. */
export function draftOf({ name, labelName, subIngredients, allergens, mayContain }: Listed, composition: Composition): IngredientDraft {
  return { name, labelName, composition, subIngredients: [...subIngredients], allergens: [...allergens], mayContain: [...mayContain] };
}

function view(ingredient: Listed, ground: Ingredient['ground'], notes: readonly string[]): Ingredient {
  const { id, name, labelName, waterPercent, saltPercent, sugarPercent, alcoholPercent, densityGramsPerMl, chooseForm } = ingredient;
  return {
    id, name, labelName, waterPercent, saltPercent, sugarPercent, alcoholPercent, densityGramsPerMl, chooseForm, ground,
    subIngredients: [...ingredient.subIngredients], allergens: [...ingredient.allergens], mayContain: [...ingredient.mayContain],
    forms: ingredient.household.map((form) => ({ id: form.id, name: form.name, weights: form.weights.map((weight) => ({ ...weight })), source: sourceSentence(form.source) })),
    hasNitrite: declaresNitrite(ingredient),
    source: [sourceSentence(ingredient.source), ...notes].join(' '),
  };
}

function sourceSentence({ publisher, title, section, year, mark }: SourceNote): string {
  return `${[publisher, title, section, ...(year === null ? [] : [String(year)])].join(', ')} (${mark}).`;
}
