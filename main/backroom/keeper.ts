/** Holds the one book of this run: which file it is, how it stands, opening it and making it. */
import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Failure } from '../../app/contract/envelope.ts';
import type { Person } from '../../app/contract/requests/office.ts';
import type { Author } from './book/entries.ts';
import type { BookHandle } from './book/handle.ts';
import type { Announce } from './changes.ts';
import { expectedFailure } from './failures.ts';
import { Refusal } from './refusal.ts';
import type { BookKeeper, BookKind, BookRoom, Clock, OpenBook, Room } from './room.ts';

export interface KeeperOptions {
  /** A file named by the person; null for the ones in the data folder. */
  readonly bookFile: string | null;
  /** Where the books lie when none is named; null when nothing but a named file may be used. */
  readonly dataFolder: string | null;
  readonly clock: Clock;
  readonly announce: Announce;
}

type RoomWithoutKeeper = Omit<Room, 'keeper'>;

export interface Keeping {
  /** The open book; null when there is none. */
  handle(): BookHandle | null;
  /** Why the file that lies there could not be opened. */
  fault(): Failure | null;
  /** The name of the file the person named; null when none was. */
  readonly named: string | null;
  /** Loads the database engine; before anything that opens or makes a book. */
  ready(): Promise<void>;
  /** Opens that book at start-up if its file is there; a refused one stays refused with its reason. */
  openAtStart(kind: BookKind): Promise<void>;
  keeperFor(room: RoomWithoutKeeper): BookKeeper;
  close(): void;
}

/** Loaded only when a book is wanted: a question that needs none must not load the database's native part. */
async function loadEngine() {
  const [{ openBookFile }, { createBookFile }] = await Promise.all([import('./book/open.ts'), import('./book/create.ts')]);
  return { openBookFile, createBookFile };
}

export function openKeeping({ bookFile, dataFolder, clock, announce }: KeeperOptions): Keeping {
  let engine: Awaited<ReturnType<typeof loadEngine>> | null = null;
  let held: BookHandle | null = null;
  let heldFile: string | null = null;
  let fault: Failure | null = null;
  let faultFile: string | null = null;

  function fileOf(kind: BookKind): string | null {
    if (bookFile !== null) return bookFile;
    return dataFolder === null ? null : join(dataFolder, kind === 'own' ? 'kitchen.alderbook' : 'demonstration.alderbook');
  }
  function needFile(kind: BookKind): string {
    const file = fileOf(kind);
    if (file === null) throw new Refusal('NO_BOOK', 'No file is named for the book.', { remedy: 'Name one with --book FILE.' });
    return file;
  }
  function needEngine(): NonNullable<typeof engine> {
    if (engine === null) throw new Error('The database engine was not loaded before a book was wanted.');
    return engine;
  }
  function hold(file: string): BookHandle {
    const handle = needEngine().openBookFile(file, { clock });
    held = handle;
    heldFile = file;
    fault = null;
    faultFile = null;
    announce('book', []);
    return handle;
  }
  /** Refuses when another book is open, or the file was refused when the program started. */
  function needFree(file: string): void {
    if (held !== null) throw new Refusal('CONFLICT', `${held.fileName} is open already.`, { remedy: 'Close Alderbook and start it again to open another book.' });
    if (fault !== null && faultFile === file) throw new Refusal(fault.code, fault.message, { remedy: fault.remedy });
  }
  async function ready(): Promise<void> {
    engine ??= await loadEngine();
  }

  return {
    handle: () => held,
    fault: () => fault,
    named: bookFile === null ? null : basename(bookFile),
    ready,
    async openAtStart(kind) {
      const file = fileOf(kind);
      if (file === null || !existsSync(file)) return;
      await ready();
      try {
        hold(file);
      } catch (problem) {
        const refused = expectedFailure(problem);
        if (refused === undefined) throw problem;
        fault = refused;
        faultFile = file;
      }
    },
    keeperFor(room) {
      const keeper: BookKeeper = {
        state: () => (held !== null ? { state: 'open', fault: null } : fault !== null ? { state: 'refused', fault } : { state: 'none', fault: null }),
        current: () => held?.reader() ?? null,
        exists(kind) {
          const file = fileOf(kind);
          return file !== null && existsSync(file);
        },
        open(kind): OpenBook {
          const file = needFile(kind);
          if (held !== null && heldFile === file) return held.reader();
          needFree(file);
          if (!existsSync(file)) throw new Refusal('NOT_FOUND', `${basename(file)} is not there.`, { remedy: 'Start a book first.' });
          return hold(file).reader();
        },
        start(fill, kind = 'own') {
          const file = needFile(kind);
          needFree(file);
          needEngine().createBookFile(file, (as) => fill(roomsAt(room, as, keeper)));
          hold(file);
        },
      };
      return keeper;
    },
    close() {
      held?.close();
      held = null;
      heldFile = null;
    },
  };
}

/** Rooms for filling a new book: each with its own time and person. */
function roomsAt(room: RoomWithoutKeeper, as: (author: Author) => OpenBook, keeper: BookKeeper): (nowMs: number, person: Person | null) => BookRoom {
  return (nowMs, person) => {
    const caller = { ...room.caller, personId: person?.id ?? null, commandId: null };
    const author: Author = {
      personId: person?.id ?? null,
      initials: person?.initials ?? '',
      device: room.caller.device,
      commandId: null,
      nowMs: () => nowMs,
      newId: room.newId,
    };
    return { ...room, caller, keeper, clock: { nowMs: () => nowMs }, book: as(author), person, changed: () => undefined };
  };
}
