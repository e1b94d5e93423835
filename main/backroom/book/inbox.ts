/** Files as they came, kept in the book beside what was read from them; packed where that makes them smaller. */
import { LARGEST_LOG_BYTES } from '../../../app/probes/log-bytes.ts';
import { Refusal } from '../refusal.ts';
import { sha256Hex } from './canonical.ts';
import type { Connection } from './connection.ts';
import { BROTLI, packBeside, unpack, type Packing, type Quality } from './packing.ts';

/** A log is a sixth of its size then; at a higher one somebody would wait. */
const QUALITY: Quality = 0;
/** What can't be packed so well has room in further pieces. */
const ROOM_SHARE = 1 / 3;
const ROOM_BYTES = 65_536;

export interface Inbox {
  /** Keeps a file and answers its id; the same bytes again get the id they have. */
  take(fileName: string, bytes: Uint8Array, stamp: { id: string; nowMs: number }): Promise<string>;
  fileName(fileId: string): string | undefined;
  file(fileId: string): { fileName: string; bytes: Uint8Array } | undefined;
}

export function openInbox(database: Connection): Inbox {
  const byDigest = database.prepare<[string], { id: string }>('SELECT id FROM inbox WHERE sha256 = ?');
  const insert = database.prepare<[string, string, Uint8Array, string, number, number, Packing]>('INSERT INTO inbox (id, file_name, bytes, sha256, taken_at_ms, packed, packing) VALUES (?, ?, ?, ?, ?, ?, ?)');
  const nameById = database.prepare<[string], { file_name: string }>('SELECT file_name FROM inbox WHERE id = ?');
  const byId = database.prepare<[string], { file_name: string; bytes: Uint8Array; packed: number; packing: Packing }>('SELECT file_name, bytes, packed, packing FROM inbox WHERE id = ?');

  return {
    async take(fileName, bytes, { id, nowMs }) {
      refuseUnfit(fileName, bytes);
      // Packing is done beside this thread, and a packed file is on the disk sooner than one as it came.
      const packing = packBeside(bytes, QUALITY, Math.ceil(bytes.byteLength * ROOM_SHARE) + ROOM_BYTES);
      const sha256 = sha256Hex(bytes);
      const packed = await packing;
      if (!database.open) throw new Refusal('NO_BOOK', `The book was closed before ${fileName} was kept.`, { remedy: 'Open it and choose the file again.' });
      const there = byDigest.get(sha256);
      if (there !== undefined) return there.id;
      const isSmaller = packed.byteLength < bytes.byteLength;
      insert.run(id, fileName.toWellFormed(), isSmaller ? packed : Uint8Array.from(bytes), sha256, nowMs, isSmaller ? 1 : 0, BROTLI);
      return id;
    },
    fileName: (fileId) => nameById.get(fileId)?.file_name,
    file(fileId) {
      const row = byId.get(fileId);
      return row === undefined ? undefined : { fileName: row.file_name, bytes: row.packed === 1 ? unpack(row.bytes, row.packing) : row.bytes };
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
