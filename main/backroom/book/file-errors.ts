/** What the computer's file system says, in sentences. */
import type { FailureCode } from '../../../app/contract/envelope.ts';
import { Refusal } from '../refusal.ts';

const SENTENCES: Readonly<Record<string, readonly [FailureCode, string, string]>> = {
  ENOENT: ['NOT_FOUND', 'is not there.', 'Look whether it was moved or renamed.'],
  ENOTDIR: ['NOT_FOUND', 'is not there.', 'Look whether its folder was moved or renamed.'],
  EISDIR: ['BOOK_DAMAGED', 'is a folder, so it is not an Alderbook book.', 'Choose a file that ends in .alderbook.'],
  EACCES: ['BOOK_READ_ONLY', 'may not be written or read by you.', 'Ask whoever looks after this computer to let you write to its folder.'],
  EPERM: ['BOOK_READ_ONLY', 'may not be written or read by you.', 'Ask whoever looks after this computer to let you write to its folder.'],
  EROFS: ['BOOK_READ_ONLY', 'lies on a disk that can’t be written.', 'Copy it to this computer’s own disk.'],
  ENOSPC: ['DISK_FULL', 'can’t be written: the disk is full.', 'Make room on the disk, then try again.'],
  EDQUOT: ['DISK_FULL', 'can’t be written: your share of the disk is full.', 'Make room on the disk, then try again.'],
  EIO: ['FILE_UNREADABLE', 'can’t be read: the disk reports a fault.', 'Copy the book to another disk if you can, and have this one looked at.'],
};

/** The refusal for a failure of the file system, or undefined when the problem is something else. */
export function fileRefusal(problem: unknown, name: string): Refusal | undefined {
  if (!(problem instanceof Error) || !('code' in problem) || typeof problem.code !== 'string') return undefined;
  const known = Object.hasOwn(SENTENCES, problem.code) ? SENTENCES[problem.code] : undefined;
  if (known === undefined) return undefined;
  const [code, words, remedy] = known;
  return new Refusal(code, `${name} ${words}`, { remedy });
}
