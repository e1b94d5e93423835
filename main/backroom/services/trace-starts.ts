/** What a trace starts from, for everything it can be asked about. */
import type { TraceStartKind } from '../../../app/contract/requests/trace.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { ofDay, ofPerson, ofThermometer } from './trace-reach.ts';
import { type Ref, sourceName, sourceRef, type Starts, type TraceShelf } from './trace-source.ts';
import { describe, splitRecipeId } from './trace-words.ts';

/**
 * Where to start. Yields between look-ups where there are many of them.
 * @throws Refusal NOT_FOUND where the book has no such thing
 */
export function* startsOf(room: BookRoom, shelf: TraceShelf, kind: TraceStartKind, id: string): Generator<undefined, Starts> {
  switch (kind) {
    case 'pack': case 'batch': case 'fish-lot': case 'ingredient-lot': case 'complaint': return single(room, shelf, { kind, id });
    case 'load': {
      const { batchIds } = shelf.load(id);
      return { title: describe(room, shelf, { kind, id }).title, refs: batchIds.map((batchId) => ({ kind: 'batch', id: batchId })) };
    }
    case 'supplier': case 'owner': return ofSource(shelf, kind, id);
    case 'guest': return ofGuest(room, shelf, id);
    case 'recipe': return ofRecipe(room, id);
    case 'thermometer': return yield* ofThermometer(room, id);
    case 'person': return yield* ofPerson(room, id);
    case 'day': return yield* ofDay(room, id);
  }
}

function single(room: BookRoom, shelf: TraceShelf, ref: Ref): Starts {
  return { title: describe(room, shelf, ref).title, refs: [ref] };
}

function ofSource(shelf: TraceShelf, kind: 'supplier' | 'owner', name: string): Starts {
  const lots = shelf.lotsOfSource(kind, name);
  const written = lots[0] === undefined ? shelf.suppliedLots(name)[0]?.supplierName : sourceName(lots[0].source);
  if (written === undefined) throw new Refusal('NOT_FOUND', `Nothing in the book came from “${name}”.`, { remedy: 'Search for the name again.' });
  return { title: written, refs: [{ kind, id: shelf.nameId(written) }] };
}

/** Packs they were given, and fish they brought. */
function ofGuest(room: BookRoom, shelf: TraceShelf, id: string): Starts {
  const guest = room.book.shelf('guests').need(id);
  const owners = new Map(shelf.lotsOfGuest(guest).map((lot) => sourceRef(shelf, lot.source)).map((ref) => [ref.id, ref]));
  return { title: guest.name, refs: [{ kind: 'recipient', id }, ...owners.values()] };
}

function ofRecipe(room: BookRoom, id: string): Starts {
  const [recipeId, version] = splitRecipeId(id);
  const recipe = room.book.shelf('recipes').need(recipeId);
  const batches = room.book.shelf('batches').all().filter((batch) => batch.recipe.id === recipeId && (version === '' || String(batch.recipe.version) === version));
  const refs: Ref[] = batches.map((batch) => ({ kind: 'batch', id: batch.id }));
  if (refs.length === 0) throw new Refusal('NOT_FOUND', `No batch was brined by “${recipe.name}”${version === '' ? '' : ` version ${version}`} yet.`, { remedy: 'Start from another recipe or version.' });
  return { title: `${recipe.name}${version === '' ? '' : `, version ${version}`}`, refs };
}
