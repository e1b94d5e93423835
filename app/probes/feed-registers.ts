/**
 * Registers of a Modbus device as temperatures: which registers to ask for, and what their bits say. The numbers stay
 * exact: a float of 32 bits is a whole number over a power of two, and so has an end as a decimal too.
 *
 * Registers are 16 bits wide, the high byte first, at most 125 in one request, and numbered from 0 on the wire, while
 * papers print 40001 and 30001 for the first of the two tables (Modbus Organization, Modbus Application Protocol
 * V1.1b3, 4.4 and 6.3, 2012; from memory). In which order the halves of 32 bits come no standard says.
 */
import { add, decimalFrom, isDecimal, multiply, type Decimal } from '../limits/decimals.ts';
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { TemperatureUnit } from '../measures/temperature.ts';
import { decimalText, feedTemperature, type FeedValue } from './feed-value.ts';

export const REGISTER_TYPES = ['int16', 'uint16', 'int32', 'float32'] as const;
export type RegisterType = (typeof REGISTER_TYPES)[number];
/** The bytes of 145.0 as float32, 43 11 00 00, come as they stand, as 00 00 43 11, as 11 43 00 00, or as 00 00 11 43. */
export const REGISTER_ORDERS = ['big', 'word-swapped', 'byte-swapped', 'little'] as const;
export type RegisterOrder = (typeof REGISTER_ORDERS)[number];
export type RegisterTable = 'holding' | 'input';

export interface RegisterReading {
  readonly type: RegisterType;
  readonly order: RegisterOrder;
  /** What the number is multiplied by, and what is added then: plain decimals. */
  readonly scale: string;
  readonly offset: string;
  readonly unit: TemperatureUnit;
}

/** Stand for “no sensor” before any scaling (common practice of makers, from memory). */
const MISSING: Readonly<Record<Exclude<RegisterType, 'float32'>, readonly number[]>> = {
  int16: [32_767, -32_768],
  uint16: [32_767, 32_768, 65_535],
  int32: [2_147_483_647, -2_147_483_648],
};
/** No thermometer tells a degree's millionth: a number that small, and not 0, comes of halves in the wrong order. */
const SMALLEST_FLOAT = 1e-6;
const LARGEST_REGISTER = 65_535;
const HOLDING_BASES = [400_001, 40_001] as const;
const INPUT_BASES = [300_001, 30_001] as const;

/** How many registers a number of this type takes. */
export function registersOf(type: RegisterType): 1 | 2 {
  return type === 'int16' || type === 'uint16' ? 1 : 2;
}

/**
 * The number on the wire of a register as its paper prints it.
 * @param countsFrom whether the paper's first register is 0 or 1; counted from 1, 40012 is the twelfth holding register
 */
export function wireAddress(register: number, countsFrom: 0 | 1, table: RegisterTable, type: RegisterType): Outcome<number> {
  const address = countsFrom === 0 ? register : fromPaper(register, table);
  if (typeof address !== 'number') return address;
  if (Number.isInteger(address) && address >= 0 && address + registersOf(type) - 1 <= LARGEST_REGISTER) return good(address);
  return bad(`There is no register ${register}.`, undefined, `Registers are counted from ${countsFrom} to ${LARGEST_REGISTER + countsFrom}; look at the device’s list of registers.`);
}

function fromPaper(register: number, table: RegisterTable): number | Outcome<number> {
  const holding = baseOf(register, HOLDING_BASES);
  const input = baseOf(register, INPUT_BASES);
  if (holding === undefined && input === undefined) return register - 1;
  if (holding !== undefined && table === 'holding') return register - holding;
  if (input !== undefined && table === 'input') return register - input;
  return bad(`Register ${register} is ${holding === undefined ? 'an input' : 'a holding'} register by its number.`, undefined, 'Choose that table, or check the number.');
}

