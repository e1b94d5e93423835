/**
 * Loggers' files with something broken in them: none ends the reading, none takes long, and every line of each is
 * opening, blank, read or refused with a reason.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { columnsOfLog, readLogBytes, type ColumnLog } from '../../app/probes/log-columns.ts';
import { shapeOfText } from '../../app/probes/log-shape.ts';
import type { LogOptions } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';
import { textAt } from '../../app/probes/reading-columns.ts';
import { decodeLog } from '../../main/backroom/services/log-read.ts';
import { MOST_FAULTS, randomFrom, sayThrown, startWork } from './fault.ts';
import { mutate } from './mutate.ts';

export interface MutatedFiles {
  readonly files: number;
  /** Files that gave places, questions, or a sentence that says why not. */
  readonly read: number;
  readonly asked: number;
  readonly refused: number;
  /** Files that were read from their bytes directly. */
  readonly direct: number;
  readonly slowestMs: number;
  /** What should not be, with the number of the file; at most 20. */
  readonly faults: readonly string[];
}

const FOLDER = new URL('../fixtures/logs/', import.meta.url);
export const LONGEST_MS = 2000;
const OPTIONS: readonly LogOptions[] = [
  {},
  { timeZone: 'America/Anchorage' },
  { timeZone: 'America/New_York', answers: { unit: 'F', dateOrder: 'month-first', start: '2026-07-14 05:00', elapsedUnit: 'minutes' } },
];

/**
 * Breaks that many files and reads each.
 * @param seed the same seed breaks the same files
 */
export function readMutatedFiles(count: number, seed: number): MutatedFiles {
  const whole = [...readdirSync(FOLDER).map((name) => new Uint8Array(readFileSync(new URL(name, FOLDER)))), longLog('wide'), longLog('long')];
  const random = randomFrom(seed);
  const tally = { files: 0, read: 0, asked: 0, refused: 0, direct: 0, slowestMs: 0, faults: [] as string[] };
  for (; tally.files < count && tally.faults.length < MOST_FAULTS; tally.files += 1) {
    const bytes = mutate(whole, random);
    const options = OPTIONS[random(OPTIONS.length)] ?? {};
    const workMs = startWork();
    try {
      const { log, direct } = readBoth(bytes, options);
      if (direct !== undefined) tally.direct += 1;
      if (log === undefined) tally.refused += 1;
      else if (log.questions.length > 0) tally.asked += 1;
      else tally.read += 1;
      for (const fault of [...(log === undefined ? [] : faultsOf(log)), ...differences(direct, log)]) tally.faults.push(`file ${tally.files}: ${fault}`);
    } catch (thrown) {
      tally.faults.push(`file ${tally.files}: ${sayThrown(thrown)}`);
    }
    tally.slowestMs = Math.max(tally.slowestMs, workMs());
  }
  if (tally.slowestMs > LONGEST_MS) tally.faults.push(`a file took ${Math.round(tally.slowestMs)} ms`);
  return tally;
}

/** A log that is just long enough to be read in one pass while it is whole. */
function longLog(kind: 'wide' | 'long'): Uint8Array {
  const lines = Array.from({ length: 2400 }, (_, row) => {
    const at = new Date(Date.UTC(2026, 6, 14, 5) + Math.floor(row / 2) * 10_000).toISOString().slice(0, 19).replace('T', ' ');
    return kind === 'wide' ? `${at},${(row % 700) / 10},-${row % 40}.25` : `${at},P${row % 2},${(row % 700) / 10}`;
  });
  return new TextEncoder().encode(`${kind === 'wide' ? 'Time,P1 (F),P2 (F)' : 'Time,Channel,Temp (F)'}\n${lines.join('\n')}\n`);
}

/** By way of the texts, and directly where that is taken. */
function readBoth(bytes: Uint8Array, options: LogOptions): { log: ColumnLog | undefined; direct: ColumnLog | undefined } {
  const direct = readLogBytes(bytes, options);
  const text = decodeLog(bytes, 'The file');
  const read = text.ok ? readLog(text.value, options) : text;
  if (read.ok) return { log: columnsOfLog(read.value, text.ok ? shapeOfText(text.value) : ''), direct };
  refuseNoSentence(read.problem);
  return { log: undefined, direct };
}

/** @throws Error where what is said is no sentence */
export function refuseNoSentence({ message }: { readonly message: string }): void {
  if (!/^[^\n]+[.!?]$/.test(message)) throw new Error(`no sentence: ${message}`);
}

/** What of a log's counts and readings can't be. */
export function faultsOf(log: ColumnLog): readonly string[] {
  const faults: string[] = [];
  const { lines, opening, blank, read, refused } = log.counts;
  if (lines !== opening + blank + read + refused) faults.push(`${lines} lines are not ${opening} + ${blank} + ${read} + ${refused}`);
  const refusedLines = new Set(log.refusedRows.map(({ line }) => line));
  if (refusedLines.size !== refused) faults.push('refused rows are miscounted');
  if (log.refusedRows.some(({ line, reason }) => line < 1 || line > lines || reason === '')) faults.push('a refused row has no line or reason');
  if (log.questions.length > 0 && log.places.length > 0) faults.push('readings beside an open question');
  for (const { columns, lines: of } of log.places) {
    if (of.length !== columns.atMs.length || of.length !== columns.lowTicks.length) faults.push('arrays of different lengths');
    if (of.some((line) => refusedLines.has(line))) faults.push('a reading of a refused row');
    if (!columns.atMs.every(Number.isSafeInteger)) faults.push('a time is no whole number');
    if (of.length > read) faults.push('more readings than rows');
  }
  return faults;
}

function differences(direct: ColumnLog | undefined, log: ColumnLog | undefined): readonly string[] {
  if (direct === undefined) return [];
  if (log === undefined) return ['read from its bytes, but not from its text'];
  return digestOf(direct) === digestOf(log) ? [] : ['read from its bytes otherwise than from its text'];
}

function digestOf({ columns: described, questions, places, refusedRows, remarks, counts, shape }: ColumnLog): string {
  const readings = places.map(({ name, column, columns, lines }) => [
    name, column, columns.unit, ...Array.from(lines, (line, index) => [line, columns.atMs[index], columns.lowTicks[index], columns.cut?.[index] ?? 0, textAt(columns, index)]),
  ]);
  return JSON.stringify([described, questions, readings, refusedRows, remarks, counts.lines, counts.opening, counts.blank, counts.read, counts.refused, shape]);
}
