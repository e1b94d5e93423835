/** The database connection as the files of the book hand it to each other; only `open.ts` makes one. */
import type BetterSqlite3 from 'better-sqlite3';

export type Connection = BetterSqlite3.Database;

/** Marks a file as a book of ours: “ALDR” at byte 68 of the file. */
export const APPLICATION_ID = 0x41_4c_44_52;
