/** An open book file: hands out the book as queries and as commands may use it. */
import { Refusal } from '../refusal.ts';
import type { OpenBook } from '../room.ts';
import { openChain } from './chain.ts';
import { type AskedCommand, openCommands } from './commands.ts';
import type { Connection } from './connection.ts';
import { type Author, openEntries } from './entries.ts';
import { openInbox } from './inbox.ts';
import { openReadings } from './readings.ts';
import { startReadingsDigest } from './readings-digest.ts';
import { openShelf } from './shelves.ts';

export interface BookHandle {
  readonly file: string;
  readonly fileName: string;
  readonly readOnly: boolean;
  /** The book for reading: what would write throws. */
  reader(): OpenBook;
  /**
   * Runs a command in one transaction: everything it wrote stands, or nothing. Refuses with BOOK_READ_ONLY.
   * `as` gives the book as one person writes it; a command has one author, the making of a book may have several.
   */
  command<T>(run: (as: (author: Author) => OpenBook) => T): T;
  /** The first answer to a repeated command. */
  answered(command: AskedCommand): { readonly reply: unknown } | undefined;
  /** Keeps a command's answer; only inside `command`. */
  keepAnswer(command: AskedCommand, reply: unknown, nowMs: number): void;
  takeFile(fileName: string, bytes: Uint8Array, stamp: { id: string; nowMs: number }): Promise<string>;
  /** Closes the file; a book that could be written is then one file again. */
  close(): void;
}

/** What only a command may do. */
type Writing = Pick<OpenBook, 'record' | 'keepReadings' | 'keepColumns' | 'closeLive'>;

/** What `open.ts` knows of the file and its lock. */
export interface OpenedFile {
  readonly database: Connection;
  readonly file: string;
  readonly fileName: string;
  readonly readOnly: boolean;
  readonly openedAtMs: number;
  backUp(day: string): Promise<{ fileName: string; bytes: number }>;
  /** The day it is now in the kitchen, for the name of a backup. */
  today(): string;
  close(): void;
}

export function makeHandle(opened: OpenedFile): BookHandle {
  const { database, file, fileName, readOnly } = opened;
  const entries = openEntries(database);
  const readings = openReadings(database);
  const inbox = openInbox(database);
  const commands = openCommands(database);
  const checkChain = openChain(database);

  function view(writing: Writing, mayWrite: () => void): OpenBook {
    return {
      fileName,
      readOnly,
      openedAtMs: opened.openedAtMs,
      shelf: (name) => openShelf(database, name, mayWrite),
      ...writing,
      entriesAbout: entries.about,
      checkChain,
      keepLive(about, rows) {
        refuseReadOnly();
        return readings.keepLive([{ about, rows }]);
      },
      keepLiveTogether(batches) {
        refuseReadOnly();
        return readings.keepLive(batches);
      },
      liveWaiting: readings.liveWaiting,
      readings: readings.of,
      seriesOf: readings.numbersOf,
      lastReading: readings.last,
      inboxFile: inbox.file,
      inboxFileName: inbox.fileName,
      backUp: () => opened.backUp(opened.today()),
    };
  }
  function refuseReadOnly(): void {
    if (readOnly) throw new Refusal('BOOK_READ_ONLY', `${fileName} can only be looked at: its file or folder is read-only.`, { remedy: 'Copy it to a folder you can write to, and open the copy.' });
  }

  return {
    file,
    fileName,
    readOnly,
    reader: () => view({ record: onlyInCommand, keepReadings: onlyInCommand, keepColumns: onlyInCommand, closeLive: onlyInCommand }, onlyInCommand),
    command(run) {
      refuseReadOnly();
      const writer = openWriter();
      const transaction = database.transaction(() => {
        const result = run((author) => view(writer.writing(author), writer.mayWrite));
        writer.finish();
        return result;
      });
      return transaction.immediate();
    },
    answered: commands.answered,
    keepAnswer: commands.keep,
    async takeFile(name, bytes, stamp) {
      refuseReadOnly();
      return inbox.take(name, bytes, stamp);
    },
    close: opened.close,
  };

  /** One command's writing: the readings it kept are covered by the entry that follows them. */
  function openWriter(): { writing(author: Author): Writing; mayWrite(): void; finish(): void } {
    let open = true;
    let digest = startReadingsDigest();
    function mayWrite(): void {
      if (!open) throw new Error('The command is over: nothing more can be written.');
    }
    return {
      mayWrite,
      writing: (author) => ({
        record(draft) {
          mayWrite();
          const sequence = entries.append(draft, author, { count: digest.count, digest: digest.hex() });
          digest = startReadingsDigest();
          return sequence;
        },
        keepReadings(kept) {
          mayWrite();
          return readings.keep(kept, entries.nextSequence(), digest);
        },
        keepColumns(about, columns) {
          mayWrite();
          return readings.keepColumns(about, columns, entries.nextSequence(), digest);
        },
        closeLive(pointId) {
          mayWrite();
          return readings.closeLive(pointId, entries.nextSequence(), digest);
        },
      }),
      finish() {
        open = false;
        if (digest.count > 0) throw new Error('Readings were kept without an entry after them.');
      },
    };
  }
}

function onlyInCommand(): never {
  throw new Error('A query tried to write into the book.');
}
