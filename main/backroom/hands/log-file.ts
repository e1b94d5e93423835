/** A logger's file of any kind as columns: text, or the sheet of a workbook. */
import { createHash } from 'node:crypto';
import { bad, good, type Outcome } from '../../../app/measures/outcome.ts';
import { problemOfSize } from '../../../app/probes/log-bytes.ts';
import type { ColumnLog } from '../../../app/probes/log-columns.ts';
import { shapeOfText } from '../../../app/probes/log-shape.ts';
import type { LogOptions } from '../../../app/probes/log-types.ts';
import { readLogColumns, readTextColumns } from '../services/log-read.ts';
import { readSheets, type Workbook } from './workbook.ts';

const ZIP = [0x50, 0x4b, 0x03, 0x04];
const OLD_WORKBOOK = [0xd0, 0xcf, 0x11, 0xe0];

interface Sheet {
  readonly name: string;
  readonly text: string;
  readonly shape: string;
}

/** Reads a logger's file for the book: text in any dialect, or an .xlsx workbook. */
export async function readLogFile(bytes: Uint8Array, options: LogOptions): Promise<Outcome<ColumnLog>> {
  const fileName = options.fileName ?? 'The file';
  if (startsWith(bytes, OLD_WORKBOOK)) {
    return bad(`“${fileName}” is an old workbook (.xls), or one with a password.`, 'fileId', 'Open it in a spreadsheet program and save it as .xlsx without a password, or as CSV.');
  }
  if (!startsWith(bytes, ZIP)) return readLogColumns(bytes, options);
  const problem = problemOfSize(bytes.length, fileName, 'fileId');
  if (problem !== undefined) return { ok: false, problem };
  const workbook = await readSheetsOnce(bytes, fileName);
  return workbook.ok ? readWorkbookLog(workbook.value, options) : workbook;
}

/** A file is read again for each answer and then to be taken over: the workbook that was unpacked last is kept at hand. */
let latest: { readonly digest: string; readonly workbook: Workbook } | undefined;

async function readSheetsOnce(bytes: Uint8Array, fileName: string): Promise<Outcome<Workbook>> {
  const digest = createHash('sha256').update(bytes).digest('hex');
  if (latest?.digest === digest) return good(latest.workbook);
  const read = await readSheets(bytes, fileName);
  if (read.ok) latest = { digest, workbook: read.value };
  return read;
}

function readWorkbookLog(workbook: Workbook, options: LogOptions): Outcome<ColumnLog> {
  const { sheet: answer, ...answers } = options.answers ?? {};
  const sheets = workbook.sheets.map((sheet): Sheet => ({ ...sheet, shape: shapeOfText(sheet.text) }));
  const logs = sheets.filter(({ shape }) => shape !== '');
  const shape = JSON.stringify(['workbook', ...logs.map((sheet) => [sheet.name, sheet.shape])]);
  if (answer === undefined && logs.length > 1) return good(askSheet(logs, shape));
  const chosen = answer === undefined ? (logs[0] ?? sheets[0]) : sheets.find(({ name }) => name === answer);
  if (chosen === undefined) return bad(`There is no sheet “${(answer ?? '').slice(0, 40)}” in the workbook.`, 'answers.sheet', 'Choose one of its sheets.');
  const read = readTextColumns(chosen.text, { ...options, answers });
  if (!read.ok) return read;
  if (workbook.from1904 && countsBareDays(chosen, read.value)) {
    return bad(`The times of the sheet “${chosen.name}” are bare numbers, in a workbook that counts days from 1904.`, 'fileId', 'Give the column of times a date’s format and save the workbook again, or save it as CSV.');
  }
  const { unworkedCount } = workbook;
  const remarks = unworkedCount === 0 ? read.value.remarks : [...read.value.remarks, { text: `${unworkedCount} cells of the workbook hold a formula without its result and are read as empty. Open it in a spreadsheet program and save it again.` }];
  return good({ ...read.value, remarks, shape, sheet: chosen.name });
}

/** Nothing is read before it is known where. */
function askSheet(logs: readonly Sheet[], shape: string): ColumnLog {
  return {
    columns: [], places: [], refusedRows: [], remarks: [], shape, counts: { lines: 0, opening: 0, blank: 0, read: 0, refused: 0 },
    questions: [{ id: 'sheet', text: 'Which sheet of the workbook is it?', choices: logs.map(({ name }) => ({ id: name, text: name })) }],
  };
}

/** Whether the times are days as numbers that no format makes a date of. */
function countsBareDays({ text }: Sheet, { columns, places }: ColumnLog): boolean {
  const column = columns.find(({ role }) => role === 'time')?.index;
  const line = places.find(({ lines }) => lines.length > 0)?.lines[0];
  if (column === undefined || line === undefined) return false;
  return /^\d{4,5}(?:\.\d+)?$/.test(text.split('\n', line)[line - 1]?.split('\t')[column] ?? '');
}

function startsWith(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, position) => bytes[position] === byte);
}
