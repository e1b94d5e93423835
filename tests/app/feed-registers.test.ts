import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ticksFromDecimal } from '../../app/measures/temperature.ts';
import { isScaling, REGISTER_ORDERS, requestsFor, temperatureOfRegisters, wireAddress, type RegisterReading, type RegisterRequest } from '../../app/probes/feed-registers.ts';

const TENTHS_C: RegisterReading = { type: 'int16', order: 'big', scale: '0.1', offset: '0', unit: 'C' };
const FLOAT_C: RegisterReading = { type: 'float32', order: 'big', scale: '1', offset: '0', unit: 'C' };

/** The words of a float32 as a device holds them. */
function wordsOf(value: number): number[] {
  const bytes = new DataView(new ArrayBuffer(4));
  bytes.setFloat32(0, value);
  return [bytes.getUint16(0), bytes.getUint16(2)];
}

describe('tenths in 16 bits', () => {
  // Worked out from the two's complement by hand.
  it.each([[0x0274, '62.8', 565_200], [0xff47, '-18.5', -166_500], [0x05aa, '145.0', 1_305_000], [0xfffb, '-0.5', -4500], [0, '0.0', 0]])('%i is %s', (word, text, ticks) => {
    expect(temperatureOfRegisters([word], TENTHS_C)).toEqual({ kind: 'temperature', text, unit: 'C', lowTicks: ticks, highTicks: ticks });
  });
  it('of a device that sends the low byte first are the same', () => {
    expect(temperatureOfRegisters([0x7402], { ...TENTHS_C, order: 'byte-swapped' })).toEqual(temperatureOfRegisters([0x0274], TENTHS_C));
  });
  it('without sign, scaled and moved, stay exact in Fahrenheit', () => {
    expect(temperatureOfRegisters([1850], { type: 'uint16', order: 'big', scale: '0.1', offset: '-40', unit: 'F' })).toMatchObject({ text: '145.0', lowTicks: 565_000, highTicks: 565_000 });
    expect(temperatureOfRegisters([40_000], { type: 'uint16', order: 'big', scale: '0.01', offset: '0', unit: 'F' })).toMatchObject({ text: '400.00' });
  });
  it('that stand for no sensor are no temperature, before any scaling', () => {
    for (const word of [0x7fff, 0x8000]) expect(temperatureOfRegisters([word], { ...TENTHS_C, scale: '0.01' }).kind).toBe('missing');
    for (const word of [0x7fff, 0x8000, 0xffff]) expect(temperatureOfRegisters([word], { ...TENTHS_C, type: 'uint16', scale: '0.001' }).kind).toBe('missing');
    expect(temperatureOfRegisters([0x7fff], TENTHS_C)).toEqual({ kind: 'missing', why: '32767' });
    expect(temperatureOfRegisters([0xffff], TENTHS_C)).toMatchObject({ text: '-0.1' });
  });
  it('that make 999.9 or −127 degrees are none either, and 99.99 degrees are some', () => {
    expect(temperatureOfRegisters([9999], TENTHS_C)).toEqual({ kind: 'missing', why: '9999, which makes 999.9' });
    expect(temperatureOfRegisters([0x10000 - 127], { ...TENTHS_C, scale: '1' })).toEqual({ kind: 'missing', why: '-127' });
    expect(temperatureOfRegisters([9999], { ...TENTHS_C, scale: '0.01' })).toMatchObject({ text: '99.99' });
  });
});

describe('a float of 32 bits', () => {
  // IEEE 754, binary32, worked out by hand: value, and its bytes from the most to the least significant.
  const CASES = [[62.8, 0x427b, 0x3333], [145, 0x4311, 0x0000], [-18.5, 0xc194, 0x0000], [23.1, 0x41b8, 0xcccd]] as const;
  const swapped = (word: number) => ((word & 0xff) << 8) | (word >> 8);
  it.each(CASES)('of %d is read in each of the four orders', (value, high, low) => {
    const sent = { big: [high, low], 'word-swapped': [low, high], 'byte-swapped': [swapped(high), swapped(low)], little: [swapped(low), swapped(high)] };
    for (const order of REGISTER_ORDERS) {
      const read = temperatureOfRegisters(sent[order], { ...FLOAT_C, order });
      expect(read.kind === 'temperature' ? Math.fround(Number(read.text)) : NaN).toBe(Math.fround(value));
    }
  });
  it('keeps what it says to the last bit, and is judged by both sides of it', () => {
    expect(temperatureOfRegisters([0x427b, 0x3333], FLOAT_C)).toEqual({ kind: 'temperature', text: '62.799999237060546875', unit: 'C', lowTicks: 565_199, highTicks: 565_200 });
    expect(temperatureOfRegisters([0x4311, 0x0000], { ...FLOAT_C, unit: 'F' })).toEqual({ kind: 'temperature', text: '145', unit: 'F', lowTicks: 565_000, highTicks: 565_000 });
  });
  it.each([[0x7fc0, 0, 'not a number'], [0xffc0, 1, 'not a number'], [0x7f80, 0, 'infinite'], [0xff80, 0, 'infinite'], [0x7f7f, 0xffff, /^3402823/]])('%i %i is no temperature', (high, low, why) => {
    expect(temperatureOfRegisters([high, low], FLOAT_C)).toEqual({ kind: 'missing', why: expect.stringMatching(why) });
  });
  it('with its halves in the wrong order is no temperature', () => {
    for (const value of [62.8, 145, 23.1, 180.25]) {
      const [high = 0, low = 0] = wordsOf(value);
      const read = temperatureOfRegisters([low, high], FLOAT_C);
      expect(read.kind === 'temperature' && Math.abs(Number(read.text) - value) < 50).toBe(false);
    }
  });
});

