/** One cell of a log: a number with or without its unit, a word for "no reading", or something else. */
import { ticksFromDecimal, type TemperatureUnit, type TickBounds } from '../measures/temperature.ts';

export interface NumberCell {
  readonly kind: 'number';
  /** The number as written, without a unit suffix. */
  readonly text: string;
  /** The same with a point and plain signs, for exact reading. */
  readonly decimal: string;
  readonly value: number;
  /** The unit written behind the number, if any. */
  readonly unit: TemperatureUnit | undefined;
  /** The exact ticks in a unit, worked out once. */
  readonly ticksIn: (unit: TemperatureUnit) => TickBounds;
}

export type ValueCell = NumberCell | { readonly kind: 'blank' } | { readonly kind: 'missing' } | { readonly kind: 'other' };

const BLANK: ValueCell = { kind: 'blank' };
const MISSING: ValueCell = { kind: 'missing' };
const OTHER: ValueCell = { kind: 'other' };

/** Longer than any number a logger writes; keeps exact arithmetic on nonsense short. */
const LONGEST_NUMBER = 40;
/** Float32 in scientific writing stays far below; beyond, a number is nonsense and costly to hold exactly. */
const LARGEST_EXPONENT = 15;
/** No thermometer of a kitchen goes there; a number beyond is another thing in the wrong column. */
const LARGEST_VALUE = 1_000_000;

/** Words loggers write where there is no reading (common practice, gathered from instruments' manuals; from memory). */
const MISSING_WORDS: ReadonlySet<string> = new Set([
  'nan', 'n/a', 'n.a.', 'na', 'nil', 'null', 'none', 'ol', '+ol', '-ol', 'o.l', '0l', '0.l', 'overload', 'over', 'under', 'open',
  'opn', 'short', 'shrt', 'err', 'error', 'fault', 'fail', 'failed', 'missing', 'no data', 'nodata', 'no probe', 'noprobe',
  'no sensor', 'nosensor', 'no signal', 'not connected', 'disconnected', 'unplugged', 'offline', 'void', 'inf', '+inf', '-inf',
  'infinity', '-infinity', 'hi', 'lo', 'hhh', 'lll', '?', '??', '???', '*', '**', '***', '****', '#n/a', '#nv', '#value!',
  '#wert!', '#div/0!', '#ref!', '#num!', '#name?', '#null!', '0x7fff', '0x8000', '.',
]);

/** Numbers that stand for "no sensor" in instruments' firmware (common practice; −127 is the one-wire sensor's). */
const MISSING_NUMBERS: ReadonlySet<number> = new Set([-999, 9999, -9999, 999.9, -999.9, 32_767, -32_768, 65_535, -127]);

const DASHES = /^[-–—_]+(?:[.,:][-–—_]+)*$/;
const HASHES = /^#+$/;
const NUMBER = /^([+\-−]?)(\d*)(?:([.,])(\d*))?(?:[eE]([+-]?\d{1,3}))?(?![\d.,])\s*(.*)$/;
const UNIT_WORD = /^(?:[°º˚\uFFFD]|Â°|deg(?:rees?)?\.?)?\s*(c|f|cel|celsius|centigrade|fahrenheit)$/i;
const DEGREE_ONLY = /^(?:[°º˚\uFFFD]|Â°|deg(?:rees?)?\.?)$/i;

/** The unit that a word such as `°F`, `degC`, `Cel` or `Fahrenheit` names; mended for the broken `Â°C`. */
export function unitFromWord(word: string): TemperatureUnit | undefined {
  if (word.length > 20) return undefined;
  const match = UNIT_WORD.exec(word.trim());
  if (match === null) return undefined;
  return match[1]?.toLowerCase().startsWith('f') === true ? 'F' : 'C';
}

/** Whether a word stands for "no reading here". An empty cell is blank, not a word. */
export function isMissingWord(text: string): boolean {
  if (text.length === 0 || text.length > 30) return false;
  return MISSING_WORDS.has(text.toLowerCase()) || DASHES.test(text) || HASHES.test(text);
}

