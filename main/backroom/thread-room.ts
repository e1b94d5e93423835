/** The back room in its own thread, as the door reaches it; a thread that dies is started once more. */
import { randomUUID } from 'node:crypto';
import { Worker } from 'node:worker_threads';
import type { Reply } from '../../app/contract/envelope.ts';
import type { Announcements } from './announcements.ts';
import type { BackRoom } from './backroom.ts';
import { failure, internalFailure } from './failures.ts';
import type { Log } from './log.ts';
import type { Caller } from './room.ts';
import { textOfReply, type FromThread, type NumberedToThread, type ReplyText, type ThreadData, type ToThread } from './wire.ts';

/** A second death within this time is no accident. */
const MINUTE_MS = 60_000;
/** Longer than any checkpoint; then the thread is ended, and the book is whole all the same. */
const CLOSING_MS = 10_000;

export interface ThreadParts {
  readonly workerFile: string | URL;
  readonly data: ThreadData;
  readonly announcements: Announcements;
  readonly log: Log;
  /** Called when the thread died twice and is not started again. */
  onStopped(message: string): void;
}

type Answer = (reply: Reply<unknown> | ReplyText) => void;

export interface ThreadRoom extends BackRoom {
  /** As `ask`, the reply as text. */
  askText(name: unknown, input: unknown, caller: Caller): Promise<ReplyText>;
}

export function openThreadRoom({ workerFile, data, announcements, log, onStopped }: ThreadParts): ThreadRoom {
  const waiting = new Map<number, Answer>();
  let lastId = 0;
  let diedAtMs: number | null = null;
  let closing = false;
  let thread: Worker | null = start();

  function start(): Worker {
    const started = new Worker(workerFile, { workerData: data });
    started.on('message', hear);
    started.on('error', (problem) => log({ level: 'error', what: 'back room', outcome: 'threw', detail: problem instanceof Error ? (problem.stack ?? problem.message) : String(problem) }));
    started.on('exit', (code) => bury(started, code));
    return started;
  }
  function hear(message: FromThread): void {
    if (message.kind === 'changed') return announcements.announce(message.subject, message.ids);
    if (message.kind === 'log') return log(message.line);
    const resolve = waiting.get(message.id);
    waiting.delete(message.id);
    resolve?.(message.kind === 'text' ? message.text : message.reply);
  }
  function bury(dead: Worker, code: number): void {
    if (thread !== dead) return;
    thread = null;
    const reference = randomUUID();
    if (!closing) log({ level: 'error', what: 'back room', outcome: 'died', reference, detail: `exit code ${code}, ${waiting.size} open requests` });
    const open = [...waiting.values()];
    waiting.clear();
    if (!closing) startAgain();
    // A command may have been done before the thread died; sent again under its own id it gets the first answer.
    for (const resolve of open) resolve({ ok: false, error: { ...internalFailure(reference), retryable: true } });
  }
  function startAgain(): void {
    const nowMs = performance.now();
    const again = diedAtMs === null || nowMs - diedAtMs > MINUTE_MS;
    diedAtMs = nowMs;
    if (again) {
      thread = start();
      announcements.restart();
    } else {
      onStopped('Alderbook’s back room has stopped twice within a minute. Close Alderbook and start it again; everything that was answered is in the book.');
    }
  }
  function send(message: ToThread): Promise<Reply<unknown> | ReplyText> {
    const { promise, resolve } = Promise.withResolvers<Reply<unknown> | ReplyText>();
    if (thread === null) {
      resolve({ ok: false, error: internalFailure(randomUUID()) });
      return promise;
    }
    const id = (lastId += 1);
    waiting.set(id, resolve);
    try {
      thread.postMessage({ ...message, id } satisfies NumberedToThread, handedOver(message));
    } catch {
      waiting.delete(id);
      resolve({ ok: false, error: failure('INVALID_INPUT', 'The input holds something that can’t be sent.', 'Send plain data only.') });
    }
    return promise;
  }

  return {
    // Only `ask-text` is answered with a text.
    ask: (name, input, caller) => send({ kind: 'ask', name, input, caller }) as Promise<Reply<unknown>>,
    async askText(name, input, caller) {
      const answer = await send({ kind: 'ask-text', name, input, caller });
      return answer instanceof Uint8Array ? answer : textOfReply(answer);
    },
    // The thread answers `take` with a file id, or a failure.
    takeFile: (fileName, bytes) => send({ kind: 'take', fileName, bytes }) as Promise<Reply<{ fileId: string }>>,
    async close() {
      closing = true;
      const ending = thread;
      if (ending === null) return;
      const timer = Promise.withResolvers<void>();
      const timeout = setTimeout(timer.resolve, CLOSING_MS);
      await Promise.race([send({ kind: 'close' }), timer.promise]);
      clearTimeout(timeout);
      await ending.terminate();
    },
  };
}

/** A file's bytes pass to the thread instead of being copied, where they are all that lies in their memory. */
function handedOver(message: ToThread): ArrayBuffer[] {
  if (message.kind !== 'take') return [];
  const { buffer, byteLength } = message.bytes;
  return buffer instanceof ArrayBuffer && buffer.byteLength === byteLength ? [buffer] : [];
}
