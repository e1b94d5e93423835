/** Wraps every piece of work for a front: a value or a failure, never a throw, and one line in the log. */
import type { Failure, Reply } from '../../app/contract/envelope.ts';
import { expectedFailure, internalFailure } from './failures.ts';
import type { Log } from './log.ts';

/** A turn of the back room over this is worth a warning: a page waits for it. */
const SLOW_MS = 50;

export interface AnswerLog {
  readonly log: Log;
  newId(): string;
}

/** Does the work and answers its value, or the failure for whatever it threw. */
export async function answer<T>({ log, newId }: AnswerLog, what: string, work: () => Promise<T>): Promise<Reply<T>> {
  const beganMs = performance.now();
  try {
    const value = await work();
    const ms = elapsed(beganMs);
    log({ level: ms > SLOW_MS ? 'warn' : 'info', what, ms, outcome: 'ok' });
    return { ok: true, value };
  } catch (thrown) {
    const error = expectedFailure(thrown) ?? internalFailure(newId());
    logFailure(log, what, elapsed(beganMs), error, thrown);
    return { ok: false, error };
  }
}

function logFailure(log: Log, what: string, ms: number, error: Failure, thrown: unknown): void {
  if (error.code !== 'INTERNAL') {
    log({ level: 'info', what, ms, outcome: error.code });
    return;
  }
  const detail = thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
  log({ level: 'error', what, ms, outcome: error.code, detail, ...(error.reference === undefined ? {} : { reference: error.reference }) });
}

function elapsed(beganMs: number): number {
  return Math.round((performance.now() - beganMs) * 10) / 10;
}
