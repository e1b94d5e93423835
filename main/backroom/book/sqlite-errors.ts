/** The database engine's result codes as failures, in one place. Codes: SQLite, “Result and Error Codes” (from memory). */
import { Refusal } from '../refusal.ts';

/**
 * The refusal for a failure of the engine, or undefined when it is none, or is a bug of ours
 * (a broken constraint, wrong SQL). Looks at the code's text, so the engine need not be loaded.
 */
export function sqliteRefusal(problem: unknown): Refusal | undefined {
  const code = sqliteCode(problem);
  if (code === undefined) return undefined;
  if (code === 'SQLITE_FULL') {
    return new Refusal('DISK_FULL', 'The disk is full: nothing was written.', { remedy: 'Make room on the disk, then try again.' });
  }
  if (/^SQLITE_(BUSY|LOCKED|PROTOCOL)/.test(code)) {
    return new Refusal('BOOK_BUSY', 'Another program is using the book just now.', { remedy: 'Close the other program, then try again.' });
  }
  if (/^SQLITE_(READONLY|PERM)/.test(code)) {
    return new Refusal('BOOK_READ_ONLY', 'The book can’t be written.', { remedy: 'Look whether its file or folder is marked read-only.' });
  }
  if (/^SQLITE_(CORRUPT|NOTADB|FORMAT)/.test(code)) {
    return new Refusal('BOOK_DAMAGED', 'The book is damaged.', { remedy: 'Close Alderbook and open your latest backup. Keep the damaged file.' });
  }
  if (/^SQLITE_(IOERR|CANTOPEN)/.test(code)) {
    return new Refusal('FILE_UNREADABLE', 'The disk the book lies on could not be read or written.', { remedy: 'Look whether the disk is still connected, then start Alderbook again.' });
  }
  return undefined;
}

function sqliteCode(problem: unknown): string | undefined {
  if (!(problem instanceof Error) || !('code' in problem)) return undefined;
  return typeof problem.code === 'string' && problem.code.startsWith('SQLITE_') ? problem.code : undefined;
}
