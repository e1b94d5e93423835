/** The work that packs make when their batch’s release no longer stands: find those that are here, call whoever has the others. */
import type { WorkItem } from '../../../app/contract/requests/evidence.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { PackMove } from '../../../app/contract/requests/packs-where.ts';
import type { Decision, SetResultWire } from '../../../app/contract/requests/verdict.ts';
import { listText } from '../../../app/limits/words.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { isGone, lastMoveOf } from './pack-where-last.ts';
import { placeWords, whereWords } from './pack-where.ts';
import { packsOf } from './packs-of-batch.ts';
import { loadOfBatch } from './taken-out.ts';
import { keptColdOf } from './trays-judged.ts';
import { sayInstant } from './when.ts';

type Work = Pick<WorkItem, 'what' | 'text'>;

/** Lines for the packs that are here, by place, and one for each guest or buyer who has some. */
export function packWork(room: BookRoom, batch: StoredBatch, release: Decision): Work[] {
  const packs = packsOf(room, batch.id).map((pack) => ({ pack, move: lastMoveOf(room, pack.id) }));
  const here = packs.filter(({ move }) => !isGone(move));
  const finding: Work[] = here.length === 0 ? [] : [{
    what: 'packs',
    text: `Find these packs and keep them apart at 38 °F or below, marked HOLD, frozen ones frozen: ${listText(here.map(({ pack }) => pack.code))}. ${whereSentence(room, batch, release, here)}`,
  }];
  return [...finding, ...callWork(room, batch, release)];
}

/** Lines for those packs alone that are with somebody, or were eaten here. */
export function callWork(room: BookRoom, batch: StoredBatch, release: Pick<Decision, 'pack' | 'store'>): Work[] {
  const gone = packsOf(room, batch.id).map((pack) => ({ pack, move: lastMoveOf(room, pack.id) })).filter(({ move }) => isGone(move));
  if (gone.length === 0) return [];
  const keptUntilMs = storeKeptUntilMs(room, batch, release, judgeBatch(room, batch, release).deciding);
  return callsOf(room, gone.filter(({ move }) => move === undefined || move.atMs > keptUntilMs));
}

interface Moved {
  readonly pack: Pack;
  readonly move: PackMove | undefined;
}

function whereSentence(room: BookRoom, batch: StoredBatch, release: Decision, here: readonly Moved[]): string {
  if (here.every(({ move }) => move === undefined)) return whereByMarks(room, batch, release);
  const places = new Map<string, string[]>();
  for (const { pack, move } of here) {
    const where = move === undefined ? 'At the packing table' : move.what === 'into-store' ? `In ${placeWords(room, move)}` : `Somewhere else (${whereWords(room, pack, move)})`;
    places.set(where, [...(places.get(where) ?? []), pack.code]);
  }
  return [...places].map(([where, codes]) => `${where}: ${listText(codes)}.`).join(' ');
}

/** Where packs were last known to be that nobody put anywhere by the book. */
function whereByMarks(room: BookRoom, batch: StoredBatch, { store }: Decision): string {
  const { freezerPlaceId, intoFreezerAtMs, outOfFreezerAtMs } = batch;
  const places = room.book.shelf('places');
  if (freezerPlaceId !== null && intoFreezerAtMs !== null) {
    const { name } = places.need(freezerPlaceId);
    return outOfFreezerAtMs === null ? `They are in ${name} by the record, since ${sayInstant(room, intoFreezerAtMs)}.` : `They came out of ${name} at ${sayInstant(room, outOfFreezerAtMs)}; where they went is not on record.`;
  }
  const kind = store === 'frozen' ? 'freezer' : 'cooler';
  const names = places.all().filter((place) => place.kind === kind).map(({ name }) => name);
  return `In which ${kind} they lie is not on record${names.length === 0 ? '' : `: look in ${listText(names)}`}.`;
}

/**
 * Until when the store alone is shown to have kept its limit, where nothing else is broken: what left before that was
 * not there when it broke. −Infinity where anything else is, so that everybody is called.
 */
function storeKeptUntilMs(room: BookRoom, batch: StoredBatch, { store }: Pick<Decision, 'store'>, { checks }: SetResultWire): number {
  const broken = checks.filter(({ verdict }) => verdict === 'misses' || verdict === 'not-proven' || verdict === 'no-figure');
  const beganMs = (store === 'frozen' ? keptColdOf(room, batch, loadOfBatch(room, batch), store).chilledMs : undefined) ?? batch.sealedAtMs;
  if (broken.length === 0 || beganMs === null || broken.some(({ question }) => question !== 'store')) return -Infinity;
  const spans = broken.flatMap((check) => check.spans);
  const keptUntil = [...new Set(spans.map(({ pointId }) => pointId))].flatMap((pointId) => {
    const own = spans.filter((span) => span.pointId === pointId && span.fromMs >= beganMs);
    const bad = own.filter(({ counts }) => !counts);
    if (bad.length === 0) return [];
    const firstBadMs = Math.min(...bad.map(({ fromMs }) => fromMs));
    return [Math.max(-Infinity, ...own.filter(({ counts, toMs }) => counts && toMs <= firstBadMs).map(({ toMs }) => toMs))];
  });
  return keptUntil.length === 0 ? -Infinity : Math.min(...keptUntil);
}

/** Whoever has packs is told, by name and how to reach them; of what was served it is said when. */
function callsOf(room: BookRoom, packs: readonly Moved[]): Work[] {
  const given = new Map<string, Moved[]>();
  for (const one of packs.filter(({ move }) => move?.what === 'handed-over')) given.set(one.move?.handOverId ?? '', [...(given.get(one.move?.handOverId ?? '') ?? []), one]);
  const calls = [...given].map(([handOverId, moved]): Work => {
    const handOver = room.book.shelf('handOvers').get(handOverId);
    const guest = handOver === undefined ? undefined : room.book.shelf('guests').get(handOver.guestId);
    const reach = guest === undefined || guest.contact === '' ? 'no telephone number or address is on file' : guest.contact;
    const atMs = moved[0]?.move?.atMs ?? 0;
    return { what: 'call', text: `Call ${guest?.name ?? 'whoever has them'} (${reach}): ${listText(moved.map(({ pack }) => pack.code))}, handed over at ${sayInstant(room, atMs)}, are not to be eaten until you say so.` };
  });
  const served = packs.filter(({ move }) => move?.what === 'served');
  if (served.length === 0) return calls;
  return [...calls, { what: 'call', text: `Served here: ${listText(served.map(({ pack, move }) => `${pack.code} at ${sayInstant(room, move?.atMs ?? 0)}`))}. Find out who ate of it, and ask the process authority or the inspector whom to tell.` }];
}