describe('whatever registers hold', () => {
  const reading = fc.record({
    type: fc.constantFrom('int16', 'uint16', 'int32', 'float32'), order: fc.constantFrom(...REGISTER_ORDERS),
    scale: fc.constantFrom('1', '0.1', '0.01', '-0.5', '0.0625', '1.8'), offset: fc.constantFrom('0', '-40', '32', '0.25'), unit: fc.constantFrom('F', 'C'),
  }) as fc.Arbitrary<RegisterReading>;
  const words = fc.array(fc.integer({ min: 0, max: 65_535 }), { minLength: 2, maxLength: 2 });

  it('a temperature’s text says its ticks, which are neighbours and lie within a thermometer’s range', () => {
    fc.assert(fc.property(words, reading, ([first = 0, second = 0], how) => {
      const registers = how.type === 'int16' || how.type === 'uint16' ? [first] : [first, second];
      const read = temperatureOfRegisters(registers, how);
      if (read.kind === 'missing') {
        expect(read.why).not.toBe('');
        return;
      }
      const { lowTicks, highTicks } = read;
      expect(ticksFromDecimal(read.text, how.unit)).toEqual({ ok: true, value: { lowTicks, highTicks } });
      expect(highTicks - lowTicks === 0 || highTicks - lowTicks === 1).toBe(true);
      expect(lowTicks).toBeGreaterThanOrEqual(-1_800_000);
      expect(highTicks).toBeLessThanOrEqual(9_000_000);
    }), { numRuns: 2000 });
  });
  it('a float that a thermometer could send comes back from its text', () => {
    fc.assert(fc.property(fc.float({ min: -100, max: 500, noNaN: true }).filter((value) => value === 0 || Math.abs(value) >= 1e-3), (value) => {
      const read = temperatureOfRegisters(wordsOf(value), FLOAT_C);
      expect(read.kind === 'temperature' ? Math.fround(Number(read.text)) : NaN).toBe(Math.fround(value) + 0);
    }), { numRuns: 1000 });
  });
  it('whole numbers of 32 bits come out as they were sent, scaled', () => {
    fc.assert(fc.property(fc.integer({ min: -99_999, max: 499_999 }), (milli) => {
      const bits = milli < 0 ? milli + 2 ** 32 : milli;
      const read = temperatureOfRegisters([Math.floor(bits / 65_536), bits % 65_536], { type: 'int32', order: 'big', scale: '0.001', offset: '0', unit: 'C' });
      expect(read).toMatchObject({ kind: 'temperature', lowTicks: milli * 9, highTicks: milli * 9 });
    }));
  });
});

describe('the number of a register', () => {
  it.each([
    [40_001, 1, 'holding', 0], [40_012, 1, 'holding', 11], [30_001, 1, 'input', 0], [400_001, 1, 'holding', 0], [465_536, 1, 'holding', 65_535],
    [1, 1, 'holding', 0], [65_536, 1, 'input', 65_535], [0, 0, 'holding', 0], [40_001, 0, 'holding', 40_001],
  ] as const)('%i counted from %i in the %s table is %i on the wire', (register, countsFrom, table, address) => {
    expect(wireAddress(register, countsFrom, table, 'int16')).toEqual({ ok: true, value: address });
  });
  it.each([[0, 1, 'int16'], [65_537, 1, 'int16'], [-1, 0, 'int16'], [65_536, 0, 'int16'], [1.5, 0, 'int16'], [65_535, 0, 'float32']] as const)('%d counted from %i is none for %s', (register, countsFrom, type) => {
    expect(wireAddress(register, countsFrom, 'holding', type)).toMatchObject({ ok: false, problem: { message: `There is no register ${register}.` } });
  });
  it('of the other table is refused by its name', () => {
    expect(wireAddress(40_012, 1, 'input', 'int16')).toMatchObject({ ok: false, problem: { message: 'Register 40012 is a holding register by its number.' } });
    expect(wireAddress(30_012, 1, 'holding', 'int16')).toMatchObject({ ok: false, problem: { message: 'Register 30012 is an input register by its number.' } });
  });
});

describe('the requests for registers', () => {
  it('join what lies side by side, never ask for what nobody named, and stay within 125', () => {
    const holding = (address: number, count = 1) => ({ table: 'holding' as const, address, count });
    expect(requestsFor([holding(2), holding(0, 2), holding(9), { table: 'input', address: 3, count: 2 }])).toEqual([holding(0, 3), holding(9), { table: 'input', address: 3, count: 2 }]);
    const many = requestsFor(Array.from({ length: 64 }, (_, index) => holding(index * 2, 2)));
    expect(many).toEqual([holding(0, 124), holding(124, 4)]);
  });
  it('cover every register once', () => {
    fc.assert(fc.property(fc.array(fc.record({ table: fc.constantFrom('holding' as const, 'input' as const), address: fc.integer({ min: 0, max: 300 }), count: fc.constantFrom(1, 2) }), { minLength: 1, maxLength: 64 }), (wanted: RegisterRequest[]) => {
      const registers = (list: readonly RegisterRequest[]) => new Set(list.flatMap(({ table, address, count }) => Array.from({ length: count }, (_, index) => `${table} ${address + index}`)));
      const requests = requestsFor(wanted);
      expect(registers(requests)).toEqual(registers(wanted));
      expect(requests.every(({ count }) => count <= 125)).toBe(true);
    }));
  });
});

describe('a scale or an offset', () => {
  it.each(['1', '0.1', '-40', '+1.8', '0.0625', '123456'])('may be %s', (text) => expect(isScaling(text)).toBe(true));
  it.each(['', '0,1', '1e3', '1/10', '.1', '1.', '0.1234567', 'x', '1234567'])('can’t be “%s”', (text) => expect(isScaling(text)).toBe(false));
});
