/** Papers on file: permissions, certificates, statements, checks of thermometers; whether one was valid when it counted, and until when it is. */
import type { JudgeCase } from './judge-case.ts';
import type { Words } from './words.ts';

export const FILED_KINDS = [
  'permission', 'variance', 'training', 'fed-pellets', 'frozen-by-supplier', 'probe-check', 'ice-check', 'manager-initials', 'film',
] as const;
export type FiledKind = (typeof FILED_KINDS)[number];

export interface FiledRecord {
  readonly what: FiledKind;
  /** The paper's own number; of a check of a thermometer the thermometer's, of a film the film's. */
  readonly number: string;
  /** Whom it names: the kitchen, the trained person, the supplier, who checked the thermometer. */
  readonly holder: string;
  /** Absent: valid from when it was put on file. Of a check of a thermometer: when it was made. */
  readonly validFromMs?: number | undefined;
  /** The last moment it is valid; absent: it names no end. */
  readonly validUntilMs?: number | undefined;
  readonly onFileMs: number;
  /** Scientific names that a supplier's statement names. */
  readonly species?: readonly string[] | undefined;
  /** The freezing that a supplier's statement states; decimals as text. */
  readonly frozen?: { readonly value: string; readonly unit: 'F' | 'C'; readonly hours: string } | undefined;
  /** What a film lets through, cc/m² a day at 24 °C and 1 atm; decimal text. */
  readonly oxygenRate?: string | undefined;
}

/** Whether a paper counts, and a sentence on it: which, until when, or what is missing. */
export interface Standing {
  readonly isValid: boolean;
  readonly text: string;
  readonly record?: FiledRecord | undefined;
}

/** From when to when a paper must have been valid. */
export interface ValidSpan {
  readonly fromMs: number;
  readonly toMs: number;
}

export const FILED_WORDS: Readonly<Record<FiledKind, string>> = {
  permission: 'permission', variance: 'variance', training: 'training certificate', 'fed-pellets': 'supplier’s statement that it was fed pellets',
  'frozen-by-supplier': 'supplier’s statement of freezing', 'probe-check': 'check of the thermometer', 'ice-check': 'ice check',
  'manager-initials': 'manager’s initials', film: 'oxygen figure of the film',
};

/**
 * The paper of a kind that was valid over the whole span, the one that lasts longest first; else what
 * is missing or expired.
 */
export function standingOf(records: readonly FiledRecord[], what: FiledKind, span: ValidSpan, words: Words): Standing {
  const name = FILED_WORDS[what];
  const found = records.filter((record) => record.what === what).toSorted((left, right) => endOf(right) - endOf(left) || startOf(left) - startOf(right) || (left.number < right.number ? -1 : 1));
  const valid = found.find((record) => isValidOver(record, span));
  if (valid !== undefined) return { isValid: true, record: valid, text: `${titleOf(valid)}, ${valid.validUntilMs === undefined ? 'without an end' : `valid until ${words.day(valid.validUntilMs)}`}${lateText(valid, span, words)}.` };
  const [latest] = found;
  if (latest === undefined) return { isValid: false, text: `No ${name} is on file.` };
  if (endOf(latest) < span.fromMs) return { isValid: false, record: latest, text: `${titleOf(latest)} expired on ${words.day(endOf(latest))}.` };
  if (endOf(latest) < span.toMs) return { isValid: false, record: latest, text: `${titleOf(latest)} expired on ${words.day(endOf(latest))}, before the batch was finished.` };
  return { isValid: false, record: latest, text: `${titleOf(latest)} is valid only from ${words.day(startOf(latest))}.` };
}

/** When the batch was made: from its soak or chamber to its sealing; undefined where nothing tells. */
export function batchSpan(judged: JudgeCase): ValidSpan | undefined {
  const { process, soak } = judged.records;
  const readings = judged.points.flatMap((point) => (point.record === undefined || point.record === 'process' ? point.readings : []));
  const firstMs = readings.reduce<number | undefined>((first, { atMs }) => (first === undefined || atMs < first ? atMs : first), undefined);
  const marks = [soak.inMs, process.inMs].filter((ms) => ms !== undefined);
  const fromMs = marks.length > 0 ? Math.min(...marks) : firstMs;
  return fromMs === undefined ? undefined : { fromMs, toMs: Math.max(fromMs, process.outMs ?? fromMs, judged.sealedMs ?? fromMs) };
}

/** Whether a paper was valid over the whole span. */
export function isValidOver(record: FiledRecord, span: ValidSpan): boolean {
  return startOf(record) <= span.fromMs && endOf(record) >= span.toMs;
}

/** From when a paper counts. */
export function startOf(record: FiledRecord): number {
  return record.validFromMs ?? record.onFileMs;
}

function endOf(record: FiledRecord): number {
  return record.validUntilMs ?? Number.MAX_SAFE_INTEGER;
}

function titleOf({ what, number, holder }: FiledRecord): string {
  const name = FILED_WORDS[what];
  return `${name.charAt(0).toUpperCase()}${name.slice(1)} ${number} (${holder})`;
}

/** A paper that was put on file afterwards is said to be. */
function lateText(record: FiledRecord, span: ValidSpan, words: Words): string {
  return record.onFileMs > span.toMs ? `, put on file on ${words.day(record.onFileMs)}` : '';
}
