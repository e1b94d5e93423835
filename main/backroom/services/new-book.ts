/** What a new book begins with: its kitchen, its people and the starting recipes. */
import type { Kitchen, Person } from '../../../app/contract/requests/office.ts';
import type { BookRoom } from '../room.ts';
import { putVersion } from './recipe-versions.ts';
import { startingRecipes } from './starting-recipes.ts';

export interface NewBook {
  readonly kitchen: Kitchen;
  readonly people: readonly Omit<Person, 'id'>[];
}

/**
 * Writes the first entries of a book: kitchen, people, recipes. A kitchen's own book gets the recipes
 * meant for every book, the demonstration kitchen all of them.
 * @returns the people with their ids, in the order given
 */
export function beginBook(room: BookRoom, { kitchen, people }: NewBook): Person[] {
  room.book.shelf('kitchen').put({ id: 'kitchen', ...kitchen });
  room.book.record({
    kind: 'book.start', subjectId: 'kitchen', happenedAtMs: room.clock.nowMs(),
    summary: `Started the book of ${kitchen.name}, ${kitchen.address.city}${kitchen.demo ? ' (demonstration: everything in it is invented)' : ''}.`, after: kitchen,
  });
  const crew = people.map((draft) => ({ id: room.newId(), ...draft }));
  for (const person of crew) {
    room.book.shelf('people').put(person);
    room.book.record({
      kind: 'office.addPerson', subjectId: person.id, happenedAtMs: null,
      summary: `Added ${person.initials}${person.name === '' ? '' : ` (${person.name})`}.`, after: person,
    });
  }
  for (const recipe of startingRecipes(room.catalogue, kitchen.demo)) {
    putVersion(room, recipe, { savedBy: '', why: '' });
    room.book.record({ kind: 'recipe.keep', subjectId: recipe.id, happenedAtMs: null, summary: `Kept the recipe “${recipe.name}”, version 1.`, after: recipe });
  }
  return crew;
}
