/** Looks into a closed book's file, as any SQLite tool would. */
import Database from 'better-sqlite3';

function look<T>(file: string, sql: string): T {
  const database = new Database(file, { readonly: true });
  try {
    // The query names the one column that is wanted.
    return database.prepare(sql).pluck().get() as T;
  } finally {
    database.close();
  }
}

/** How many of the files that were taken in still lie there as they came. */
export function unpackedFiles(file: string): number {
  return look(file, 'SELECT count(*) FROM inbox WHERE packed = 0');
}

/** How many readings lie in blocks. */
export function readingsInBlocks(file: string): number {
  return look(file, 'SELECT coalesce(sum(count), 0) FROM reading_blocks');
}

export function loadsIn(file: string): number {
  return look(file, 'SELECT count(*) FROM loads');
}

/** The version of the book's tables. */
export function versionOf(file: string): number {
  return look(file, 'SELECT user_version FROM pragma_user_version');
}
