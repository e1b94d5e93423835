/**
 * Loggers' files with something broken in them: none ends the reading, none takes long, and every line of each is
 * opening, blank, read or refused with a reason. Run by itself: `node tests/faults/mutated-files.ts [how many] [seed]`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { columnsOfLog, readLogBytes, type ColumnLog } from '../../app/probes/log-columns.ts';
import { shapeOfText } from '../../app/probes/log-shape.ts';
import type { LogOptions } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';
import { textAt } from '../../app/probes/reading-columns.ts';
import { decodeLog } from '../../main/backroom/services/log-read.ts';

interface MutatedFiles {
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
const LONGEST_MS = 2000;
const MOST_FAULTS = 20;
const OPTIONS: readonly LogOptions[] = [
  {},
  { timeZone: 'America/Anchorage' },
  { timeZone: 'America/New_York', answers: { unit: 'F', dateOrder: 'month-first', start: '2026-07-14 05:00', elapsedUnit: 'minutes' } },
];
const PIECES = [',', ';', '\t', '|', '"', '""', '\n', '\r', '\r\n', '\n\n', '-', '+', '.', ':', '0', '9', '999.9', '1e9', 'OL', '---', '°', 'F', 'C', 'T', 'Z', '\u0000', '\u0001', '\uFEFF', 'Time', '2026', '7/4/2026', '12:60', '24:00', '31.02.2026', '=1+1', ' ', '\u00A0'];

/**
 * Breaks that many files and reads each.
 * @param seed the same seed breaks the same files
 */
export function readMutatedFiles(count: number, seed: number): MutatedFiles {
  const whole = readdirSync(FOLDER).map((name) => new Uint8Array(readFileSync(new URL(name, FOLDER))));
  const random = randomFrom(seed);
  const tally = { files: 0, read: 0, asked: 0, refused: 0, direct: 0, slowestMs: 0, faults: [] as string[] };
  for (; tally.files < count && tally.faults.length < MOST_FAULTS; tally.files += 1) {
    const bytes = mutate(whole, random);
    const options = OPTIONS[random(OPTIONS.length)] ?? {};
    const start = performance.now();
    try {
      const { log, direct } = readBoth(bytes, options);
      if (direct !== undefined) tally.direct += 1;
      if (log === undefined) tally.refused += 1;
      else if (log.questions.length > 0) tally.asked += 1;
      else tally.read += 1;
      for (const fault of [...(log === undefined ? [] : faultsOf(log)), ...differences(direct, log)]) tally.faults.push(`file ${tally.files}: ${fault}`);
    } catch (thrown) {
      tally.faults.push(`file ${tally.files}: ${thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown)}`);
    }
    tally.slowestMs = Math.max(tally.slowestMs, performance.now() - start);
  }
  if (tally.slowestMs > LONGEST_MS) tally.faults.push(`a file took ${Math.round(tally.slowestMs)} ms`);
  return tally;
}

/** By way of the texts, and directly where that is taken. */
function readBoth(bytes: Uint8Array, options: LogOptions): { log: ColumnLog | undefined; direct: ColumnLog | undefined } {
  const direct = readLogBytes(bytes, options);
  const text = decodeLog(bytes, 'The file');
  const read = text.ok ? readLog(text.value, options) : text;
  if (read.ok) return { log: columnsOfLog(read.value, text.ok ? shapeOfText(text.value) : ''), direct };
  if (!/^[^\n]+[.!?]$/.test(read.problem.message)) throw new Error(`no sentence: ${read.problem.message}`);
  return { log: undefined, direct };
}

function faultsOf(log: ColumnLog): readonly string[] {
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

function mutate(whole: readonly Uint8Array[], random: (below: number) => number): Uint8Array {
  let bytes = whole[random(whole.length)] ?? new Uint8Array();
  for (let times = 1 + random(5); times > 0; times -= 1) {
    const at = random(bytes.length + 1);
    const end = Math.min(bytes.length, at + random(24));
    const kind = random(8);
    if (kind === 0) bytes = joined(bytes.subarray(0, at), bytes.subarray(end));
    else if (kind === 1) bytes = joined(bytes.subarray(0, at), Uint8Array.from({ length: 1 + random(4) }, () => random(256)), bytes.subarray(at));
    else if (kind === 2) bytes = joined(bytes.subarray(0, end), bytes.subarray(at));
    else if (kind === 3) bytes = bytes.slice(0, at);
    else if (kind === 4) bytes = joined(bytes.subarray(0, at), (whole[random(whole.length)] ?? bytes).subarray(random(2000), 4000));
    else if (kind === 5) bytes = bytes.map((byte, index) => (index === at ? byte ^ (1 << random(8)) : byte));
    else bytes = joined(bytes.subarray(0, at), new TextEncoder().encode(PIECES[random(PIECES.length)]), bytes.subarray(kind === 6 ? at : end));
  }
  return bytes;
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  parts.reduce((at, part) => {
    all.set(part, at);
    return at + part.length;
  }, 0);
  return all;
}

/** Whole numbers below a bound; a linear congruential generator modulo 2^32 (Numerical Recipes, 2nd edition, section 7.1; from memory), its high bits taken. */
function randomFrom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

if (import.meta.main) {
  const [count = '200000', seed = '1'] = process.argv.slice(2);
  const result = readMutatedFiles(Number(count), Number(seed));
  process.stdout.write(`${JSON.stringify(result, null, 2)}\n`);
  if (result.faults.length > 0) process.exitCode = 1;
}
