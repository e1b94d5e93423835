import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ticksFromDecimal } from '../../app/measures/temperature.ts';
import { ByteReader, ByteWriter } from '../../app/probes/number-bytes.ts';
import { bytesOfReadings, readingsOfBytes } from '../../app/probes/reading-bytes.ts';
import { columnsOf, sliceColumns, textAt } from '../../app/probes/reading-columns.ts';

interface Row {
  readonly atMs: number;
  readonly lowTicks: number;
  readonly highTicks: number;
  readonly text: string;
}

function rowOf(atMs: number, text: string, unit: 'F' | 'C'): Row {
  const ticks = ticksFromDecimal(text.replace(',', '.'), unit);
  if (!ticks.ok) throw new Error(text);
  return { atMs, ...ticks.value, text };
}

function backAgain(rows: readonly Row[], unit: 'F' | 'C'): Row[] {
  const columns = readingsOfBytes(bytesOfReadings(columnsOf(rows, unit)));
  expect(columns.unit).toBe(unit);
  return [...columns.atMs].map((atMs, index) => {
    const lowTicks = columns.lowTicks[index] ?? Number.NaN;
    return { atMs, lowTicks, highTicks: lowTicks + (columns.cut?.[index] ?? 0), text: textAt(columns, index) };
  });
}

const instants = fc.integer({ min: -1e12, max: 4e12 });
const units = fc.constantFrom('F' as const, 'C' as const);

