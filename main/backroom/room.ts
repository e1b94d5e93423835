/** What a use case may reach: the catalogues, the clock, the helper threads and, where it needs one, the open book. */
import type { Failure } from '../../app/contract/envelope.ts';
import type { Subject } from '../../app/contract/events.ts';
import type { Person } from '../../app/contract/requests/office.ts';
import type { ReadingColumns } from '../../app/probes/reading-columns.ts';
import type { Entry } from '../../app/contract/requests/record.ts';
import type { ShelfName, Stored } from './book/stored.ts';
import type { Catalogue } from './catalogue.ts';
import type { FeedDesk } from './feeds/feed-desk.ts';
import type { Hands } from './hands/hands.ts';

/** Who asks. Fronts add it; it is never part of the input. */
export interface Caller {
  readonly front: 'window' | 'browser' | 'ask';
  /** A name for the device, such as “this computer”. */
  readonly device: string;
  /** The person on duty who was tapped; null before anyone is. */
  readonly personId: string | null;
  /** Given once per command by the page; a repeated one gets the first answer. */
  readonly commandId: string | null;
}

export interface Clock {
  nowMs(): number;
}

/** One subject's documents, in the order they were first put. */
export interface Shelf<T> {
  get(id: string): T | undefined;
  /** As `get`, but refuses with NOT_FOUND and a sentence naming what is missing. */
  need(id: string): T;
  all(): T[];
  /** By an indexed key of the shelf (see SHELVES in book/stored.ts). */
  where(key: string, value: string): T[];
  put(document: T): void;
}

/** One reading as kept: exact ticks, with the text it was read from. */
export interface KeptReading {
  readonly atMs: number;
  readonly lowTicks: number;
  readonly highTicks: number;
  readonly text: string;
}
/** What readings that are kept together have in common. */
export interface ReadingsAbout {
  readonly pointId: string;
  readonly instrumentId: string | null;
  readonly how: 'by-hand' | 'copied-from-paper' | 'file' | 'instrument';
  /** A file's name, a feed's, or how they were typed. */
  readonly source: string;
}
export interface ReadingsToKeep extends ReadingsAbout {
  readonly unit: 'F' | 'C';
  readonly rows: readonly KeptReading[];
}
/** What live readings have in common: an instrument sent them. */
export interface LiveReadings extends Omit<ReadingsAbout, 'how'> {
  readonly unit: 'F' | 'C';
}
/** What one instrument sent for one point. */
export interface LiveBatch {
  readonly about: LiveReadings;
  readonly rows: readonly KeptReading[];
}
export interface SeriesReading extends KeptReading {
  readonly instrumentId: string | null;
  readonly how: ReadingsToKeep['how'];
  readonly unit: 'F' | 'C';
  /** The number of the entry that vouches for it; 0 as long as it only came in live. */
  readonly entry: number;
}

/** A line of the append-only record, as a use case gives it; the book adds number, digest, person and time entered. */
export interface EntryDraft {
  readonly kind: string;
  readonly subjectId: string;
  readonly happenedAtMs: number | null;
  /** One line for people. */
  readonly summary: string;
  readonly why?: string;
  readonly before?: unknown;
  readonly after: unknown;
}

/** Readings as bare numbers. */
export interface ReadingNumbers {
  readonly atMs: Float64Array;
  readonly lowTicks: Int32Array;
  /** 1 where the number as written lies between two ticks; null where none does. */
  readonly cut: Uint8Array | null;
}