/** Reads one trimmed cell as a temperature: point or comma for the decimals, no thousands marks, an optional unit behind. */
export function readValueCell(cell: string): ValueCell {
  if (cell === '') return BLANK;
  if (isMissingWord(cell)) return MISSING;
  const number = readNumber(cell);
  if (number !== undefined) return MISSING_NUMBERS.has(number.value) ? MISSING : number;
  const bare = cell.length > LONGEST_NUMBER ? cell : cell.replace(/\s*(?:[°º˚\uFFFD]|Â°|deg\.?)\s*[CF]?$/i, '');
  return bare !== cell && isMissingWord(bare) ? MISSING : OTHER;
}

/** A number as most cells write it; above this some stand for “no sensor”. */
const USUAL = /^(?:0|-?[1-9]\d{0,2})(?:\.\d{1,3})?$/;
const LARGEST_USUAL = 126;

/** The value of a cell that is a usual temperature; `undefined` where `readValueCell` must look. */
export function usualValue(cell: string): number | undefined {
  if (cell.length > 8 || !USUAL.test(cell)) return undefined;
  const value = Number(cell);
  return Math.abs(value) < LARGEST_USUAL ? value : undefined;
}

/** As `readValueCell` without the words and numbers for "no reading": times and counts. */
export function readNumber(cell: string): NumberCell | undefined {
  if (cell.length > LONGEST_NUMBER) return undefined;
  const match = NUMBER.exec(cell);
  if (match === null) return undefined;
  const [, sign = '', whole = '', mark = '', fraction = '', exponent = '', rest = ''] = match;
  if ((whole === '' && fraction === '') || Math.abs(Number(exponent)) > LARGEST_EXPONENT) return undefined;
  const unit = rest === '' ? undefined : unitFromWord(rest);
  if (rest !== '' && unit === undefined && !DEGREE_ONLY.test(rest)) return undefined;
  const decimal = `${sign === '' || sign === '+' ? '' : '-'}${whole === '' ? '0' : whole}${fraction === '' ? '' : `.${fraction}`}${exponent === '' ? '' : `e${exponent}`}`;
  const text = cell.slice(0, cell.length - rest.length).trimEnd();
  const value = Number(decimal);
  return { kind: 'number', text: mark === '' ? text : text.replace(/[.,]$/, ''), decimal, value: value === 0 ? 0 : value, unit, ticksIn: rememberingTicks(decimal) };
}

function rememberingTicks(decimal: string): (unit: TemperatureUnit) => TickBounds {
  const known: { F?: TickBounds; C?: TickBounds } = {};
  return (unit) => {
    const before = known[unit];
    if (before !== undefined) return before;
    const ticks = ticksFromDecimal(decimal, unit);
    if (!ticks.ok) throw new Error(`a number that was read is no temperature: ${decimal}`);
    known[unit] = ticks.value;
    return ticks.value;
  };
}

/** Whether a number can be a temperature at all (not: whether it is likely). */
export function isThinkable(cell: NumberCell): boolean {
  return Math.abs(cell.value) < LARGEST_VALUE;
}

/** `readValueCell` with a memory: a log has few different cells and many of them. */
export function rememberingValueReader(): (cell: string) => ValueCell {
  const memory = new Map<string, ValueCell>();
  return (cell) => {
    const known = memory.get(cell);
    if (known !== undefined) return known;
    const read = readValueCell(cell);
    if (memory.size > 100_000) memory.clear();
    memory.set(cell, read);
    return read;
  };
}

/** A cell as it is quoted in a sentence: shortened, without line breaks. */
export function quoteCell(cell: string): string {
  const plain = cell.replace(/\s+/g, ' ');
  return `“${plain.length > 40 ? `${plain.slice(0, 40)}…` : plain}”`;
}
