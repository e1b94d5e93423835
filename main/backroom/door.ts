/** The only file of the back room that the fronts import: ask, take a file, listen, close. */
import { fileURLToPath } from 'node:url';
import type { Reply } from '../../app/contract/envelope.ts';
import type { BookEvent, Resync } from '../../app/contract/events.ts';
import { type Listener, openAnnouncements } from './announcements.ts';
import type { BookChoice } from './backroom.ts';
import { type Log, logToStandardError } from './log.ts';
import type { Caller } from './room.ts';
import { openThreadRoom, type ThreadRoom } from './thread-room.ts';
import { textOfReply, type ReplyText } from './wire.ts';

export type { BookChoice } from './backroom.ts';
export type { Heard, Listener } from './announcements.ts';
export { type Log, type LogLine, logToStandardError } from './log.ts';
export type { Caller } from './room.ts';

export interface DoorOptions extends BookChoice {
  /** The file of the back room's thread (`worker.ts`, built or as source); null keeps it in this thread. */
  readonly workerFile: string | URL | null;
  /** The file of the helper threads (`hands/hand.ts`, built or as source); null does their work in the back room. */
  readonly handFile: string | URL | null;
  /** One line of JSON on standard error when left out. */
  readonly log?: Log;
  /** Called once when the back room's thread died twice within a minute and stays down. */
  onStopped?(message: string): void;
}

export interface Door {
  /** Answers every request, in whatever shape it comes; never rejects. */
  ask(name: unknown, input: unknown, caller: Caller): Promise<Reply<unknown>>;
  /** As `ask`, the reply as JSON in UTF-8: written where it was made, since a long one would keep this thread from its window. */
  askText(name: unknown, input: unknown, caller: Caller): Promise<ReplyText>;
  /** Takes one file's bytes into the book's inbox; the same bytes again get the same id. They are given away: nobody else may use them any more. */
  takeFile(fileName: string, bytes: Uint8Array): Promise<Reply<{ fileId: string }>>;
  /** Calls the listener for every event from now on; the answer ends that. */
  subscribe(listener: Listener): () => void;
  /** The events after `seq`, or that they are too old to be caught up. */
  eventsSince(seq: number): readonly BookEvent[] | Resync;
  /** Closes the book, so that it is one file again, and ends the threads. */
  close(): Promise<void>;
}

/** Opens the back room. Requests made while the book is still opening wait for it. */
export function openDoor(options: DoorOptions): Door {
  const { workerFile, handFile, log = logToStandardError, onStopped = () => undefined } = options;
  const { bookFile, dataFolder, demo, version, runsFeeds = false } = options;
  const choice = { bookFile, dataFolder, demo, version, runsFeeds };
  const hand = handFile === null ? null : handFile instanceof URL ? fileURLToPath(handFile) : handFile;
  const announcements = openAnnouncements();
  const room: Promise<ThreadRoom> = workerFile === null
    ? openHere(choice, hand, log, announcements.announce)
    : Promise.resolve(openThreadRoom({ workerFile, data: { choice, handFile: hand }, announcements, log, onStopped }));
  return {
    ask: async (name, input, caller) => (await room).ask(name, input, caller),
    askText: async (name, input, caller) => (await room).askText(name, input, caller),
    takeFile: async (fileName, bytes) => (await room).takeFile(fileName, bytes),
    subscribe: announcements.subscribe,
    eventsSince: announcements.since,
    close: async () => (await room).close(),
  };
}

/** Loaded only now, so that a program with a thread does not load the services twice. */
async function openHere(choice: BookChoice, handFile: string | null, log: Log, announce: ReturnType<typeof openAnnouncements>['announce']): Promise<ThreadRoom> {
  const { furnishBackRoom } = await import('./furnish.ts');
  const room = await furnishBackRoom(choice, { handFile, log, announce });
  return { ...room, askText: async (name, input, caller) => textOfReply(await room.ask(name, input, caller)) };
}
