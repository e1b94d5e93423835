/** The marks of a batch after the smoker: sealed, into the freezer, frozen solid, out of the freezer. Each is set once. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { nameOf } from './release.ts';
import { rejudge, releasedOf } from './rejudging.ts';
import { needStandingRelease } from './standing-release.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';
import { loadOfBatch } from './taken-out.ts';
import { areMarksOfFish } from './trays-marks.ts';
import { packTraysOf } from './trays-of-batch.ts';

type Marking = Parsed<'batch.mark'>;
type What = Marking['what'];

const MINUTE_MS = 60_000;
const KEYS = { sealed: 'sealedAtMs', 'into-freezer': 'intoFreezerAtMs', frozen: 'frozenAtMs', 'out-of-freezer': 'outOfFreezerAtMs' } as const satisfies Record<What, keyof StoredBatch>;
const WORDS: Record<What, string> = { sealed: 'Sealing', 'into-freezer': 'Going into the freezer', frozen: 'Being frozen solid', 'out-of-freezer': 'Coming out of the freezer' };
const DONE: Record<What, string> = { sealed: 'was sealed', 'into-freezer': 'went into the freezer', frozen: 'was frozen solid', 'out-of-freezer': 'came out of the freezer' };

/**
 * Sets a mark of the freezer or the sealing.
 * @throws Refusal: set already, to come, before the step it follows, no freezer named, sealing of a batch that isn't released
 */
export function markBatch(room: BookRoom, input: Marking): void {
  const batch = room.book.shelf('batches').need(input.batchId);
  const setAtMs = batch[KEYS[input.what]];
  if (setAtMs !== null) {
    throw new Refusal('CONFLICT', `${batch.shortName} ${DONE[input.what]} at ${sayInstant(room, setAtMs)}; that is marked already.`, {
      remedy: 'A mark is set once. If its time is wrong, write so in the reason when you hold or release the batch.',
    });
  }
  if (input.what !== 'sealed') refuseOnTrays(room, batch);
  refuseFuture(room, input.atMs, ['atMs']);
  if (input.what === 'sealed') refuseSealing(room, batch, input.atMs);
  refuseWrongOrder(room, batch, input);
  const marked: StoredBatch = { ...batch, [KEYS[input.what]]: input.atMs, ...(input.what === 'into-freezer' ? { freezerPlaceId: freezerOf(room, input) } : {}) };
  room.book.shelf('batches').put(marked);
  room.book.record({
    kind: 'batch.mark', subjectId: batch.id, happenedAtMs: input.atMs,
    summary: `${batch.shortName} ${DONE[input.what]} at ${sayInstant(room, input.atMs)}.`,
    before: { [KEYS[input.what]]: null }, after: { [KEYS[input.what]]: input.atMs, freezerPlaceId: marked.freezerPlaceId },
  });
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  rejudge(room, releasedOf(room, [batch.id]), 'a mark of the freezer or the sealing was set');
}

/** Packs on trays are marked by their trays: the batch’s marks are the worst of theirs. */
function refuseOnTrays(room: BookRoom, batch: StoredBatch): void {
  if (packTraysOf(room, batch.id).length === 0 || areMarksOfFish(room, batch)) return;
  throw new Refusal('CONFLICT', `The packs of ${nameOf(batch)} lie on trays, and its marks are those of its trays.`, { remedy: 'Mark the tray at the cold store.' });
}

/** Sealed is only what was released to be packed, and not before that. */
function refuseSealing(room: BookRoom, batch: StoredBatch, atMs: number): void {
  const release = needStandingRelease(room, batch);
  if (release.pack === 'unpacked') {
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was released to be served unpacked.`, { remedy: 'A manager releases it for packing first: that asks for other limits.' });
  }
  // People type whole minutes, so what was sealed in the minute of the release was sealed after it.
  refuseBefore(room, atMs, WORDS.sealed, { what: 'the release', atMs: Math.floor(release.atMs / MINUTE_MS) * MINUTE_MS }, ['atMs']);
}

function refuseWrongOrder(room: BookRoom, batch: StoredBatch, input: Marking): void {
  const load = loadOfBatch(room, batch);
  refuseBefore(room, input.atMs, WORDS[input.what], { what: 'making the batch', atMs: batch.madeAtMs }, ['atMs']);
  if (input.what === 'sealed' || input.what === 'into-freezer') refuseInSmoker(room, batch, load, input);
  if (input.what !== 'frozen' && input.what !== 'out-of-freezer') return;
  if (batch.intoFreezerAtMs === null) {
    refuseInput(`${batch.shortName} has no mark for going into a freezer.`, ['what'], 'Mark when it went in, and into which freezer, first.');
  }
  refuseBefore(room, input.atMs, WORDS[input.what], { what: 'going into the freezer', atMs: batch.intoFreezerAtMs }, ['atMs']);
  if (input.what === 'out-of-freezer') refuseBefore(room, input.atMs, WORDS[input.what], { what: 'being frozen solid', atMs: batch.frozenAtMs }, ['atMs']);
  if (input.what === 'frozen' && batch.outOfFreezerAtMs !== null && input.atMs > batch.outOfFreezerAtMs) {
    refuseInput(`${batch.shortName} came out of the freezer at ${sayInstant(room, batch.outOfFreezerAtMs)}, before that.`, ['atMs'], 'Check both times.');
  }
}

function refuseInSmoker(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined, input: Marking): void {
  if (load === undefined || load.inAtMs === null) return;
  if (load.outAtMs === null) {
    throw new Refusal('RULE_BLOCKS', `${batch.shortName} is still in the smoker.`, { remedy: `Mark load ${load.number} out first.` });
  }
  refuseBefore(room, input.atMs, WORDS[input.what], { what: 'coming out of the smoker', atMs: load.outAtMs }, ['atMs']);
}

function freezerOf(room: BookRoom, input: Marking): string {
  if (input.placeId === null) refuseInput('No freezer is named.', ['placeId'], 'Choose the freezer it went into: that freezer’s own record is its proof.');
  const place = room.book.shelf('places').need(input.placeId);
  if (place.kind !== 'freezer') refuseInput(`${place.name} is not a freezer.`, ['placeId'], 'Choose a freezer.');
  return place.id;
}
