/** What reading a thermometer's log gives: columns, open questions, places with points, and what was refused. */
import type { TemperatureUnit } from '../measures/temperature.ts';

/**
 * What a column holds. `time` is a whole moment (text, epoch or spreadsheet serial); `date` and
 * `clock` go together; `elapsed` counts from a start; `channel` and `unit` occur in long files.
 */
export const LOG_ROLES = ['time', 'date', 'clock', 'elapsed', 'reading', 'note', 'ignore', 'channel', 'unit'] as const;
export type LogRole = (typeof LOG_ROLES)[number];

export interface LogColumn {
  /** From 0, left to right. */
  readonly index: number;
  /** As written in the file, trimmed; empty when the file has no heading here. */
  readonly heading: string;
  readonly role: LogRole;
  /** Of a reading column; `null` for other roles, while undecided, and where each channel has its own. */
  readonly unit: TemperatureUnit | null;
}

export interface LogChoice {
  readonly id: string;
  readonly text: string;
}

/** Something the text can't be read without. No choices means that a text is typed. */
export interface LogQuestion {
  readonly id: string;
  readonly text: string;
  readonly choices: readonly LogChoice[];
  readonly column?: number;
}

/** One measuring point: parallel arrays, one entry a reading, in the order of the file. */
export interface LogPlace {
  readonly name: string;
  readonly unit: TemperatureUnit;
  /** The reading column it comes from. */
  readonly column: number;
  /** Instants, UTC milliseconds. */
  readonly atMs: readonly number[];
  /** The numbers as written, without a unit suffix (`62,80`). */
  readonly texts: readonly string[];
  /** The same as plain numbers in `unit`; for drawing and for outside forms, never compared. */
  readonly values: readonly number[];
  /** Exact ticks of 1/9000 °C; low and high differ by one only where the text has more decimals than a tick holds. */
  readonly lowTicks: readonly number[];
  readonly highTicks: readonly number[];
  /** Line in the file, from 1. */
  readonly lines: readonly number[];
}

export interface RefusedRow {
  /** From 1 in the file. */
  readonly line: number;
  readonly reason: string;
}

/** Something to look at; nothing was left out because of it. */
export interface LogRemark {
  readonly line?: number;
  readonly text: string;
}

/** Every line of the file, once: `lines = opening + blank + read + refused`. */
interface LogCounts {
  readonly lines: number;
  /** Lines before the first data row that aren't blank: what the logger says of itself, headings, units. */
  readonly opening: number;
  readonly blank: number;
  readonly read: number;
  readonly refused: number;
}

export interface LogReading {
  readonly columns: readonly LogColumn[];
  /** While one is open `places` is empty. */
  readonly questions: readonly LogQuestion[];
  readonly places: readonly LogPlace[];
  readonly refusedRows: readonly RefusedRow[];
  readonly remarks: readonly LogRemark[];
  readonly counts: LogCounts;
}

export interface LogOptions {
  /** Only for sentences; never parsed. */
  readonly fileName?: string | undefined;
  /** IANA zone (`America/Anchorage`), `UTC` or a fixed offset (`-08:00`) for times written without one. */
  readonly timeZone?: string | undefined;
  /** Question id to choice id or typed text. */
  readonly answers?: Readonly<Record<string, string>> | undefined;
}
