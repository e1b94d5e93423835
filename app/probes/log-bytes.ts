/** Whether bytes are a text that may be a log, and in which encoding. Decoding itself is left to the platform. */
import { bad, good, type Outcome, type Problem } from '../measures/outcome.ts';

type LogEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** The largest log that is read at once: 32 MB, a season of one probe at a second's interval. */
export const LARGEST_LOG_BYTES = 32 * 1024 * 1024;

const OPEN_AND_SAVE = 'Open it in the program that made it and save it as CSV text.';

/** First bytes of files that are no text (common practice: the file formats' own signatures). */
const SIGNATURES: readonly (readonly [string, readonly number[], string])[] = [
  ['a PNG picture', [0x89, 0x50, 0x4e, 0x47], 'Choose the log’s text file instead.'],
  ['a JPEG picture', [0xff, 0xd8, 0xff], 'Choose the log’s text file instead.'],
  ['a spreadsheet workbook or another zip file', [0x50, 0x4b, 0x03, 0x04], 'Open it in a spreadsheet program and save it as CSV, or unzip it first.'],
  ['an old spreadsheet workbook', [0xd0, 0xcf, 0x11, 0xe0], 'Open it in a spreadsheet program and save it as CSV.'],
  ['a PDF', [0x25, 0x50, 0x44, 0x46, 0x2d], 'Export the log as CSV instead.'],
  ['a compressed gzip file', [0x1f, 0x8b], 'Unpack it first.'],
  ['an SQLite database', [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20, 0x66], OPEN_AND_SAVE],
];

/**
 * Decides how the bytes of a log are to be decoded: a byte order mark, else UTF-16 by its zero
 * bytes, else UTF-8 when the bytes are valid UTF-8, else Windows-1252.
 * @returns the encoding, or a sentence: empty, larger than 32 MB, or no text at all
 */
export function recogniseLogBytes(bytes: Uint8Array, fileName: string, field = 'base64'): Outcome<LogEncoding> {
  const size = problemOfSize(bytes.length, fileName, field);
  if (size !== undefined) return { ok: false, problem: size };
  for (const [kind, start, remedy] of SIGNATURES) {
    if (start.every((byte, position) => bytes[position] === byte)) {
      return bad(`“${fileName}” is ${kind}, not a text file.`, field, remedy);
    }
  }
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return good('utf-16le');
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return good('utf-16be');
  const encoding = wideEncoding(bytes);
  if (encoding !== undefined) return good(encoding);
  if (isBinary(countZeros(bytes), countControls(bytes), bytes.length)) return bad(`“${fileName}” is not a text file: it holds bytes that no text has.`, field, OPEN_AND_SAVE);
  return good(isUtf8(bytes) ? 'utf-8' : 'windows-1252');
}

/** The sentence for a log of no bytes or too many, if it is one. */
export function problemOfSize(byteCount: number, fileName: string, field: string): Problem | undefined {
  if (byteCount === 0) {
    return { message: `“${fileName}” is empty.`, field, remedy: 'Export the log from the logger again and choose the new file.' };
  }
  if (byteCount <= LARGEST_LOG_BYTES) return undefined;
  const megabytes = Math.ceil((byteCount / (1024 * 1024)) * 10) / 10;
  return { message: `“${fileName}” is ${megabytes} MB; a log may have at most 32 MB.`, field, remedy: 'Export a shorter stretch, or fewer channels at once.' };
}

/** Like `recogniseLogBytes` for a text: the sentence for one that is empty or no log text, if it is one. */
export function problemOfText(text: string, fileName: string): Problem | undefined {
  if (/^[\s\uFEFF]*$/.test(text)) {
    return text === ''
      ? problemOfSize(0, fileName, 'text')
      : { message: `“${fileName}” holds nothing but blank lines.`, field: 'text', remedy: 'Export the log from the logger again and choose the new file.' };
  }
  let zeros = 0;
  let controls = 0;
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    if (code === 0) zeros += 1;
    else if (isControl(code)) controls += 1;
  }
  if (!isBinary(zeros, controls, text.length)) return undefined;
  return { message: `“${fileName}” is not a text file: it holds characters that no text has.`, field: 'text', remedy: OPEN_AND_SAVE };
}

/** No text has a zero; a stray control character from a serial line makes only its own row unreadable. */
function isBinary(zeros: number, controls: number, length: number): boolean {
  return zeros > 0 || controls > length / 200;
}

/** NUL to BS, SO to US without ESC: tab, line feed, vertical tab, form feed and carriage return are text; SUB ends old DOS files. */
function isControl(code: number): boolean {
  return code < 32 && (code < 9 || (code > 13 && code !== 26 && code !== 27));
}

function countZeros(bytes: Uint8Array): number {
  let count = 0;
  for (const byte of bytes) if (byte === 0) count += 1;
  return count;
}

function countControls(bytes: Uint8Array): number {
  let count = 0;
  for (const byte of bytes) if (isControl(byte)) count += 1;
  return count;
}

/** UTF-16 without a mark: nearly every second byte of Latin text is zero. */
function wideEncoding(bytes: Uint8Array): LogEncoding | undefined {
  if (bytes.length < 4 || bytes.length % 2 === 1) return undefined;
  const end = Math.min(bytes.length, 2000);
  const zeros = [0, 0];
  for (let index = 0; index < end; index += 1) {
    if (bytes[index] === 0) zeros[index % 2] = (zeros[index % 2] ?? 0) + 1;
  }
  const [even = 0, odd = 0] = zeros;
  const most = (end / 2) * 0.9;
  if (odd >= most && even === 0) return 'utf-16le';
  return even >= most && odd === 0 ? 'utf-16be' : undefined;
}

/** Valid UTF-8 by Unicode 15, table 3-7 (well-formed byte sequences; from memory). */
export function isUtf8(bytes: Uint8Array): boolean {
  let index = 0;
  while (index < bytes.length) {
    const lead = bytes[index] ?? 0;
    index += 1;
    if (lead < 0x80) continue;
    const more = lead >= 0xc2 && lead <= 0xdf ? 1 : lead >= 0xe0 && lead <= 0xef ? 2 : lead >= 0xf0 && lead <= 0xf4 ? 3 : 0;
    if (more === 0) return false;
    const second = bytes[index] ?? 0;
    if (lead === 0xe0 && second < 0xa0) return false;
    if (lead === 0xed && second > 0x9f) return false;
    if (lead === 0xf0 && second < 0x90) return false;
    if (lead === 0xf4 && second > 0x8f) return false;
    for (let step = 0; step < more; step += 1) {
      const next = bytes[index + step] ?? 0;
      if (next < 0x80 || next > 0xbf) return false;
    }
    index += more;
  }
  return true;
}
