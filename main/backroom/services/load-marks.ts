/** The marks of a load: in the chamber, end of smoking, out of the chamber, cooled. Each is set once. */
import type { StoredLoad } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { renewLotCodes } from './lot-letters.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { rejudge, releasedOf } from './rejudging.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

export type LoadMark = 'in' | 'end-of-smoking' | 'out' | 'cooled';

const KEYS = { in: 'inAtMs', 'end-of-smoking': 'endOfSmokingAtMs', out: 'outAtMs', cooled: 'cooledAtMs' } as const satisfies Record<LoadMark, keyof StoredLoad>;
const ORDER: readonly LoadMark[] = ['in', 'end-of-smoking', 'out', 'cooled'];
const WORDS: Record<LoadMark, string> = { in: 'going in', 'end-of-smoking': 'the end of smoking', out: 'coming out', cooled: 'the end of cooling' };
const DONE: Record<LoadMark, string> = { in: 'went in', 'end-of-smoking': 'stopped smoking', out: 'came out', cooled: 'was cooled' };

interface MarkToSet {
  readonly what: LoadMark;
  readonly atMs: number;
  readonly why?: string | undefined;
  /** The path of the input that gave the time, for the refusal. */
  readonly path: readonly (string | number)[];
}

/**
 * Sets one mark; going in gives each batch its lot code, coming out on another day renews it.
 * @throws Refusal when the mark is set already, its time is still to come or lies on the wrong side of another step
 */
export function setLoadMark(room: BookRoom, loadId: string, mark: MarkToSet): StoredLoad {
  const loads = room.book.shelf('loads');
  const load = loads.need(loadId);
  refuseSecond(room, load, mark.what);
  refuseFuture(room, mark.atMs, mark.path);
  refuseWrongOrder(room, load, mark);
  if (mark.what === 'in') refuseMissedBefore(room, load);
  const marked: StoredLoad = { ...load, [KEYS[mark.what]]: mark.atMs };
  const kept = renewLotCodes(room, load, marked);
  loads.put(kept);
  room.book.record({
    kind: 'load.mark', subjectId: loadId, happenedAtMs: mark.atMs,
    summary: `Load ${load.number} ${DONE[mark.what]} at ${sayInstant(room, mark.atMs)}.`,
    ...(mark.why === undefined || mark.why === '' ? {} : { why: mark.why }),
    before: load, after: kept,
  });
  room.changed('load', [loadId]);
  room.changed('batch', load.batchIds);
  room.changed('verdict', load.batchIds);
  rejudge(room, releasedOf(room, load.batchIds), `${WORDS[mark.what]} was marked`);
  return kept;
}

function refuseSecond(room: BookRoom, load: StoredLoad, what: LoadMark): void {
  const setAtMs = load[KEYS[what]];
  if (setAtMs === null) return;
  throw new Refusal('CONFLICT', `Load ${load.number} ${DONE[what]} at ${sayInstant(room, setAtMs)}; that is marked already.`, {
    remedy: 'A mark is set once. If its time is wrong, write so in the reason when you hold or release the batch.',
  });
}

/**
 * Fish that broke a limit due before the smoker doesn't go in, unless a corrective action for it is on file. What
 * is only not proven yet doesn't keep it out: the record may still be filled in, and the pack gate asks for it again.
 */
function refuseMissedBefore(room: BookRoom, load: StoredLoad): void {
  for (const batchId of load.batchIds) {
    const batch = room.book.shelf('batches').need(batchId);
    const acted = new Set(room.book.shelf('correctives').where('batchId', batchId).map(({ checkId }) => checkId));
    const { deciding, gates } = judgeBatch(room, batch);
    const missed = gates.smoke.blocking.filter(({ checkId }) => !acted.has(checkId) && deciding.checks.some((check) => check.checkId === checkId && check.verdict === 'misses'));
    if (missed.length === 0) continue;
    throw new Refusal('RULE_BLOCKS', `${batch.shortName} may not go in: ${missed.map(({ checkId, reason }) => `${checkId}: ${reason}`).join(' ')}`, {
      remedy: 'Hold it at 38 °F or below, and write down at the packing table what is done about it; then it may go in.',
    });
  }
}

function refuseWrongOrder(room: BookRoom, load: StoredLoad, mark: MarkToSet): void {
  const place = ORDER.indexOf(mark.what);
  if (mark.what !== 'in' && load.inAtMs === null) refuseMissing(load, 'in', 'Mark when it went in first.', mark.path);
  if (mark.what === 'cooled' && load.outAtMs === null) refuseMissing(load, 'out', 'Mark when it came out first.', mark.path);
  if (mark.what === 'in') {
    for (const batchId of load.batchIds) {
      const batch = room.book.shelf('batches').need(batchId);
      const ended = batch.soak.find((event) => event.what === 'end');
      refuseBefore(room, mark.atMs, 'Going in', { what: `the end of the soak of ${batch.shortName}`, atMs: ended?.atMs ?? null }, mark.path);
    }
  }
  if (mark.what === 'out') {
    const last = load.takenOut?.toSorted((one, other) => other.atMs - one.atMs)[0];
    if (last !== undefined) refuseBefore(room, mark.atMs, 'Coming out', { what: 'taking out before the rest', atMs: last.atMs }, mark.path);
  }
  for (const [index, other] of ORDER.entries()) {
    const otherAtMs = load[KEYS[other]];
    if (index < place) refuseBefore(room, mark.atMs, sentenceStart(WORDS[mark.what]), { what: WORDS[other], atMs: otherAtMs }, mark.path);
    if (index > place && otherAtMs !== null && mark.atMs > otherAtMs) {
      refuseInput(`${sentenceStart(WORDS[mark.what])} can’t be at ${sayInstant(room, mark.atMs)}, after ${WORDS[other]} at ${sayInstant(room, otherAtMs)}.`, mark.path, 'Check both times.');
    }
  }
}

function refuseMissing(load: StoredLoad, what: LoadMark, remedy: string, path: readonly (string | number)[]): never {
  refuseInput(`Load ${load.number} has no mark for ${WORDS[what]}.`, path, remedy);
}

function sentenceStart(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
