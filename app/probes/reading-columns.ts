/** Many readings of one point, column by column: what is kept long takes few bytes this way, and is read fast. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { TICKS_PER_CELSIUS, TICKS_PER_FAHRENHEIT } from '../measures/temperature.ts';

/**
 * How the numbers stood in their source, where all of a stretch stood alike: so many decimals, after a point or a
 * comma, with a minus sign where below zero and nothing else. From it and the ticks each text comes back exactly.
 */
export interface PlainTexts {
  readonly decimals: number;
  readonly mark: '.' | ',';
}

/** Readings in the order of keeping. */
export interface ReadingColumns {
  readonly unit: TemperatureUnit;
  /** Instants in ms since 1970 UTC. */
  readonly atMs: Float64Array;
  readonly lowTicks: Int32Array;
  /** 1 where the number as written lies between two ticks; null where none does. */
  readonly cut: Uint8Array | null;
  readonly texts: PlainTexts | readonly string[];
}

/** How the instants of an array lie. */
export interface InstantSpan {
  readonly firstMs: number;
  readonly lastMs: number;
  /** Each is later than the one before. */
  readonly isRising: boolean;
}

/** Columns of a file share their instants, and they are asked for again and again. */
const spans = new WeakMap<Float64Array, InstantSpan>();

/** From when to when some instants reach, from +Infinity to −Infinity where there is none. Nobody changes an array that was asked about. */
export function spanOfInstants(atMs: Float64Array): InstantSpan {
  const known = spans.get(atMs);
  if (known !== undefined) return known;
  let [firstMs, lastMs, isRising] = [Infinity, -Infinity, true];
  for (let index = 0; index < atMs.length; index += 1) {
    const at = atMs[index] ?? 0;
    if (at <= lastMs) isRising = false;
    if (at < firstMs) firstMs = at;
    if (at > lastMs) lastMs = at;
  }
  const span = { firstMs, lastMs, isRising };
  spans.set(atMs, span);
  return span;
}

/** The text of one reading, as it stood in its source. */
export function textAt(columns: ReadingColumns, index: number): string {
  const { texts } = columns;
  if (isList(texts)) return texts[index] ?? '';
  return plainText(columns.lowTicks[index] ?? 0, columns.unit, texts) ?? '';
}

/** A temperature that lies on a tick as text with so many decimals; undefined where it needs more. */
export function plainText(ticks: number, unit: TemperatureUnit, { decimals, mark }: PlainTexts): string | undefined {
  const perDegree = unit === 'C' ? TICKS_PER_CELSIUS : TICKS_PER_FAHRENHEIT;
  const shifted = unit === 'C' ? ticks : ticks + 32 * TICKS_PER_FAHRENHEIT;
  const scale = 10 ** decimals;
  const scaled = Math.abs(shifted) * scale;
  if (scaled % perDegree !== 0) return undefined;
  const whole = scaled / perDegree;
  const sign = shifted < 0 ? '-' : '';
  if (decimals === 0) return `${sign}${whole}`;
  return `${sign}${Math.floor(whole / scale)}${mark}${String(whole % scale).padStart(decimals, '0')}`;
}

/** Rows as columns; texts are kept as such only where they can't be told from the ticks. */
export function columnsOf(rows: readonly { readonly atMs: number; readonly lowTicks: number; readonly highTicks: number; readonly text: string }[], unit: TemperatureUnit): ReadingColumns {
  const atMs = new Float64Array(rows.length);
  const lowTicks = new Int32Array(rows.length);
  const cut = new Uint8Array(rows.length);
  rows.forEach((row, index) => {
    atMs[index] = row.atMs;
    lowTicks[index] = row.lowTicks;
    cut[index] = row.highTicks - row.lowTicks;
  });
  const hasCut = cut.some((each) => each !== 0);
  const plain = hasCut ? undefined : plainOf(rows[0]?.text ?? '');
  const isPlain = plain !== undefined && rows.every((row) => plainText(row.lowTicks, unit, plain) === row.text);
  return { unit, atMs, lowTicks, cut: hasCut ? cut : null, texts: isPlain ? plain : rows.map((row) => row.text) };
}

/** The form of a number as written, where it is plain. */
function plainOf(text: string): PlainTexts | undefined {
  const found = /^-?\d+(?:([.,])(\d{1,4}))?$/.exec(text);
  if (found === null) return undefined;
  return { decimals: found[2]?.length ?? 0, mark: found[1] === ',' ? ',' : '.' };
}

/** A part of the columns, from one index to before another; shares its numbers with the whole. */
export function sliceColumns({ unit, atMs, lowTicks, cut, texts }: ReadingColumns, from: number, to: number): ReadingColumns {
  return { unit, atMs: atMs.subarray(from, to), lowTicks: lowTicks.subarray(from, to), cut: cut?.subarray(from, to) ?? null, texts: isList(texts) ? texts.slice(from, to) : texts };
}

function isList(texts: ReadingColumns['texts']): texts is readonly string[] {
  return Array.isArray(texts);
}
