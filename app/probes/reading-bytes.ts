/**
 * Readings as bytes, exactly: every instant, tick and text comes back.
 *
 * Version 1, all numbers as `number-bytes.ts` writes them (u: from zero up, s: of either sign):
 *   u version (1) · u count · u unit (0 °C, 1 °F) · u form
 *   times: s first instant · u step · then for each further reading s (difference to the one before − the difference
 *     before that) / step, the step being the greatest number that divides all of those
 *   ticks: s first · u step · then for each further reading s (difference to the one before) / step, likewise
 *   form 0 or 2: u decimals; the mark of the decimals is a point (0) or a comma (2)
 *   form 1: for each reading u cut · u length · that many times u, the UTF-16 code units of its text
 * Times and ticks are written as a whole, one after the other, so that a general compressor finds their patterns.
 */
import { ticksPerStep } from './log-byte-cells.ts';
import { ByteReader, ByteWriter, greatestDivisor } from './number-bytes.ts';
import { textAt, type PlainTexts, type ReadingColumns } from './reading-columns.ts';

const VERSION = 1;
/** Nearly every difference of two ticks takes one byte. */
const BYTES_A_TICK = 1.125;
const UNITS = ['C', 'F'] as const;

/** The bytes of some instants as they stand in those of readings. */
export function bytesOfTimes(atMs: Float64Array): Uint8Array {
  const writer = new ByteWriter(64 + 2 * atMs.length);
  writeTimes(writer, atMs);
  return writer.finish();
}

/**
 * The bytes of some readings.
 * @param times of their instants, where they are known
 */
export function bytesOfReadings(columns: ReadingColumns, times = bytesOfTimes(columns.atMs)): Uint8Array {
  const { lowTicks, cut, texts, unit } = columns;
  const writer = new ByteWriter(64 + times.length + Math.ceil(BYTES_A_TICK * lowTicks.length));
  const plain = cut === null && 'decimals' in texts ? texts : undefined;
  for (const value of [VERSION, lowTicks.length, UNITS.indexOf(unit), formOf(plain)]) writer.writeUnsigned(value);
  writer.writeBytes(times);
  writeTicks(writer, lowTicks, plain === undefined ? 1 : (ticksPerStep(unit)[plain.decimals] ?? 1));
  if (plain !== undefined) writer.writeUnsigned(plain.decimals);
  else writeTexts(writer, columns);
  return writer.finish();
}

/** The readings of some bytes; throws where they are damaged, or of a version that isn't known. */
export function readingsOfBytes(bytes: Uint8Array): ReadingColumns {
  const reader = new ByteReader(bytes);
  const version = reader.readUnsigned();
  if (version !== VERSION) throw new Error(`Readings of version ${version} are not known here.`);
  const count = reader.readUnsigned();
  const unit = UNITS[reader.readUnsigned()];
  const form = reader.readUnsigned();
  if (unit === undefined) throw new Error('The unit of the readings is damaged.');
  const atMs = readTimes(reader, count);
  const lowTicks = readTicks(reader, count);
  const rest = form === 1 ? readTexts(reader, count) : { cut: null, texts: { decimals: reader.readUnsigned(), mark: form === 2 ? ',' as const : '.' as const } };
  if (!reader.isAtEnd) throw new Error('There are more bytes than readings.');
  return { unit, atMs, lowTicks, ...rest };
}

function formOf(plain: PlainTexts | undefined): number {
  if (plain === undefined) return 1;
  return plain.mark === ',' ? 2 : 0;
}

/** Each time is written by how much its difference to the one before differs from the difference before that; the first from none. */
function writeTimes(writer: ByteWriter, atMs: Float64Array): void {
  const step = stepOfTimes(atMs);
  writer.writeSigned(atMs[0] ?? 0);
  writer.writeUnsigned(step);
  const divisor = Math.max(1, step);
  let before = 0;
  for (let index = 1; index < atMs.length; index += 1) {
    const difference = (atMs[index] ?? 0) - (atMs[index - 1] ?? 0);
    if (difference === before) writer.writeUnsigned(0);
    else writer.writeSigned((difference - before) / divisor);
    before = difference;
  }
}

function stepOfTimes(atMs: Float64Array): number {
  let [step, before] = [0, 0];
  for (let index = 1; index < atMs.length; index += 1) {
    const difference = (atMs[index] ?? 0) - (atMs[index - 1] ?? 0);
    if (difference !== before) step = greatestDivisor(step, difference - before);
    before = difference;
  }
  return step;
}

function readTimes(reader: ByteReader, count: number): Float64Array {
  const values = new Float64Array(count);
  let value = reader.readSigned();
  const step = reader.readUnsigned();
  let difference = 0;
  if (count > 0) values[0] = value;
  for (let index = 1; index < count; index += 1) {
    difference += reader.readSigned() * Math.max(1, step);
    value += difference;
    values[index] = value;
  }
  return values;
}

/** @param least what divides all differences in any case: that of a number's last digit */
function writeTicks(writer: ByteWriter, ticks: Int32Array, least: number): void {
  const step = stepOfTicks(ticks, least);
  writer.writeSigned(ticks[0] ?? 0);
  writer.writeUnsigned(step);
  writer.writeDifferences(ticks, Math.max(1, step));
}

function stepOfTicks(ticks: Int32Array, least: number): number {
  let step = 0;
  for (let index = 1; index < ticks.length && step !== least; index += 1) {
    const difference = (ticks[index] ?? 0) - (ticks[index - 1] ?? 0);
    // The step is nearly always known after a few readings.
    if (step === 0 || difference % step !== 0) step = greatestDivisor(step, difference);
  }
  return step;
}

function readTicks(reader: ByteReader, count: number): Int32Array {
  const ticks = new Int32Array(count);
  let value = reader.readSigned();
  const step = Math.max(1, reader.readUnsigned());
  if (count > 0) ticks[0] = value;
  for (let index = 1; index < count; index += 1) {
    value += reader.readSigned() * step;
    ticks[index] = value;
  }
  return ticks;
}

function writeTexts(writer: ByteWriter, columns: ReadingColumns): void {
  columns.lowTicks.forEach((_ticks, index) => {
    const text = textAt(columns, index);
    writer.writeUnsigned(columns.cut?.[index] ?? 0);
    writer.writeUnsigned(text.length);
    for (let at = 0; at < text.length; at += 1) writer.writeUnsigned(text.charCodeAt(at));
  });
}

function readTexts(reader: ByteReader, count: number): { cut: Uint8Array | null; texts: readonly string[] } {
  const cut = new Uint8Array(count);
  const texts: string[] = [];
  for (let index = 0; index < count; index += 1) {
    cut[index] = reader.readUnsigned();
    const length = reader.readUnsigned();
    texts.push(Array.from({ length }, () => String.fromCharCode(reader.readUnsigned())).join(''));
  }
  return { cut: cut.some((each) => each !== 0) ? cut : null, texts };
}
