/** Lot codes of a load: one letter of the day for one load of one smoker, and one code for one batch. */
import { makeLotCode, readLotCode } from '../../../app/packs/lot-code.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { StoredLoad } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { speciesOf } from './species.ts';
import { sayDay, zoneOf } from './when.ts';

/** A to Z without I and O, which read as 1 and 0. */
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/**
 * Gives the batches of a load their lot codes: of the local day it went in, and once more when it comes out
 * on another day, because a lot carries the day on which smoking ended. Nothing is packed before that.
 * Two batches of one species in one load would share a code, so the second takes the next free letter.
 * @returns the load with its letter; the batches are put back with their codes
 * @throws Refusal RULE_BLOCKS when all 24 letters of the day are used
 */
export function giveLotCodes(room: BookRoom, load: StoredLoad): StoredLoad {
  const day = lotDayOf(load, zoneOf(room));
  if (day === undefined) throw new Error('a lot code needs the time the load went in');
  const used = lettersUsed(room, load, day);
  const letter = nextFree(used, day);
  const codes = new Set<string>();
  for (const batchId of load.batchIds) {
    const batch = room.book.shelf('batches').need(batchId);
    const speciesCode = speciesOf(room, batch.speciesId).letters;
    let lotCode = unwrap(makeLotCode({ speciesCode, smokedOn: day, loadLetter: letter }));
    if (codes.has(lotCode)) lotCode = unwrap(makeLotCode({ speciesCode, smokedOn: day, loadLetter: nextFree(used, day) }));
    codes.add(lotCode);
    room.book.shelf('batches').put({ ...batch, lotCode });
    room.book.record({
      kind: 'batch.lotCode', subjectId: batch.id, happenedAtMs: load.outAtMs ?? load.inAtMs,
      summary: batch.lotCode === null ? `${batch.shortName} is lot ${lotCode}.` : `${batch.shortName} is lot ${lotCode} now, of the day smoking ended; it was ${batch.lotCode}.`,
      before: { lotCode: batch.lotCode }, after: { lotCode },
    });
  }
  return { ...load, letter };
}

/** The local day a load's lots carry: the day it came out, before that the day it went in. */
export function lotDayOf(load: StoredLoad, zone: string): string | undefined {
  const atMs = load.outAtMs ?? load.inAtMs;
  return atMs === null ? undefined : localDay(atMs, zone);
}

function lettersUsed(room: BookRoom, load: StoredLoad, day: string): Set<string> {
  const used = new Set<string>();
  for (const other of room.book.shelf('loads').all()) {
    if (other.id === load.id || other.letter === null || lotDayOf(other, zoneOf(room)) !== day) continue;
    used.add(other.letter);
    for (const batchId of other.batchIds) {
      const lotCode = room.book.shelf('batches').need(batchId).lotCode;
      const read = lotCode === null ? undefined : readLotCode(lotCode);
      if (read?.ok === true) used.add(read.value.loadLetter);
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