export interface OpenBook {
  readonly fileName: string;
  readonly readOnly: boolean;
  /** When this run opened it. */
  readonly openedAtMs: number;
  shelf<N extends ShelfName>(name: N): Shelf<Stored<N>>;
  /** Appends to the record; only inside a command. @returns the entry's number */
  record(entry: EntryDraft): number;
  /** Entries about any of these subjects, oldest first. */
  entriesAbout(subjectIds: readonly string[]): Entry[];
  /** Walks the whole chain. */
  checkChain(): { entries: number; intact: boolean; digest: string };
  /**
   * Keeps readings for ever; only inside a command, and before its `record`: the next entry covers
   * the digest of every reading kept since the last one. A command that keeps readings and then
   * records nothing fails. A reading that is already there (same point, instant and ticks) is only counted.
   */
  keepReadings(readings: ReadingsToKeep): { kept: number; alreadyThere: number };
  /** As `keepReadings`, for many readings of one point at once. */
  keepColumns(about: ReadingsAbout, columns: ReadingColumns): { kept: number; alreadyThere: number };
  /**
   * Keeps what an instrument just sent; outside a command, since nobody did it. It is in the book when this returns.
   * The record names it once it is closed by `closeLive`.
   */
  keepLive(about: LiveReadings, rows: readonly KeptReading[]): { kept: number; alreadyThere: number };
  /** As `keepLive`, for what came of many points since the last time: one transaction, so one waiting for the disk. */
  keepLiveTogether(batches: readonly LiveBatch[]): { kept: number; alreadyThere: number };
  /** Puts what came in live for a point into the record; only inside a command, and before its `record`. @returns how many readings */
  closeLive(pointId: string): number;
  /** The points with readings that came in live and aren't closed yet. */
  liveWaiting(): { pointId: string; count: number; firstMs: number }[];
  /** Sorted by instant, then by order of keeping. The same array as long as nothing is added, so that what was worked out of it can be remembered by it. */
  readings(pointId: string): readonly SeriesReading[];
  /** The numbers of a point's readings alone, sorted by instant, and not to be written into; of a stretch of time, both ends included, where one is given. */
  seriesOf(pointId: string, span?: { readonly fromMs: number; readonly toMs: number }): ReadingNumbers;
  lastReading(pointId: string): SeriesReading | undefined;
  /** What a file of the inbox is called. */
  inboxFileName(fileId: string): string | undefined;
  /** A file of the inbox as it came. */
  inboxFile(fileId: string): { fileName: string; bytes: Uint8Array } | undefined;
  /** Writes a copy beside the book by the database's own backup; the name says the book, the day and a number. */
  backUp(): Promise<{ fileName: string; bytes: number }>;
}

/** Which book is meant: the kitchen's own, or the demonstration kitchen's. A file named at start is both. */
export type BookKind = 'own' | 'demo';

/** The one book of this run: what state it is in, and how one is begun or opened. Announces `book` by itself. */
export interface BookKeeper {
  /** `refused` comes with the reason why the file that lies there can't be opened. */
  state(): { readonly state: 'none' | 'open' | 'refused'; readonly fault: Failure | null };
  /** The open book for reading, or null. */
  current(): OpenBook | null;
  /** Whether the file of that book is there. */
  exists(kind: BookKind): boolean;
  /** Opens a book that is there; one that is open already stays open. Refuses with the file's own fault, or CONFLICT where another book is open. */
  open(kind: BookKind): OpenBook;
  /**
   * Makes the book file and fills it inside one transaction; when `fill` throws no file is left.
   * Refuses with CONFLICT where a book is open or its file is there, and with the file's own fault where one is refused.
   * @param fill gets `at`, which gives a room whose clock stands at `nowMs` and whose entries are
   *   entered at that time by that person (null: the program)
   * @param kind `own` when left out
   */
  start(fill: (at: (nowMs: number, person: Person | null) => BookRoom) => void, kind?: BookKind): void;
}

export interface Room {
  readonly catalogue: Catalogue;
  readonly clock: Clock;
  readonly hands: Hands;
  /** The live feeds, whether they run or not. */
  readonly feeds: FeedDesk;
  readonly version: string;
  readonly caller: Caller;
  /** For the few requests that look at or begin the book itself. */
  readonly keeper: BookKeeper;
  /** A new UUIDv7. */
  newId(): string;
}

/** A room with an open book and, for commands, the person who acts. */
export interface BookRoom extends Room {
  readonly book: OpenBook;
  readonly person: Person | null;
  /** Announces after the commit that a subject changed. */
  changed(subject: Subject, ids: readonly string[]): void;
}
