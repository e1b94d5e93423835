/** The request `log.read`: its fixed shape, from text or from bytes. */
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { logReadRequests, type LogReadOutput } from '../../app/contract/requests/log-read.ts';
import { logReadServices } from '../../main/backroom/services/log-read.ts';
import { Refusal } from '../../main/backroom/refusal.ts';

const { input: Input, output: Output, kind, book } = logReadRequests['log.read'];
const TEXT = 'Date;Time;P1 [°C];P2\n14.07.2026;05:31:10;62,80;---\n14.07.2026;05:32:10;warm;---\n';

function ask(input: unknown): LogReadOutput {
  return Output.parse(logReadServices['log.read']({}, Input.parse(input)));
}

function refusalOf(input: unknown): Refusal {
  try {
    ask(input);
  } catch (thrown) {
    if (thrown instanceof Refusal) return thrown;
    throw thrown;
  }
  throw new Error('it was not refused');
}

describe('log.read', () => {
  it('is a pure query', () => {
    expect([kind, book]).toEqual(['query', 'none']);
    expect(z.toJSONSchema(Input)).toMatchObject({ type: 'object', required: ['fileName'] });
  });

  it('answers with columns, questions, places and refused rows in the fixed shape', () => {
    expect(ask({ fileName: 'smoke.csv', text: TEXT, timeZone: 'America/Anchorage' })).toEqual({
      columns: [
        { index: 0, heading: 'Date', role: 'date', unit: null },
        { index: 1, heading: 'Time', role: 'clock', unit: null },
        { index: 2, heading: 'P1 [°C]', role: 'reading', unit: 'C' },
        { index: 3, heading: 'P2', role: 'reading', unit: 'C' },
      ],
      questions: [],
      places: [
        { name: 'P1', unit: 'C', points: [[Date.UTC(2026, 6, 14, 13, 31, 10), 62.8]] },
        { name: 'P2', unit: 'C', points: [] },
      ],
      refusedRows: [{ line: 3, reason: '“warm” in the column “P1 [°C]” is not a number.' }],
    });
  });

  it('leaves places empty while a question is open, and takes the answer by its id', () => {
    const asked = ask({ fileName: 'smoke.csv', text: TEXT });
    expect(asked.places).toEqual([]);
    expect(asked.questions).toEqual([{ id: 'timeZone', text: 'In which time zone was the logger’s clock set (such as America/Anchorage)?', choices: [], column: 0 }]);
    expect(ask({ fileName: 'smoke.csv', text: TEXT, answers: { timeZone: 'UTC' } }).places[0]?.points).toEqual([[Date.UTC(2026, 6, 14, 5, 31, 10), 62.8]]);
  });

  it('gives remarks only where there are any', () => {
    const text = 'Time,P1 (F)\n2026-07-14T05:32Z,62\n2026-07-14T05:31Z,63\n';
    expect(ask({ fileName: 'a.csv', text }).remarks?.map((remark) => remark.line)).toEqual([3]);
    expect('remarks' in ask({ fileName: 'a.csv', text: 'Time,P1 (F)\n2026-07-14T05:32Z,62\n' })).toBe(false);
  });

  it('reads the same from bytes in any encoding as from text', () => {
    const fromText = ask({ fileName: 'a.csv', text: TEXT, timeZone: 'UTC' });
    const encodings = [Buffer.from(TEXT), Buffer.from(`\uFEFF${TEXT}`), Buffer.from(TEXT, 'latin1'), Buffer.from(`\uFEFF${TEXT}`, 'utf16le'), Buffer.from(`\uFEFF${TEXT}`, 'utf16le').swap16()];
    for (const bytes of encodings) expect(ask({ fileName: 'a.csv', base64: bytes.toString('base64'), timeZone: 'UTC' })).toEqual(fromText);
  });

  it('wants exactly one of text and base64, and no unknown key', () => {
    for (const input of [{ fileName: 'a.csv' }, { fileName: 'a.csv', text: TEXT, base64: 'QQ==' }]) {
      expect(Input.safeParse(input).error?.issues).toMatchObject([{ path: ['text'], message: 'Give the file as text or as base64: exactly one of the two.' }]);
    }
    expect(Input.safeParse({ fileName: 'a.csv', text: TEXT, offset: 1 }).success).toBe(false);
    expect(Input.safeParse({ text: TEXT }).success).toBe(false);
  });

  it('refuses bad files and answers as INVALID_INPUT with the field', () => {
    const faults: readonly (readonly [unknown, string, string])[] = [
      [{ fileName: 'a.csv', text: '' }, '“a.csv” is empty.', 'text'],
      [{ fileName: 'a.csv', base64: '' }, '“a.csv” is empty.', 'base64'],
      [{ fileName: 'a.xlsx', base64: Buffer.from([0x50, 0x4b, 3, 4, 20, 0]).toString('base64') }, '“a.xlsx” is a spreadsheet workbook or another zip file, not a text file.', 'base64'],
      [{ fileName: 'a.csv', base64: 'not base64!' }, 'The file’s base64 is damaged.', 'base64'],
      [{ fileName: 'a.csv', text: TEXT, answers: { colour: 'red' } }, '“colour” is not a question about this file.', 'answers/colour'],
      [{ fileName: 'a.csv', text: TEXT, timeZone: 'Nowhere/Here' }, '“Nowhere/Here” is not a time zone.', 'timeZone'],
      [{ fileName: 'a.csv', text: 'nothing' }, 'No row of “a.csv” has a time and a temperature.', 'text'],
      [{ fileName: 'a.csv', base64: Buffer.from(' \n \n').toString('base64') }, '“a.csv” holds nothing but blank lines.', 'base64'],
    ];
    for (const [input, message, path] of faults) {
      const refusal = refusalOf(input);
      expect([refusal.code, refusal.message, refusal.fields?.[0]?.path.join('/')]).toEqual(['INVALID_INPUT', message, path]);
      expect(refusal.remedy).toMatch(/\.$/);
    }
  });

  it('refuses more than 32 MB, as text and as base64', () => {
    const message = '“a.csv” is 33 MB; a log may have at most 32 MB.';
    expect(refusalOf({ fileName: 'a.csv', text: '1'.repeat(33 * 1024 * 1024) }).message).toBe(message);
    expect(refusalOf({ fileName: 'a.csv', base64: 'MTEx'.repeat(11 * 1024 * 1024) }).message).toBe(message);
  });
});