function baseOf(register: number, bases: readonly [long: number, short: number]): number | undefined {
  const [long, short] = bases;
  if (register >= long && register <= long + LARGEST_REGISTER) return long;
  return register >= short && register < short + 9999 ? short : undefined;
}

/** Whether a text can be a scale or an offset: a decimal of at most six places either side. */
export function isScaling(text: string): boolean {
  return isDecimal(text) && /^[+-]?\d{1,6}(?:\.\d{1,6})?$/.test(text.trim());
}

/** The temperature in one or two registers, in the order they came. */
export function temperatureOfRegisters(registers: readonly number[], { type, order, scale, offset, unit }: RegisterReading): FeedValue {
  const raw = rawNumber(bitsOf(registers, order), type);
  if (raw.kind === 'missing') return raw;
  const scaled = add(multiply(raw.number, decimalFrom(scale)), decimalFrom(offset));
  const value = feedTemperature(decimalText(scaled), unit);
  return value.kind === 'missing' ? { kind: 'missing', why: decimalText(raw.number) === value.why ? value.why : `${decimalText(raw.number)}, which makes ${value.why}` } : value;
}

/** The bits as one whole number without sign, the most significant first. */
function bitsOf(registers: readonly number[], order: RegisterOrder): number {
  const words = order === 'word-swapped' || order === 'little' ? registers.toReversed() : registers;
  const swap = order === 'byte-swapped' || order === 'little';
  return words.reduce((bits, word) => bits * 65_536 + (swap ? ((word & 0xff) << 8) | (word >> 8) : word), 0);
}

type RawNumber = { readonly kind: 'number'; readonly number: Decimal } | { readonly kind: 'missing'; readonly why: string };

function rawNumber(bits: number, type: RegisterType): RawNumber {
  if (type === 'float32') return floatOf(bits);
  const size = type === 'int32' ? 32 : 16;
  const whole = type !== 'uint16' && bits >= 2 ** (size - 1) ? bits - 2 ** size : bits;
  return MISSING[type].includes(whole) ? { kind: 'missing', why: String(whole) } : { kind: 'number', number: { digits: BigInt(whole), scale: 0 } };
}

/** A float of IEEE 754 (binary32): sign, eight bits of exponent, 23 of fraction. */
function floatOf(bits: number): RawNumber {
  const bytes = new DataView(new ArrayBuffer(4));
  bytes.setUint32(0, bits);
  const value = bytes.getFloat32(0);
  if (!Number.isFinite(value)) return { kind: 'missing', why: Number.isNaN(value) ? 'not a number' : 'infinite' };
  if (value !== 0 && Math.abs(value) < SMALLEST_FLOAT) return { kind: 'missing', why: value.toExponential(1) };
  let places = 0;
  let whole = value;
  // Doubling a float is exact, and ends: it has at most 23 bits of fraction below its first.
  while (!Number.isInteger(whole)) {
    whole *= 2;
    places += 1;
  }
  return { kind: 'number', number: { digits: BigInt(whole) * 5n ** BigInt(places), scale: places } };
}

/** A stretch of registers to ask for at once. */
export interface RegisterRequest {
  readonly table: RegisterTable;
  readonly address: number;
  readonly count: number;
}

const MOST_REGISTERS = 125;

/** As few requests as there can be without asking for a register that nobody named: some devices refuse a stretch for one they don't have. */
export function requestsFor(wanted: readonly RegisterRequest[]): RegisterRequest[] {
  const requests: RegisterRequest[] = [];
  for (const next of wanted.toSorted((one, other) => one.table.localeCompare(other.table) || one.address - other.address)) {
    const last = requests.at(-1);
    const end = next.address + next.count;
    if (last === undefined || last.table !== next.table || next.address > last.address + last.count || end - last.address > MOST_REGISTERS) requests.push(next);
    else requests[requests.length - 1] = { ...last, count: Math.max(last.count, end - last.address) };
  }
  return requests;
}
