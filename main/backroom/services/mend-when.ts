/** When a brine can be mended: after it was made, before the fish is out of it; fish can be freshened until it is smoked. */
import type { Mend } from '../../../app/contract/requests/brine-bench.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { stageOf } from './batch-view.ts';
import { soakMarkMs } from './soak-bath.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

/**
 * Refuses a mend at a moment at which it can't have been.
 * @param path the input's path of the moment
 */
export function refuseWrongMoment(room: BookRoom, batch: StoredBatch, kind: Mend['kind'], atMs: number, path: readonly string[] = ['batchId']): void {
  if (stageOf(room, batch) === 'rejected') block(`${batch.shortName} was rejected.`, 'A rejected batch goes no further.');
  if (batch.card.cure === 'dry' && kind !== 'too-salty') block(`${batch.shortName} is dry cured: there is no brine to mend.`, 'Weigh the cure again, or freshen fish that is too salty.');
  refuseFuture(room, atMs, path);
  refuseBefore(room, atMs, 'The mend', { what: `making ${batch.shortName}`, atMs: batch.madeAtMs }, path);
  refuseBefore(room, atMs, 'The mend', { what: 'the mend before it', atMs: batch.mends.at(-1)?.atMs ?? null }, path);
  const endMs = soakMarkMs(batch, 'end');
  if (kind !== 'too-salty') {
    if (endMs === undefined || atMs < endMs) return;
    block(`The soak of ${batch.shortName} ended at ${sayInstant(room, endMs)}: there is no fish in this brine to mend it for.`, 'Fish that came out too salty can be freshened.', path);
  }
  refuseFreshening(room, batch, atMs, path);
}

function refuseFreshening(room: BookRoom, batch: StoredBatch, atMs: number, path: readonly string[]): void {
  const startMs = soakMarkMs(batch, 'start');
  if (startMs === undefined) block(`The soak of ${batch.shortName} has not started, so its fish can’t be too salty yet.`, 'Log the start of the soak first.');
  refuseBefore(room, atMs, 'The freshening', { what: 'the start of the soak', atMs: startMs }, path);
  const inAtMs = batch.loadId === null ? null : room.book.shelf('loads').need(batch.loadId).inAtMs;
  if (inAtMs !== null && atMs >= inAtMs) block(`${batch.shortName} went into the smoker at ${sayInstant(room, inAtMs)}: smoked fish is not freshened.`, 'Have the finished fish analysed.', path);
}

function block(message: string, remedy: string, path: readonly string[] = ['batchId']): never {
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: [...path], message }] });
}
