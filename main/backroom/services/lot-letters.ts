/** Lot codes of a load: one letter of the day for one load of one smoker, and one code for one batch. */
import { dayText } from '../../../app/packs/dates.ts';
import { makeLotCode, readLotCode } from '../../../app/packs/lot-code.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { StoredLoad } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { speciesOf } from './species.ts';
import { loadAsOf } from './taken-out.ts';
import { sayDay, zoneOf } from './when.ts';

/** A to Z without I and O, which read as 1 and 0. */
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/**
 * Gives batches of a load their lot codes where a mark changed their day: the local day the load went in, and once more
 * when it, or a batch of it before the rest, comes out on another day, because a lot carries the day on which smoking
 * ended. Nothing is packed before that. Two batches of one species in one load would share a code, so the second takes
 * the next free letter.
 * @param before the load without the mark
 * @returns the load with its letter; the batches are put back with their codes
 * @throws Refusal RULE_BLOCKS when all 24 letters of the day are used
 */
export function renewLotCodes(room: BookRoom, before: StoredLoad, load: StoredLoad): StoredLoad {
  const zone = zoneOf(room);
  const batchIds = load.batchIds.filter((id) => lotDayOf(loadAsOf(before, id), zone) !== lotDayOf(loadAsOf(load, id), zone));
  const [first] = batchIds;
  if (first === undefined) return load;
  const letter = giveLotCodes(room, loadAsOf(load, first), batchIds, load);
  // A batch that came out before the rest on another day has its code alone; the load keeps its letter.
  return lotDayOf(before, zone) === lotDayOf(load, zone) ? load : { ...load, letter };
}

/** @param asOf the load as these batches saw it, which is the same for all of them: one mark is set at a time */
function giveLotCodes(room: BookRoom, asOf: StoredLoad, batchIds: readonly string[], load: StoredLoad): string {
  const day = lotDayOf(asOf, zoneOf(room));
  if (day === undefined) throw new Error('a lot code needs the time the load went in');
  const used = lettersUsed(room, load, batchIds, day);
  const letter = nextFree(used, day);
  const codes = new Set<string>();
  for (const batchId of batchIds) {
    const batch = room.book.shelf('batches').need(batchId);
    const speciesCode = speciesOf(room, batch.speciesId).letters;
    let lotCode = unwrap(makeLotCode({ speciesCode, smokedOn: day, loadLetter: letter }));
    if (codes.has(lotCode)) lotCode = unwrap(makeLotCode({ speciesCode, smokedOn: day, loadLetter: nextFree(used, day) }));
    codes.add(lotCode);
    room.book.shelf('batches').put({ ...batch, lotCode });
    room.book.record({
      kind: 'batch.lotCode', subjectId: batch.id, happenedAtMs: asOf.outAtMs ?? asOf.inAtMs,
      summary: batch.lotCode === null ? `${batch.shortName} is lot ${lotCode}.` : `${batch.shortName} is lot ${lotCode} now, of the day smoking ended; it was ${batch.lotCode}.`,
      before: { lotCode: batch.lotCode }, after: { lotCode },
    });
  }
  return letter;
}

/** The local day a load's lots carry: the day it came out, before that the day it went in. */
function lotDayOf(load: StoredLoad, zone: string): string | undefined {
  const atMs = load.outAtMs ?? load.inAtMs;
  return atMs === null ? undefined : localDay(atMs, zone);
}

/** @param renewed the batches of the load that get new codes, so that those they have count no more */
function lettersUsed(room: BookRoom, load: StoredLoad, renewed: readonly string[], day: string): Set<string> {
  const used = new Set<string>();
  for (const other of room.book.shelf('loads').all()) {
    if (other.letter === null) continue;
    const isOfDay = lotDayOf(other, zoneOf(room)) === day;
    if (!isOfDay && other.takenOut === undefined) continue;
    if (isOfDay && other.id !== load.id) used.add(other.letter);
    for (const batchId of other.batchIds.filter((id) => !renewed.includes(id))) {
      const lotCode = room.book.shelf('batches').need(batchId).lotCode;
      const read = lotCode === null ? undefined : readLotCode(lotCode);
      if (read?.ok === true && dayText(read.value.smokedOn) === day) used.add(read.value.loadLetter);
    }
  }
  return used;
}

function nextFree(used: Set<string>, day: string): string {
  const letter = [...LETTERS].find((candidate) => !used.has(candidate));
  if (letter === undefined) {
    throw new Refusal('RULE_BLOCKS', `All ${LETTERS.length} lot letters of ${sayDay(day)} are used.`, { remedy: 'Start the next load tomorrow.' });
  }
  used.add(letter);
  return letter;
}
