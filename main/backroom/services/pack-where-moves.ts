/** Packs into a place, out of it, brought back, served, destroyed: one line each, and nothing twice. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { PackMove } from '../../../app/contract/requests/packs-where.ts';
import { listText } from '../../../app/limits/words.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { needLeave } from './leave-gate.ts';
import { placeWords, whereWords } from './pack-where.ts';
import { isGone, lastMoveOf } from './pack-where-last.ts';
import { forgetEmptied } from './pack-where-stock.ts';
import { nameOf } from './release.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

type Moving = Parsed<'pack.move'>;

/** People type whole minutes. */
const MINUTE_MS = 60_000;
const DONE: Record<Moving['what'], (place: string) => string> = {
  'into-store': (place) => `into ${place}`, 'out-of-store': (place) => `out of ${place}`, returned: () => 'brought back', served: () => 'served', destroyed: () => 'destroyed',
};
/** Written to the record where initials let packs go. */
export const INITIALLED = 'initialled what meets within the thermometer’s error';

/**
 * Moves packs that are here. Any pack may be put into the cold, one on HOLD too; only what may leave is served.
 * @throws Refusal: a pack named twice, gone already, in that very place already, before its last move; nothing said of why it was destroyed
 */
export function movePacks(room: BookRoom, input: Moving): Output<'pack.move'> {
  const packs = needPacks(room, input.packIds);
  refuseFuture(room, input.atMs, ['atMs']);
  if (input.what === 'destroyed' && input.why === '') refuseInput('Nothing says why it is destroyed.', ['why'], 'Say in a few words why, and how.');
  if (input.what === 'returned' && input.why === '') refuseInput('Nothing says why it came back.', ['why'], 'Say who brought it, and how it was kept.');
  const place = input.what === 'into-store' ? placeOf(room, input) : null;
  const moves = packs.map((pack): PackMove => {
    const last = lastMoveOf(room, pack.id);
    refuseMove(room, pack, last, input);
    refuseEarlier(room, pack, last, input.atMs);
    return moveOf(room, pack, { what: input.what, atMs: input.atMs, placeId: place ?? (input.what === 'out-of-store' ? (last?.placeId ?? null) : null), spot: input.what === 'into-store' ? input.spot : input.what === 'out-of-store' ? (last?.spot ?? '') : '', why: input.why, handOverId: null });
  });
  if (input.what === 'served') needLeave(room, packs, { purpose: 'served', atMs: input.atMs, initialsForError: input.initialsForError });
  const initialled = input.what === 'served' && input.initialsForError === true ? `; ${actingPerson(room).initials} ${INITIALLED}` : '';
  keepMoves(room, packs, moves, `${DONE[input.what](placesWords(room, moves))}${initialled}`, input.why);
  return { moved: moves.length };
}

/** The places of moves, each once. */
function placesWords(room: BookRoom, moves: readonly PackMove[]): string {
  return listText([...new Set(moves.map((move) => placeWords(room, move)))]);
}

/** A move by the person who acts. */
export function moveOf(room: BookRoom, pack: Pick<Pack, 'id'>, move: Omit<PackMove, 'id' | 'packId' | 'initials'>): PackMove {
  return { id: room.newId(), packId: pack.id, ...move, initials: actingPerson(room).initials };
}

/** Keeps moves with one entry a batch. @param done “into Chest freezer, shelf 2” */
export function keepMoves(room: BookRoom, packs: readonly Pack[], moves: readonly PackMove[], done: string, why = ''): void {
  for (const move of moves) room.book.shelf('packMoves').put(move);
  for (const batchId of new Set(packs.map((pack) => pack.batchId))) {
    const batch = room.book.shelf('batches').need(batchId);
    const own = packs.filter((pack) => pack.batchId === batchId);
    const ownMoves = moves.filter((move) => own.some(({ id }) => id === move.packId));
    const atMs = ownMoves[0]?.atMs ?? null;
    room.book.record({
      kind: 'pack.move', subjectId: batchId, happenedAtMs: atMs, ...(why === '' ? {} : { why }),
      summary: `${own.length} ${own.length === 1 ? 'pack' : 'packs'} of ${nameOf(batch)} ${done}${atMs === null ? '' : ` at ${sayInstant(room, atMs)}`}: ${listText(own.map(({ code }) => code))}.`,
      after: { moves: ownMoves },
    });
    forgetEmptied(batchId);
    room.changed('batch', [batchId]);
    room.changed('verdict', [batchId]);
  }
  room.changed('packs', packs.map(({ id }) => id));
}

/** The packs by their ids. @throws Refusal INVALID_INPUT: one is named twice; NOT_FOUND */
export function needPacks(room: BookRoom, packIds: readonly string[]): Pack[] {
  const packs = packIds.map((id) => room.book.shelf('packs').need(id));
  const twice = packs.find((pack, index) => packIds.indexOf(pack.id) !== index);
  if (twice !== undefined) refuseInput(`Pack ${twice.code} was scanned twice.`, ['packIds', packIds.lastIndexOf(twice.id)], 'It counts once: take it off the list.');
  return packs;
}

/** Refuses what can't happen to a pack that is where it is. */
function refuseMove(room: BookRoom, pack: Pack, last: PackMove | undefined, { what, placeId, spot }: Moving): void {
  if (what === 'returned') {
    if (last?.what === 'handed-over') return;
    throw new Refusal('CONFLICT', `Pack ${pack.code} was not given away: it is ${whereWords(room, pack, last)}.`, { remedy: 'Only what was handed over comes back.' });
  }
  if (isGone(last)) throw new Refusal('CONFLICT', `Pack ${pack.code} is not here: ${whereWords(room, pack, last)}.`, { remedy: last?.what === 'handed-over' ? 'If it was brought back, say so first.' : 'Look at its number again.' });
  if (what === 'into-store' && last?.what === 'into-store' && last.placeId === placeId && last.spot === spot) {
    throw new Refusal('CONFLICT', `Pack ${pack.code} is ${whereWords(room, pack, last)} already.`, { remedy: 'It was scanned before; nothing was changed.' });
  }
  if (what === 'out-of-store' && last?.what !== 'into-store') throw new Refusal('CONFLICT', `Pack ${pack.code} lies in no cold place by the record: it is ${whereWords(room, pack, last)}.`, { remedy: 'Look at its number again.' });
}

/** Nothing happens to a pack before what happened to it last. */
export function refuseEarlier(room: BookRoom, pack: Pack, last: PackMove | undefined, atMs: number): void {
  const before = last === undefined ? { what: `sealing pack ${pack.code}`, atMs: pack.sealedAtMs } : { what: `the last move of pack ${pack.code}`, atMs: last.atMs };
  refuseBefore(room, atMs, 'This', { what: before.what, atMs: Math.floor(before.atMs / MINUTE_MS) * MINUTE_MS }, ['atMs']);
}

function placeOf(room: BookRoom, { placeId }: Moving): string {
  if (placeId === null) refuseInput('No place is named.', ['placeId'], 'Choose the cooler or freezer it goes into.');
  const place = room.book.shelf('places').need(placeId);
  if (place.kind === 'brining-room') refuseInput(`${place.name} is a brining room.`, ['placeId'], 'Choose a cooler or a freezer.');
  return place.id;
}
