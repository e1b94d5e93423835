/** Reads a file that a person chose, whole and at one moment, or says in a sentence why not. */
import { readFile, stat } from 'node:fs/promises';
import type { Reply } from '../../app/contract/envelope.ts';
import { fail } from './failures.ts';

const FILE_LIMIT_BYTES = 32_000_000;

/** @param fileName the file's name, for sentences: a path never reaches the page */
export async function readChosen(file: string, fileName: string): Promise<Reply<Uint8Array>> {
  try {
    const before = await stat(file);
    if (before.size > FILE_LIMIT_BYTES) {
      return fail(
        'INVALID_INPUT', `${fileName} is larger than 32 MB and was not taken.`,
        'Export a shorter stretch of the log, or leave out the columns that are not needed.',
      );
    }
    const bytes = await readFile(file);
    const after = await stat(file);
    if (after.size !== before.size || after.mtimeMs !== before.mtimeMs || after.ino !== before.ino || bytes.byteLength !== after.size) {
      return fail('FILE_UNREADABLE', `${fileName} was changed while it was read, and was not taken.`, 'Wait until the logger has finished writing it, then choose it again.');
    }
    return { ok: true, value: bytes };
  } catch {
    return fail('FILE_UNREADABLE', `${fileName} could not be read.`, 'See that it is still there and that you may open it, then choose it again.');
  }
}
