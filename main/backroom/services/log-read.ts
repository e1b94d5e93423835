/** `log.read`: decodes the file's bytes and reads the log; the book's import uses the same steps on the bytes it was given. */
import type { LogReadInput, LogReadOutput } from '../../../app/contract/requests/log-read.ts';
import { bad, good, type Outcome, type Problem } from '../../../app/measures/outcome.ts';
import { LARGEST_LOG_BYTES, problemOfSize, recogniseLogBytes } from '../../../app/probes/log-bytes.ts';
import { columnsOfLog, readLogBytes, type ColumnLog } from '../../../app/probes/log-columns.ts';
import { shapeOfText } from '../../../app/probes/log-shape.ts';
import type { LogOptions, LogReading } from '../../../app/probes/log-types.ts';
import { readLog } from '../../../app/probes/read-log.ts';
import { unwrap } from '../refusal.ts';

/**
 * The text of a log's bytes: UTF-8, UTF-16, else Windows-1252.
 * @param field the input key to name in a problem
 * @returns the text, or a sentence: empty, too large, or no text
 */
export function decodeLog(bytes: Uint8Array, fileName: string, field = 'base64'): Outcome<string> {
  const encoding = recogniseLogBytes(bytes, fileName, field);
  return encoding.ok ? good(new TextDecoder(encoding.value).decode(bytes)) : encoding;
}

/** Reads a log's bytes as columns, for the book: directly where they are plain, else by way of their text. */
export function readLogColumns(bytes: Uint8Array, options: LogOptions): Outcome<ColumnLog> {
  const direct = readLogBytes(bytes, options);
  if (direct !== undefined) return good(direct);
  const text = decodeLog(bytes, options.fileName ?? 'The file');
  return text.ok ? readGenerally(text.value, options) : text;
}

/** As `readLogColumns`, of a text of any length. */
export function readTextColumns(text: string, options: LogOptions): Outcome<ColumnLog> {
  const direct = readLogBytes(new TextEncoder().encode(text), options);
  return direct === undefined ? readGenerally(text, options) : good(direct);
}

function readGenerally(text: string, options: LogOptions): Outcome<ColumnLog> {
  const log = readLog(text, options);
  return log.ok ? good(columnsOfLog(log.value, shapeOfText(text))) : log;
}

function readLogRequest(_room: object, input: LogReadInput): LogReadOutput {
  const { fileName, timeZone, answers } = input;
  const text = unwrap(textOf(input));
  const reading = readLog(text, { fileName, timeZone, answers });
  return shapeOutput(unwrap(reading.ok ? reading : { ok: false, problem: fieldOf(reading.problem, input) }));
}

/** A problem of the text itself is named by the field that the file came in. */
function fieldOf(problem: Problem, input: LogReadInput): Problem {
  const isOfFile = problem.field === undefined || problem.field === 'text';
  return isOfFile ? { ...problem, field: input.text === undefined ? 'base64' : 'text' } : problem;
}

function textOf(input: LogReadInput): Outcome<string> {
  const { fileName, text, base64 } = input;
  if (text !== undefined) {
    const problem = problemOfSize(Buffer.byteLength(text), fileName, 'text');
    return problem === undefined ? good(text) : { ok: false, problem };
  }
  if (base64 === undefined) return bad('Give the file as text or as base64.', 'text');
  const most = Math.ceil(LARGEST_LOG_BYTES / 3) * 4;
  if (base64.length > most + 4) {
    const problem = problemOfSize(Math.floor((base64.length / 4) * 3), fileName, 'base64');
    if (problem !== undefined) return { ok: false, problem };
  }
  if (!/^[A-Za-z0-9+/]*={0,2}$/.test(base64) || base64.length % 4 !== 0) return bad('The file’s base64 is damaged.', 'base64', 'Send the bytes as plain base64 with its padding.');
  return decodeLog(Buffer.from(base64, 'base64'), fileName);
}

function shapeOutput(reading: LogReading): LogReadOutput {
  return {
    columns: reading.columns.map((column) => ({ ...column })),
    questions: reading.questions.map((question) => ({ ...question, choices: [...question.choices] })),
    places: reading.places.map(({ name, unit, atMs, values }) => ({ name, unit, points: atMs.map((at, index): [number, number] => [at, values[index] ?? 0]) })),
    refusedRows: reading.refusedRows.map((row) => ({ ...row })),
    ...(reading.remarks.length === 0 ? {} : { remarks: reading.remarks.map((remark) => ({ ...remark })) }),
  };
}

export const logReadServices = { 'log.read': readLogRequest };
