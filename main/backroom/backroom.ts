/** The back room put together: the book, the catalogue, the clock, the helper threads, and the one way in. */
import type { Reply } from '../../app/contract/envelope.ts';
import { answer } from './answering.ts';
import type { Catalogue } from './catalogue.ts';
import type { Announce } from './changes.ts';
import { dispatch } from './dispatch.ts';
import { openFeeds } from './feeds/feed-keeper.ts';
import type { Hands } from './hands/hands.ts';
import { newUuidV7 } from './identifiers.ts';
import { openKeeping } from './keeper.ts';
import type { Log } from './log.ts';
import { Refusal } from './refusal.ts';
import type { Caller, Clock, Room } from './room.ts';
import type { Services } from './service.ts';
import { readAhead } from './services/read-ahead.ts';

/** What the program says about its book at start, front-free and plain enough to be sent to a thread. */
export interface BookChoice {
  /** A file named by the person; null for the ones in the data folder. */
  readonly bookFile: string | null;
  /** Our folder among the user's data; null when nothing but a named file may be used. */
  readonly dataFolder: string | null;
  /** Open the demonstration kitchen, making its book if it is not there. */
  readonly demo: boolean;
  readonly version: string;
  /** Opens the live feeds that are on; only a front does, never a single question. */
  readonly runsFeeds?: boolean;
}

export interface BackRoomParts {
  readonly services: Services;
  readonly catalogue: Catalogue;
  readonly clock: Clock;
  readonly hands: Hands;
  readonly log: Log;
  readonly announce: Announce;
}

export interface BackRoom {
  ask(name: unknown, input: unknown, caller: Caller): Promise<Reply<unknown>>;
  /** Takes a file into the book's inbox. */
  takeFile(fileName: string, bytes: Uint8Array): Promise<Reply<{ fileId: string }>>;
  close(): Promise<void>;
}

const PROGRAM_ITSELF: Caller = { front: 'window', device: 'this computer', personId: null, commandId: null };

/** Opens the back room with the book that is there; with none, or one that is refused, `book.status` says so. */
export async function openBackRoom(choice: BookChoice, parts: BackRoomParts): Promise<BackRoom> {
  const { services, catalogue, clock, hands, log } = parts;
  const { bookFile, dataFolder, demo, version, runsFeeds = false } = choice;
  const announce: Announce = (subject, ids) => {
    parts.announce(subject, ids);
    feeds.heard(subject);
  };
  const keeping = openKeeping({ bookFile, dataFolder, clock, announce });
  const newId = () => newUuidV7(clock.nowMs());
  const answerLog = { log, newId };
  const feeds = openFeeds({ runs: runsFeeds, clock, log, announce: parts.announce, handle: keeping.handle, programRoom: () => roomFor(PROGRAM_ITSELF) });

  function roomFor(caller: Caller): Room {
    const room = { catalogue, clock, hands, feeds, version, caller, newId };
    return { ...room, keeper: keeping.keeperFor(room) };
  }
  function ask(name: unknown, input: unknown, caller: Caller): Promise<Reply<unknown>> {
    const what = typeof name === 'string' ? name.slice(0, 60) : typeof name;
    return answer(answerLog, what, () => dispatch({ services, keeping, announce, roomFor }, name, input, caller));
  }

  await keeping.openAtStart(demo ? 'demo' : 'own');
  if (demo && keeping.handle() === null && keeping.fault() === null) await ask('book.openDemo', {}, PROGRAM_ITSELF);
  return {
    ask,
    takeFile: (fileName, bytes) => answer(answerLog, 'take file', async () => {
      const handle = keeping.handle();
      if (handle === null) throw new Refusal('NO_BOOK', 'No book is open, so a file can’t be kept.', { remedy: 'Open a book first.' });
      const shared = shareBytes(bytes);
      const timeZone = handle.reader().shelf('kitchen').get('kitchen')?.timeZone;
      const keepRead = timeZone === undefined ? undefined : readAhead(hands, shared, { fileName, timeZone, answers: {} });
      const fileId = await handle.takeFile(fileName, shared, { id: newId(), nowMs: clock.nowMs() });
      keepRead?.(fileId);
      return { fileId };
    }),
    async close() {
      feeds.close();
      keeping.close();
      await hands.close();
    },
  };
}

/** A file's bytes where a helper thread reads them too: of a long log a copy for each thread would take as long as reading it. */
function shareBytes(bytes: Uint8Array): Uint8Array {
  if (bytes.buffer instanceof SharedArrayBuffer) return bytes;
  const shared = new Uint8Array(new SharedArrayBuffer(bytes.byteLength));
  shared.set(bytes);
  return shared;
}
