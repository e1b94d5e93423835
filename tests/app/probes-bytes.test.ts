/** From bytes to text, and which files are refused as a whole. */
import { describe, expect, it } from 'vitest';
import { LARGEST_LOG_BYTES, problemOfText, recogniseLogBytes } from '../../app/probes/log-bytes.ts';
import { decodeLog } from '../../main/backroom/services/log-read.ts';

const LINE = 'Zeit;P1 [°C]\n2026-07-14T05:31Z;62,8\n';

function bytesOf(text: string, encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin1', mark: readonly number[] = []): Uint8Array {
  const body = encoding === 'utf-16be' ? Buffer.from(text, 'utf16le').swap16() : Buffer.from(text, encoding === 'utf-16le' ? 'utf16le' : encoding);
  return Uint8Array.from([...mark, ...body]);
}

function problemOf(bytes: Uint8Array, fileName: string): { message: string; remedy: string | undefined } {
  const outcome = recogniseLogBytes(bytes, fileName);
  if (outcome.ok) throw new Error(`read as ${outcome.value}`);
  return { message: outcome.problem.message, remedy: outcome.problem.remedy };
}

describe('The bytes of a log', () => {
  const encodings: readonly (readonly [string, Uint8Array, string])[] = [
    ['UTF-8', bytesOf(LINE, 'utf-8'), 'utf-8'],
    ['UTF-8 with a byte order mark', bytesOf(LINE, 'utf-8', [0xef, 0xbb, 0xbf]), 'utf-8'],
    ['UTF-16 little-endian with a mark', bytesOf(LINE, 'utf-16le', [0xff, 0xfe]), 'utf-16le'],
    ['UTF-16 big-endian with a mark', bytesOf(LINE, 'utf-16be', [0xfe, 0xff]), 'utf-16be'],
    ['UTF-16 little-endian without a mark', bytesOf(LINE, 'utf-16le'), 'utf-16le'],
    ['UTF-16 big-endian without a mark', bytesOf(LINE, 'utf-16be'), 'utf-16be'],
    ['Windows-1252', bytesOf(LINE, 'latin1'), 'windows-1252'],
  ];
  for (const [name, bytes, encoding] of encodings) {
    it(`are recognised and decoded as ${name}`, () => {
      expect(recogniseLogBytes(bytes, 'log.csv')).toEqual({ ok: true, value: encoding });
      expect(decodeLog(bytes, 'log.csv')).toEqual({ ok: true, value: LINE });
    });
  }

  it('are Windows-1252 where they are no valid UTF-8: cut, overlong and surrogate sequences', () => {
    for (const bad of [[0xc3], [0xc0, 0xaf], [0xe0, 0x80, 0xaf], [0xed, 0xa0, 0x80], [0xf4, 0x90, 0x80, 0x80], [0xb0, 0x43]]) {
      expect(recogniseLogBytes(Uint8Array.from([...Buffer.from('a;b\n'), ...bad, 0x0a]), 'log.csv')).toEqual({ ok: true, value: 'windows-1252' });
    }
    expect(recogniseLogBytes(Uint8Array.from([0x61, 0xf0, 0x9f, 0x90, 0x9f, 0x0a]), 'log.csv')).toEqual({ ok: true, value: 'utf-8' });
  });

  it('of an empty file are refused with what to do', () => {
    expect(problemOf(new Uint8Array(0), 'smoke.csv')).toEqual({
      message: '“smoke.csv” is empty.',
      remedy: 'Export the log from the logger again and choose the new file.',
    });
  });

  it('over 32 MB are refused with the size and the limit, exactly 32 MB are not', () => {
    expect(problemOf(new Uint8Array(LARGEST_LOG_BYTES + 1).fill(0x31), 'smoke.csv')).toEqual({
      message: '“smoke.csv” is 32.1 MB; a log may have at most 32 MB.',
      remedy: 'Export a shorter stretch, or fewer channels at once.',
    });
    expect(recogniseLogBytes(new Uint8Array(LARGEST_LOG_BYTES).fill(0x31), 'smoke.csv').ok).toBe(true);
  });

  const binaries: readonly (readonly [string, readonly number[], string])[] = [
    ['a picture', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a], '“x” is a PNG picture, not a text file.'],
    ['a photo', [0xff, 0xd8, 0xff, 0xe0], '“x” is a JPEG picture, not a text file.'],
    ['a workbook', [0x50, 0x4b, 0x03, 0x04, 0x14], '“x” is a spreadsheet workbook or another zip file, not a text file.'],
    ['an old workbook', [0xd0, 0xcf, 0x11, 0xe0, 0xa1], '“x” is an old spreadsheet workbook, not a text file.'],
    ['a PDF', [0x25, 0x50, 0x44, 0x46, 0x2d, 0x31], '“x” is a PDF, not a text file.'],
    ['a gzip file', [0x1f, 0x8b, 0x08], '“x” is a compressed gzip file, not a text file.'],
    ['zeros in text', [...Buffer.from('Time,P1\n1,2\n'), 0, 0, 0, 0x31], '“x” is not a text file: it holds bytes that no text has.'],
  ];
  for (const [name, bytes, message] of binaries) {
    it(`of ${name} are refused by name`, () => {
      const problem = problemOf(Uint8Array.from(bytes), 'x');
      expect(problem.message).toBe(message);
      expect(problem.remedy).toMatch(/\.$/);
    });
  }

  it('given as text are refused when the text is blank or binary', () => {
    expect(problemOfText('', 'a.csv')?.message).toBe('“a.csv” is empty.');
    expect(problemOfText('\uFEFF \r\n\t\n', 'a.csv')?.message).toBe('“a.csv” holds nothing but blank lines.');
    expect(problemOfText('PNG\u0000\u0001', 'a.csv')?.message).toBe('“a.csv” is not a text file: it holds characters that no text has.');
    expect(problemOfText(`${LINE.repeat(20)}\u0002`, 'a.csv')).toBeUndefined();
  });
});
