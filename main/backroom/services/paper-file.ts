/** Giving out the file of a paper, as it was put on file. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';

type MediaType = Output<'paper.file'>['mediaType'];

/** What the first bytes of a file say it is; a name says little. */
const SIGNATURES: readonly (readonly [MediaType, readonly number[]])[] = [
  ['application/pdf', [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ['image/png', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
  ['image/jpeg', [0xff, 0xd8, 0xff]],
];

/**
 * The file that was put on file with a paper; one struck out still has it.
 * @throws Refusal NOT_FOUND: no such paper, or one without a file
 */
export function givePaperFile(room: BookRoom, { paperId }: Parsed<'paper.file'>): Output<'paper.file'> {
  const paper = room.book.shelf('papers').need(paperId);
  const file = paper.fileId === null ? undefined : room.book.inboxFile(paper.fileId);
  if (file === undefined) {
    throw new Refusal('NOT_FOUND', `No file was put on file with “${paper.what}”.`, { remedy: 'Put the paper on file again with its scan, and strike this one out.' });
  }
  return { fileName: file.fileName, mediaType: mediaTypeOf(file.bytes), base64: Buffer.from(file.bytes).toString('base64') };
}

function mediaTypeOf(bytes: Uint8Array): MediaType {
  const signed = SIGNATURES.find(([, signature]) => signature.every((byte, index) => bytes[index] === byte));
  return signed?.[0] ?? (isText(bytes) ? 'text/plain' : 'application/octet-stream');
}

/** UTF-8 without a nought. */
function isText(bytes: Uint8Array): boolean {
  if (bytes.includes(0)) return false;
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
}