describe('Readings as bytes', () => {
  it('come back with every instant, tick and text, in any order and of any form', () => {
    const texts = fc.tuple(fc.integer({ min: -400, max: 1500 }), fc.string({ unit: fc.constantFrom(...'0123456789'), maxLength: 4 }), fc.constantFrom('.', ',')).map(([whole, part, mark]) => (part === '' ? `${whole}` : `${whole}${mark}${part}`));
    fc.assert(fc.property(units, fc.array(fc.tuple(instants, texts), { maxLength: 60 }), (unit, list) => {
      const rows = list.map(([atMs, text]) => rowOf(atMs, text, unit));
      expect(backAgain(rows, unit)).toEqual(rows);
    }));
  });

  it('of one form keep no text of their own, and give each one back', () => {
    fc.assert(fc.property(units, fc.constantFrom(0, 1, 2), fc.constantFrom('.', ','), fc.array(fc.tuple(instants, fc.integer({ min: -3000, max: 14_000 })), { minLength: 1, maxLength: 60 }), (unit, decimals, mark, list) => {
      const rows = list.map(([atMs, tenths]) => rowOf(atMs, (tenths / 10).toFixed(decimals).replace('.', mark).replace(/^-(0([.,]0+)?)$/, '$1'), unit));
      expect(Array.isArray(columnsOf(rows, unit).texts)).toBe(false);
      expect(backAgain(rows, unit)).toEqual(rows);
    }));
  });

  it('keep a text that says more than its number: a sign, a leading zero, a unit, other letters', () => {
    const rows = ['+62.8', '062.8', '62.80 °C', '62·8', '-0.0', ''].map((text, index) => ({ atMs: index, lowTicks: 565_200, highTicks: 565_200, text }));
    expect(backAgain(rows, 'C')).toEqual(rows);
  });

  it('that lie by any number of steps from each other come back, many or few, with room for them or not', () => {
    // Sixty-four steps up are the first that take two bytes; sixty-four down are the last that take one.
    const steps = fc.constantFrom(0, 1, -1, 2, 62, 63, 64, 65, -62, -63, -64, -65, 127, -128, 8191, 8192, -8192, -8193, 400_000);
    fc.assert(fc.property(fc.array(fc.tuple(steps, fc.integer({ min: 1, max: 400 })), { minLength: 1, maxLength: 12 }), fc.constantFrom(1, 500, 900), (runs, step) => {
      let value = 0;
      const lowTicks = Int32Array.from(runs.flatMap(([by, times]) => Array.from({ length: times }, () => (value = Math.abs(value + by * step) > 1_900_000_000 ? 0 : value + by * step))));
      const columns = { unit: 'C' as const, atMs: Float64Array.from(lowTicks, (_, index) => index), lowTicks, cut: null, texts: Array.from(lowTicks, String) };
      expect(readingsOfBytes(bytesOfReadings(columns)).lowTicks).toEqual(lowTicks);
      const writer = new ByteWriter(1);
      writer.writeDifferences(lowTicks, 1);
      const reader = new ByteReader(writer.finish());
      expect(Array.from(lowTicks.subarray(1), () => reader.readSigned())).toEqual(Array.from(lowTicks.subarray(1), (ticks, index) => ticks - (lowTicks[index] ?? 0)));
    }));
  });

  it('that lie as far apart as 32 bits let them come back', () => {
    const lowTicks = Int32Array.of(-2_147_483_648, 2_147_483_647, 0, -1, 2_147_483_646, -2_147_483_647);
    const columns = { unit: 'C' as const, atMs: Float64Array.from(lowTicks, (_, index) => index), lowTicks, cut: null, texts: Array.from(lowTicks, String) };
    expect(readingsOfBytes(bytesOfReadings(columns)).lowTicks).toEqual(lowTicks);
  });

  it('cut between two ticks stay so', () => {
    const rows = [rowOf(0, '62.77777', 'C'), rowOf(1000, '62.8', 'C')];
    expect(rows[0]?.highTicks).toBe((rows[0]?.lowTicks ?? 0) + 1);
    expect(backAgain(rows, 'C')).toEqual(rows);
  });

  it('in parts are the parts of the whole', () => {
    const rows = Array.from({ length: 10 }, (_, index) => rowOf(index * 1000, `${140 + index}.5`, 'F'));
    const part = sliceColumns(columnsOf(rows, 'F'), 3, 7);
    expect([...readingsOfBytes(bytesOfReadings(part)).atMs]).toEqual([3000, 4000, 5000, 6000]);
    expect(textAt(part, 0)).toBe('143.5');
  });

  it('at a second apart, in tenths with ±0.1 of noise, take less than 0.45 byte each when compressed', () => {
    let state = 12_345;
    const chance = () => {
      state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
      return state / 2 ** 32;
    };
    let tenths = 1_400;
    const rows = Array.from({ length: 3600 }, (_, index) => {
      tenths += Math.floor(chance() * 3) - 1;
      return rowOf(1_764_000_000_000 + index * 1000, (tenths / 10).toFixed(1), 'F');
    });
    expect(deflateRawSync(bytesOfReadings(columnsOf(rows, 'F')), { level: 6 }).length / rows.length).toBeLessThan(0.45);
  });

  it('that are damaged are refused, never guessed', () => {
    const bytes = bytesOfReadings(columnsOf([rowOf(0, '62.8', 'C'), rowOf(1000, '62.9', 'C')], 'C'));
    expect(() => readingsOfBytes(bytes.subarray(0, bytes.length - 1))).toThrow(/end/);
    expect(() => readingsOfBytes(Uint8Array.of(...bytes, 0))).toThrow(/more bytes/);
    expect(() => readingsOfBytes(Uint8Array.of(9, ...bytes.subarray(1)))).toThrow(/version 9/);
  });
});

describe('A number in few bytes', () => {
  it('comes back, up to the largest that is exact', () => {
    fc.assert(fc.property(fc.array(fc.maxSafeInteger()), (numbers) => {
      const writer = new ByteWriter();
      // Folding the sign doubles a number, so half of the range is exact.
      const halves = numbers.map((value) => Math.trunc(value / 2));
      for (const value of halves) writer.writeSigned(value);
      const reader = new ByteReader(writer.finish());
      expect(halves.map(() => reader.readSigned())).toEqual(halves.map((value) => value + 0));
      expect(reader.isAtEnd).toBe(true);
    }));
  });
});
