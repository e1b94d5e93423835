/**
 * What a message of MQTT says: a plain number, or a number somewhere in a JSON text, with the time it was measured
 * where the message has one. The number's own text is kept, as 62.80 and not as 62.8.
 */
import { Temporal } from 'temporal-polyfill';
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { TemperatureUnit } from '../measures/temperature.ts';
import { isMissingWord, readNumber } from './log-cells.ts';
import { feedTemperature, shorten, type FeedValue } from './feed-value.ts';

/** No message with a temperature is longer. */
const LONGEST_PAYLOAD = 65_536;
const LONGEST_PATH = 200;
/** Seconds since 1970 reach this in the year 5138, milliseconds passed it in 1973. */
const SECONDS_END = 100_000_000_000;

/** A number of a JSON text as it was written. */
class WrittenNumber {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

/** One step into a JSON value: a key of an object, or a position of a list. */
export type PathStep = string | number;

/** A step: a bare name, one in quotes and brackets, or a position in brackets. */
const STEP = /(?:^|\.)([^.[\]"\s]+)|\[(\d{1,6})\]|\["((?:[^"\\]|\\.)*)"\]/y;

/**
 * Reads a path such as `t`, `sensors[0].value` or `["a.b"].v`; an empty one is the message itself. A `$` in front is let be.
 */
export function readPath(path: string): Outcome<readonly PathStep[]> {
  const text = path.trim().replace(/^\$(?:\.|(?=\[)|$)/, '');
  if (text.length > LONGEST_PATH) return bad('The path is too long.', undefined, `Write at most ${LONGEST_PATH} characters.`);
  const steps: PathStep[] = [];
  STEP.lastIndex = 0;
  while (STEP.lastIndex < text.length) {
    const match = STEP.exec(text);
    if (match === null) return bad(`“${shorten(path)}” is no path into a JSON text.`, undefined, 'Write names with points between them and positions in brackets, such as sensors[0].value.');
    const [, name, position, quoted] = match;
    if (position !== undefined) steps.push(Number(position));
    else if (quoted !== undefined) steps.push(quoted.replace(/\\(.)/g, '$1'));
    else if (name !== undefined) steps.push(name);
  }
  return good(steps);
}

export interface PayloadPaths {
  /** Where the temperature stands; empty: the message is the number itself. */
  readonly path: readonly PathStep[];
  /** Where its time stands; null where it has none. */
  readonly timePath: readonly PathStep[] | null;
  readonly unit: TemperatureUnit;
}

export interface PayloadRead {
  readonly value: FeedValue;
  /** When it was measured, by the message itself; null where it doesn't say. */
  readonly atMs: number | null;
  /** Why it has no time that can be used, though it should; null where all is well. */
  readonly timeFault: string | null;
}

/** Reads one message; whatever it holds, this answers. */
export function readPayload(bytes: Uint8Array, { path, timePath, unit }: PayloadPaths): PayloadRead {
  const text = textOf(bytes);
  if (text === undefined) return { value: { kind: 'missing', why: bytes.length > LONGEST_PAYLOAD ? `a message of ${bytes.length} bytes` : 'bytes that are no text' }, atMs: null, timeFault: null };
  const needsJson = path.length > 0 || (timePath !== null && timePath.length > 0);
  const whole = needsJson ? parseJson(text) : undefined;
  const value = valueAt(path.length === 0 ? text : whole === undefined ? undefined : stepInto(whole.value, path), unit, text);
  if (timePath === null) return { value, atMs: null, timeFault: null };
  const time = timeOf(whole === undefined ? undefined : stepInto(whole.value, timePath));
  return { value, atMs: time.ok ? time.value : null, timeFault: time.ok ? null : time.problem.message };
}

/** The message as text; undefined where it is none. */
function textOf(bytes: Uint8Array): string | undefined {
  if (bytes.length > LONGEST_PAYLOAD) return undefined;
  let coded = '';
  for (const byte of bytes) coded += `%${byte.toString(16).padStart(2, '0')}`;
  try {
    // It refuses what is no UTF-8, and needs nothing of Node or a page.
    return decodeURIComponent(coded).replace(/^\uFEFF/, '').trim();
  } catch {
    return undefined;
  }
}

function parseJson(text: string): { readonly value: unknown } | undefined {
  try {
    return { value: JSON.parse(text, keepNumbers) as unknown };
  } catch {
    return undefined;
  }
}

/** Called for each value of the text, with its own writing where it is a number. */
function keepNumbers(_key: string, value: unknown, context?: { readonly source?: string }): unknown {
  return typeof value === 'number' ? new WrittenNumber(context?.source ?? String(value)) : value;
}

function stepInto(value: unknown, path: readonly PathStep[]): unknown {
  return path.reduce<unknown>((inside, step) => {
    if (typeof step === 'number') return Array.isArray(inside) ? inside[step] : undefined;
    return typeof inside === 'object' && inside !== null && !Array.isArray(inside) && Object.hasOwn(inside, step) ? (inside as Record<string, unknown>)[step] : undefined;
  }, value);
}

function valueAt(found: unknown, unit: TemperatureUnit, payload: string): FeedValue {
  if (found instanceof WrittenNumber) return feedTemperature(found.text, unit);
  if (typeof found !== 'string') return { kind: 'missing', why: found === undefined ? `nothing there in “${shorten(payload)}”` : found === null ? 'null' : 'not a number' };
  const text = found.trim();
  if (text === '') return { kind: 'missing', why: 'empty' };
  if (isMissingWord(text)) return { kind: 'missing', why: `“${shorten(text)}”` };
  const number = readNumber(text);
  if (number === undefined) return { kind: 'missing', why: `“${shorten(text)}”` };
  if (number.unit !== undefined && number.unit !== unit) return { kind: 'missing', why: `“${shorten(text)}”, in the other unit` };
  return feedTemperature(number.decimal, unit);
}

/** An instant: seconds or milliseconds since 1970, or a date and time with its zone. Without a zone nobody knows when it was. */
function timeOf(found: unknown): Outcome<number> {
  const text = found instanceof WrittenNumber ? found.text : typeof found === 'string' ? found.trim() : undefined;
  if (text === undefined) return bad('it has no time where it should');
  if (/^\d{1,16}(?:\.\d{1,9})?$/.test(text)) {
    const count = Number(text);
    const atMs = Math.round(count < SECONDS_END ? count * 1000 : count);
    return atMs > 0 && atMs < 8_640_000_000_000_000 ? good(atMs) : bad(`its time is “${shorten(text)}”`);
  }
  const atMs = instantOf(text);
  return atMs === undefined || atMs <= 0 ? bad(`its time is “${shorten(text)}”, which has no zone or is no time`) : good(atMs);
}

/** A date and time with its zone, as ISO 8601 writes it; undefined for anything else. */
function instantOf(text: string): number | undefined {
  try {
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch {
    return undefined;
  }
}
