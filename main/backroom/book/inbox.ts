/** Files as they came, kept in the book beside what was read from them; packed soon after they came. */
import { promisify } from 'node:util';
import { deflateRaw, inflateRawSync } from 'node:zlib';
import { LARGEST_LOG_BYTES } from '../../../app/probes/log-bytes.ts';
import { Refusal } from '../refusal.ts';
import { sha256Hex } from './canonical.ts';
import type { Connection } from './connection.ts';

export interface Inbox {
  /** Keeps a file and answers its id; the same bytes again get the id they have. */
  take(fileName: string, bytes: Uint8Array, stamp: { id: string; nowMs: number }): string;
  file(fileId: string): { fileName: string; bytes: Uint8Array } | undefined;
}

export function openInbox(database: Connection): Inbox {
  const byDigest = database.prepare<[string], { id: string }>('SELECT id FROM inbox WHERE sha256 = ?');
  const insert = database.prepare<[string, string, Uint8Array, string, number]>('INSERT INTO inbox (id, file_name, bytes, sha256, taken_at_ms) VALUES (?, ?, ?, ?, ?)');
  const byId = database.prepare<[string], { file_name: string; bytes: Uint8Array; packed: number }>('SELECT file_name, bytes, packed FROM inbox WHERE id = ?');
  const pack = database.prepare<[Uint8Array, string]>('UPDATE inbox SET bytes = ?, packed = 1 WHERE id = ? AND packed = 0');

  /** Packs a file beside the work that goes on; one that the end of the program overtakes stays as it came. */
  async function packLater(id: string, bytes: Uint8Array): Promise<void> {
    const packed = await promisify(deflateRaw)(bytes, { level: 6 });
    if (database.open && !database.inTransaction && packed.byteLength < bytes.byteLength) pack.run(packed, id);
  }
  return {
    take(fileName, bytes, { id, nowMs }) {
      refuseUnfit(fileName, bytes);
      const sha256 = sha256Hex(bytes);
      const there = byDigest.get(sha256);
      if (there !== undefined) return there.id;
      insert.run(id, fileName.toWellFormed(), bytes, sha256, nowMs);
      // What can't be packed, because the disk is full say, is there all the same.
      packLater(id, bytes).catch(() => undefined);
      return id;
    },
    file(fileId) {
      const row = byId.get(fileId);
      return row === undefined ? undefined : { fileName: row.file_name, bytes: row.packed === 1 ? inflateRawSync(row.bytes) : row.bytes };
    },
  };
}

function refuseUnfit(fileName: string, bytes: Uint8Array): void {
  if (fileName === '' || fileName.length > 255 || /[/\\\0]/.test(fileName)) {
    throw new Refusal('INVALID_INPUT', 'The file needs a plain name of 1 to 255 characters.', { remedy: 'Rename the file, then choose it again.' });
  }
  if (bytes.byteLength === 0) {
    throw new Refusal('INVALID_INPUT', `${fileName} is empty.`, { remedy: 'Export it again from the logger.' });
  }
  if (bytes.byteLength > LARGEST_LOG_BYTES) {
    throw new Refusal('INVALID_INPUT', `${fileName} is too large: ${Math.ceil(bytes.byteLength / 1_048_576)} MB; a log may have at most ${LARGEST_LOG_BYTES / 1_048_576} MB.`, {
      remedy: 'Export a shorter stretch, or fewer channels at once.',
    });
  }
}
