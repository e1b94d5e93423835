/** Saving an ingredient of the kitchen's own: from a package's label, or mixed of others. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { IngredientDraft } from '../../../app/contract/requests/recipes.ts';
import { IngredientAsset } from '../../../app/contract/assets.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { figuresOf } from './ingredient-figures.ts';
import { mixesOf, type OwnIngredient } from './ingredient-view.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { nameIn, sameName } from './recipe-names.ts';

/** Room for a number behind an id of 64 characters. */
const LONGEST_SLUG = 56;
/** US major food allergens but fish, which is named by its market name: 21 U.S.C. 321(qq) (from memory). */
const ALLERGENS = ['milk', 'egg', 'crustacean shellfish', 'tree nuts', 'wheat', 'peanuts', 'soybeans', 'sesame'] as const;

/**
 * Saves a new ingredient, or new figures for one. Recipes and mixes take the new figures from now on as they are used;
 * figures of mixes that hold it stay until those are saved again, and batches keep what they were made with.
 * @throws Refusal at the field: a name that is taken, an allergen that law doesn't know, figures that can't be, a mix inside itself
 */
export function saveIngredient(room: BookRoom, { ingredientId, draft }: Parsed<'ingredient.save'>): OwnIngredient {
  const before = ingredientId === null ? null : ownOf(room, ingredientId);
  const all = ingredientsOf(room);
  refuseTakenName(all, draft.name, ingredientId);
  refuseUnknownAllergen(draft);
  const id = before?.id ?? freeSlug(draft.name, all.map((one) => one.id));
  const worked = figuresOf(id, draft, { ingredients: all, mixes: mixesOf(room.book.shelf('ingredients').all()) });
  if (!worked.ok) {
    const { message, remedy, field = 'composition' } = worked.problem;
    throw new Refusal('INVALID_INPUT', message, { remedy, fields: [{ path: ['draft', ...field.split('.')], message }] });
  }
  const own: OwnIngredient = {
    id, version: (before?.version ?? 0) + 1, composition: draft.composition, figures: IngredientAsset.parse(worked.value),
    savedAtMs: room.clock.nowMs(), savedBy: actingPerson(room).initials,
  };
  if (before !== null && isUnchanged(before, own)) {
    throw new Refusal('INVALID_INPUT', `Nothing in ${nameIn(before.figures.name)} has changed.`, { remedy: 'Change something, or leave it as it is.' });
  }
  keepIngredient(room, own, before, 'ingredient.save');
  return own;
}

/** Puts an ingredient that was checked on its shelf, records it and announces it. */
export function keepIngredient(room: BookRoom, own: OwnIngredient, before: OwnIngredient | null, kind: string): void {
  room.book.shelf('ingredients').put(own);
  const how = own.composition.ground === 'mix' ? 'a mix of the kitchen’s' : 'by its package';
  room.book.record({
    kind, subjectId: own.id, happenedAtMs: null,
    summary: before === null ? `Added the ingredient ${nameIn(own.figures.name)}, ${how}.` : `New figures for the ingredient ${nameIn(own.figures.name)}, version ${own.version}.`,
    ...(before === null ? {} : { before }),
    after: own,
  });
  room.changed('recipes', [own.id]);
}

/**
 * An id made of a name, free among those in use: letters, digits and hyphens, a letter first.
 * @param taken ids in use, those of the program's list among them
 */
export function freeSlug(name: string, taken: readonly string[]): string {
  const plain = name.normalize('NFKD').toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^[^a-z]+/, '').slice(0, LONGEST_SLUG).replace(/-+$/, '');
  const slug = plain === '' ? 'ingredient' : plain;
  let free = slug;
  for (let count = 2; taken.includes(free); count += 1) free = `${slug}-${count}`;
  return free;
}

function ownOf(room: BookRoom, ingredientId: string): OwnIngredient {
  const listed = room.catalogue.ingredients.find((one) => one.id === ingredientId);
  if (listed !== undefined) {
    refuseInput(`${listed.name} comes with the program, and its figures stay as they are.`, ['ingredientId'], 'Add an ingredient of your own under another name.', 'RULE_BLOCKS');
  }
  return room.book.shelf('ingredients').need(ingredientId);
}

function refuseTakenName(all: readonly { readonly id: string; readonly name: string }[], name: string, ownId: string | null): void {
  const taken = all.find((other) => other.id !== ownId && sameName(other.name, name));
  if (taken === undefined) return;
  refuseInput(`There is an ingredient called ${nameIn(taken.name)} already.`, ['draft', 'name'], 'Give this one another name, such as with its maker.', 'CONFLICT');
}

function refuseUnknownAllergen({ allergens }: IngredientDraft): void {
  const index = allergens.findIndex((words) => !ALLERGENS.some((known) => known === words) && !/^fish: \S/.test(words));
  if (index === -1) return;
  refuseInput(
    `“${allergens[index] ?? ''}” is none of the allergens that a label must name.`, ['draft', 'allergens', String(index)],
    `Choose from ${ALLERGENS.join(', ')}, or write fish with its name: fish: Anchovy.`,
  );
}

function isUnchanged(before: OwnIngredient, after: OwnIngredient): boolean {
  return JSON.stringify([before.figures, before.composition]) === JSON.stringify([after.figures, after.composition]);
}
