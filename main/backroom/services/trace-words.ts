/** What a thing in a trace is called, and the facts that stand with it. */
import type { PackMove } from '../../../app/contract/requests/packs-where.ts';
import type { TraceNode } from '../../../app/contract/requests/trace.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { BookRoom } from '../room.ts';
import { kitchenOf } from './kitchen.ts';
import { whereNow } from './pack-where.ts';
import { sayMass } from './packs-of-batch.ts';
import { decisionsOf, nameOf } from './release.ts';
import { speciesOf } from './species.ts';
import type { Ref, TraceShelf } from './trace-source.ts';
import { sayDay, sayInstant } from './when.ts';

type Said = Pick<TraceNode, 'title' | 'facts'>;
const PROCESS = { hot: 'hot-smoked', cold: 'cold-smoked' } as const;
const DECIDED = { release: 'Released', hold: 'Put on HOLD', reject: 'Rejected' } as const;
const FATES: Readonly<Record<string, string>> = {
  sealed: 'At the packing table', 'out-of-store': 'In the kitchen', 'handed-over': 'Handed over', returned: 'Back in the kitchen', served: 'Served', destroyed: 'Destroyed', 'into-store': 'In store',
};

/** Facts that are empty are left out. */
export function describe(room: BookRoom, shelf: TraceShelf, ref: Ref): Said {
  const { title, facts } = say(room, shelf, ref);
  return { title, facts: facts.filter((fact) => fact !== '') };
}

function say(room: BookRoom, shelf: TraceShelf, { kind, id }: Ref): Said {
  switch (kind) {
    case 'supplier': return { title: shelf.writtenName(id), facts: ['supplier'] };
    case 'owner': return { title: shelf.writtenName(id), facts: ['own catch'] };
    case 'fish-lot': return sayLot(room, shelf, id);
    case 'ingredient-lot': return sayIngredientLot(room, shelf, id);
    case 'batch': return sayBatch(room, shelf, id);
    case 'recipe': return sayRecipe(room, id);
    case 'load': return sayLoad(room, shelf, id);
    case 'thermometer': return { title: room.book.shelf('instruments').get(id)?.name ?? 'A thermometer', facts: ['thermometer'] };
    case 'pack': return sayPack(room, shelf, id);
    case 'place': return { title: room.book.shelf('places').get(id)?.name ?? 'A place', facts: [room.book.shelf('places').get(id)?.kind.replace('-', ' ') ?? ''] };
    case 'recipient': return sayRecipient(room, id);
    case 'fate': return { title: FATES[id] ?? id, facts: [] };
    case 'complaint': return sayComplaint(room, id);
  }
}

function sayLot(room: BookRoom, shelf: TraceShelf, id: string): Said {
  const lot = shelf.lot(id);
  const { source } = lot;
  return {
    title: lot.code,
    facts: [
      `${speciesOf(room, lot.speciesId).marketName}, ${sayMass(room, lot.mass.grams)}`,
      `received at ${sayInstant(room, lot.receivedAtMs)} by ${lot.receivedBy}`,
      source.kind === 'supplier' ? `supplier’s lot ${source.supplierLot}` : source.licence === undefined || source.licence === '' ? '' : `licence ${source.licence}`,
    ],
  };
}

function sayIngredientLot(room: BookRoom, shelf: TraceShelf, id: string): Said {
  const lot = shelf.ingredientLot(id);
  return { title: `${lot.ingredientName} ${lot.lotCode}`, facts: [`received on ${day(room, lot.receivedAtMs)}`, `used in ${lot.usedIn.length} ${lot.usedIn.length === 1 ? 'batch' : 'batches'}`] };
}

function sayBatch(room: BookRoom, shelf: TraceShelf, id: string): Said {
  const batch = shelf.batch(id);
  const standing = decisionsOf(room, id).at(-1);
  return {
    title: nameOf(batch),
    facts: [
      `${speciesOf(room, batch.speciesId).marketName}, ${PROCESS[batch.process]}, ${sayMass(room, batch.fillets.grams)} of fillets`,
      `made at ${sayInstant(room, batch.madeAtMs)} by ${batch.madeBy}`,
      batch.brineReused === true ? brineWords(shelf, id) : '',
      batch.mends.length === 0 ? '' : `brine mended ${batch.mends.length} ${batch.mends.length === 1 ? 'time' : 'times'}`,
      standing === undefined ? 'not decided' : `${DECIDED[standing.decision]} at ${sayInstant(room, standing.atMs)} by ${standing.initials}`,
    ],
  };
}

function brineWords(shelf: TraceShelf, batchId: string): string {
  const before = shelf.brines().before(batchId);
  return before === undefined ? 'its brine was used before, the book can’t say for which batch' : `its brine was used before, for ${nameOf(before)}`;
}

function sayRecipe(room: BookRoom, id: string): Said {
  const [recipeId, version] = splitRecipeId(id);
  const recipe = room.book.shelf('recipes').get(recipeId);
  return { title: recipe?.name ?? 'A recipe', facts: [`recipe, version ${version}`] };
}

/** `id@version`; an id alone means every version. */
export function splitRecipeId(id: string): [recipeId: string, version: string] {
  const at = id.lastIndexOf('@');
  return at === -1 ? [id, ''] : [id.slice(0, at), id.slice(at + 1)];
}

function sayLoad(room: BookRoom, shelf: TraceShelf, id: string): Said {
  const load = shelf.load(id);
  return {
    title: `Load ${load.number}`,
    facts: [
      room.book.shelf('smokers').get(load.smokerId)?.name ?? '',
      load.inAtMs === null ? 'not in yet' : `in at ${sayInstant(room, load.inAtMs)}`,
      load.outAtMs === null ? '' : `out at ${sayInstant(room, load.outAtMs)}`,
    ],
  };
}

function sayPack(room: BookRoom, shelf: TraceShelf, id: string): Said {
  const pack = shelf.pack(id);
  const moves = shelf.moves(id);
  return {
    title: pack.code,
    facts: [
      `${sayMass(room, pack.net.grams)}, sealed at ${sayInstant(room, pack.sealedAtMs)} by ${pack.sealedBy}`,
      ...(moves.length === 0 ? [whereNow(room, undefined)] : moves.map((move) => moveLine(room, move))),
    ],
  };
}

/** One line a move: “in Chest freezer, basket 2, 14:05 on 14 Mar 2026, MG”. */
function moveLine(room: BookRoom, move: PackMove): string {
  return `${whereNow(room, move)}, ${sayInstant(room, move.atMs)}${move.initials === '' ? '' : `, ${move.initials}`}${move.why === '' ? '' : `: ${move.why}`}`;
}

function sayRecipient(room: BookRoom, id: string): Said {
  const guest = room.book.shelf('guests').get(id);
  if (guest === undefined) return { title: 'Somebody the book no longer names', facts: [] };
  return { title: guest.name, facts: [guest.kind, guest.contact, guest.address, guest.room === '' ? '' : `room ${guest.room}`, guest.checkoutDay === null ? '' : `checkout ${sayDay(guest.checkoutDay)}`] };
}

function sayComplaint(room: BookRoom, id: string): Said {
  const complaint = room.book.shelf('complaints').need(id);
  return {
    title: `Complaint of ${complaint.fromName}`,
    facts: [sayInstant(room, complaint.atMs), complaint.what, complaint.outcome === null ? 'not closed' : `Closed on ${day(room, complaint.outcome.atMs)}: ${complaint.outcome.text}`],
  };
}

function day(room: BookRoom, atMs: number): string {
  return sayDay(localDay(atMs, kitchenOf(room.book).timeZone));
}
