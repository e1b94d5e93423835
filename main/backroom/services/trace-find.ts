/** What a typed or scanned text can mean: a whole code first, then whatever has it in its name. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { TraceHit } from '../../../app/contract/requests/trace.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { readFishLotCode } from '../../../app/packs/fish-lot-code.ts';
import { readLotCode } from '../../../app/packs/lot-code.ts';
import { readScan } from '../../../app/packs/scan-code.ts';
import { readDay } from '../../../app/packs/dates.ts';
import type { BookRoom } from '../room.ts';
import { whereNow } from './pack-where.ts';
import { lastMoveOf } from './pack-where-last.ts';
import { sayMass } from './packs-of-batch.ts';
import { nameOf } from './release.ts';
import { speciesOf } from './species.ts';
import { nameKey, sourceName } from './trace-source.ts';
import { sayDay, zoneOf } from './when.ts';

const MOST_HITS = 40;

export function findTraces(room: BookRoom, { text }: Parsed<'trace.find'>): Output<'trace.find'> {
  const typed = text.trim();
  if (typed === '') return { hits: [], exact: null, remark: '' };
  const exact = packOf(room, typed) ?? lotOf(room, typed) ?? fishLotOf(room, typed) ?? dayOf(typed);
  const named = byName(room, nameKey(typed));
  const hits = [...(exact === undefined ? [] : [exact]), ...named].slice(0, MOST_HITS);
  return { hits, exact: exact ?? (named.length === 1 ? (named[0] ?? null) : null), remark: hits.length === 0 ? remarkOn(typed) : '' };
}

function packOf(room: BookRoom, text: string): TraceHit | undefined {
  const read = readScan(text);
  const pack = read.ok ? room.book.shelf('packs').where('code', read.value.code).at(0) : undefined;
  return pack === undefined ? undefined : { kind: 'pack', id: pack.id, title: pack.code, detail: `${sayMass(room, pack.net.grams)}, ${whereNow(room, lastMoveOf(room, pack.id))}` };
}

function lotOf(room: BookRoom, code: string): TraceHit | undefined {
  const read = readLotCode(code);
  const batch = read.ok ? room.book.shelf('batches').where('lotCode', read.value.code).at(0) : undefined;
  return batch === undefined ? undefined : { kind: 'batch', id: batch.id, title: nameOf(batch), detail: speciesOf(room, batch.speciesId).marketName };
}

function fishLotOf(room: BookRoom, code: string): TraceHit | undefined {
  const read = readFishLotCode(code);
  const lot = read.ok ? room.book.shelf('fishLots').where('code', read.value.code).at(0) : undefined;
  return lot === undefined ? undefined : { kind: 'fish-lot', id: lot.id, title: lot.code, detail: `${speciesOf(room, lot.speciesId).marketName} from ${sourceName(lot.source)}` };
}

function dayOf(typed: string): TraceHit | undefined {
  return readDay(typed).ok ? { kind: 'day', id: typed, title: sayDay(typed), detail: 'everything of that day' } : undefined;
}

/** Everything with a name that has the text at the beginning of one of its words. */
function byName(room: BookRoom, typed: string): TraceHit[] {
  const fits = (name: string): boolean => ` ${nameKey(name)}`.includes(` ${typed}`);
  const { book } = room;
  const lots = book.shelf('fishLots').all();
  const ingredientLots = book.shelf('ingredientLots').all();
  const zone = zoneOf(room);
  return [
    ...book.shelf('guests').all().filter((guest) => fits(guest.name)).map((guest): TraceHit => ({ kind: 'guest', id: guest.id, title: guest.name, detail: guest.kind })),
    ...names(lots.filter(({ source }) => source.kind === 'guest').map(({ source }) => sourceName(source)), fits).map((name): TraceHit => ({ kind: 'owner', id: nameKey(name), title: name, detail: 'own catch' })),
    ...names([...lots.filter(({ source }) => source.kind === 'supplier').map(({ source }) => sourceName(source)), ...ingredientLots.map((lot) => lot.supplierName)].filter((name) => name !== ''), fits)
      .map((name): TraceHit => ({ kind: 'supplier', id: nameKey(name), title: name, detail: 'supplier' })),
    ...lots.filter(({ source }) => source.kind === 'supplier' && fits(source.supplierLot)).map((lot): TraceHit => ({ kind: 'fish-lot', id: lot.id, title: lot.code, detail: `lot of ${sourceName(lot.source)}` })),
    ...ingredientLots.filter((lot) => fits(lot.lotCode) || fits(lot.ingredientName)).map((lot): TraceHit => ({ kind: 'ingredient-lot', id: lot.id, title: `${lot.ingredientName} ${lot.lotCode}`, detail: `received on ${sayDay(localDay(lot.receivedAtMs, zone))}` })),
    ...book.shelf('recipes').all().filter((recipe) => fits(recipe.name)).map((recipe): TraceHit => ({ kind: 'recipe', id: recipe.id, title: recipe.name, detail: `recipe, every version up to ${recipe.version}` })),
    ...book.shelf('instruments').all().filter((instrument) => fits(instrument.name)).map((instrument): TraceHit => ({ kind: 'thermometer', id: instrument.id, title: instrument.name, detail: 'thermometer' })),
    ...book.shelf('people').all().filter((person) => fits(person.name) || nameKey(person.initials) === typed).map((person): TraceHit => ({ kind: 'person', id: person.initials, title: person.name === '' ? person.initials : person.name, detail: `entered as ${person.initials}` })),
    ...book.shelf('complaints').all().filter((complaint) => fits(complaint.fromName)).map((complaint): TraceHit => ({ kind: 'complaint', id: complaint.id, title: complaint.fromName, detail: `complained on ${sayDay(localDay(complaint.atMs, zone))}` })),
    ...book.shelf('loads').all().filter((load) => typed === `load ${load.number}`).map((load): TraceHit => ({ kind: 'load', id: load.id, title: `Load ${load.number}`, detail: 'load' })),
  ];
}

/** Each name once, as it was written first. */
function names(all: readonly string[], fits: (name: string) => boolean): string[] {
  const first = new Map<string, string>();
  for (const name of all) if (fits(name) && !first.has(nameKey(name))) first.set(nameKey(name), name.trim());
  return [...first.values()];
}

/** Why a text that looks like a code leads nowhere. */
function remarkOn(typed: string): string {
  const pack = readScan(typed);
  const lot = readLotCode(typed);
  const known = pack.ok ? pack.value.code : lot.ok ? lot.value.code : undefined;
  if (known !== undefined) return `${known} is no lot or pack of this book: it may come from another kitchen.`;
  const problem = pack.ok ? undefined : pack.problem;
  const isCode = /^[A-Z]{2} ?\d{5}|^\(?01\)?\d{14}|^\]|^\d{8,14}$/i.test(typed);
  return isCode && problem !== undefined ? `${problem.message} ${problem.remedy ?? ''}`.trim() : `Nothing in the book is called “${typed}”.`;
}
