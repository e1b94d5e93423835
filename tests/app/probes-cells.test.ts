/** Single cells: numbers as written, words for no reading, and dates and clock times. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isMissingWord, readValueCell, unitFromWord } from '../../app/probes/log-cells.ts';
import { isBlankLine, splitFields, splitLines } from '../../app/probes/log-lines.ts';
import { dayMsFrom, momentShape, readClock, readMoment, type DateOrder } from '../../app/probes/log-moments.ts';

describe('A number in a cell', () => {
  const numbers: readonly (readonly [string, string, number, 'F' | 'C' | undefined])[] = [
    ['62.80', '62.80', 62.8, undefined], ['62,80', '62,80', 62.8, undefined], ['62,8 °C', '62,8', 62.8, 'C'], ['145F', '145', 145, 'F'],
    ['-18.5', '-18.5', -18.5, undefined], ['−18,5', '−18,5', -18.5, undefined], ['+4', '+4', 4, undefined], ['.5', '.5', 0.5, undefined],
    ['62.', '62', 62, undefined], ['6.28E+01', '6.28E+01', 62.8, undefined], ['-0.0', '-0.0', 0, undefined], ['62.8 °', '62.8', 62.8, undefined],
    ['62.8 degC', '62.8', 62.8, 'C'], ['62.8 Â°C', '62.8', 62.8, 'C'], ['145 Fahrenheit', '145', 145, 'F'], ['62.8 \uFFFDC', '62.8', 62.8, 'C'],
  ];
  for (const [cell, text, value, unit] of numbers) {
    it(`is read from “${cell}”`, () => {
      expect(readValueCell(cell)).toMatchObject({ kind: 'number', text, value, unit });
    });
  }

  it('is not made of words, thousands marks, other units or absurd exponents', () => {
    for (const cell of ['warm', '1.062,8', '1,062.8', '62.8 %', '3.6 V', '6 2', '62..8', '1e99', '12:30', '2026-07-14', `1${'0'.repeat(60)}`]) {
      expect([cell, readValueCell(cell).kind]).toEqual([cell, 'other']);
    }
  });

  it('comes back as the shortest number of its decimal text, and as exact ticks', () => {
    fc.assert(
      fc.property(fc.integer({ min: -99_999, max: 999_999 }), fc.integer({ min: 0, max: 3 }), fc.constantFrom('.', ','), (figures, decimals, mark) => {
        const text = (figures / 10 ** decimals).toFixed(decimals);
        const cell = readValueCell(text.replace('.', mark));
        if (cell.kind !== 'number') return cell.kind === 'missing';
        const { lowTicks, highTicks } = cell.ticksIn('C');
        return cell.value === Number(text) + 0 && lowTicks === highTicks && lowTicks === (figures * 9000) / 10 ** decimals;
      }),
      { numRuns: 500 },
    );
  });
});

describe('A word for no reading', () => {
  it('is known in the forms loggers use, also with a unit behind', () => {
    for (const cell of ['-', '--', '---', '--.-', 'NaN', 'N/A', 'null', 'OL', 'OPEN', 'Err', '####', '#N/A', '-999', '9999', '-9999', '32767', '-32768', '65535', '999.9', '-127', '-127.0', '-999,0', '--- °C', 'OL °F', '0x7FFF']) {
      expect([cell, readValueCell(cell).kind]).toEqual([cell, 'missing']);
    }
    expect(readValueCell('').kind).toBe('blank');
  });

  it('is never a reading that can be: 99.9, 85.0, 0, -40', () => {
    for (const cell of ['99.9', '85.0', '0', '-40', '-18', '999', '127']) expect([cell, readValueCell(cell).kind]).toEqual([cell, 'number']);
    expect(isMissingWord('x'.repeat(1000))).toBe(false);
  });
});

describe('A unit', () => {
  it('is known by its common names only', () => {
    expect(['°C', 'C', 'degC', 'Cel', 'Celsius', 'Â°C', 'º C'].map(unitFromWord)).toEqual(Array.from({ length: 7 }, () => 'C'));
    expect(['°F', 'f', 'deg F', 'degrees Fahrenheit'].map(unitFromWord)).toEqual(['F', 'F', 'F', 'F']);
    expect(['K', '%', '', 'CF', 'Fish'].map(unitFromWord)).toEqual([undefined, undefined, undefined, undefined, undefined]);
  });
});

describe('A moment in a cell', () => {
  const moments: readonly (readonly [string, DateOrder | undefined, string, boolean])[] = [
    ['2026-07-14T05:31:10Z', undefined, '2026-07-14T05:31:10.000Z', true], ['2026-07-14 05:31', undefined, '2026-07-14T05:31:00.000Z', false],
    ['2026-07-14T05:31:10.1239+02:00', undefined, '2026-07-14T03:31:10.123Z', true], ['2026-07-14 05:31:10 +0530', undefined, '2026-07-14T00:01:10.000Z', true],
    ['2026-07-14T05:31-08', undefined, '2026-07-14T13:31:00.000Z', true], ['20260714T053110Z', undefined, '2026-07-14T05:31:10.000Z', true],
    ['20260714053110', undefined, '2026-07-14T05:31:10.000Z', false], ['2026-07-14 05:31 UTC', undefined, '2026-07-14T05:31:00.000Z', true],
    ['2026-07-14T05:31+02:00[Europe/Oslo]', undefined, '2026-07-14T03:31:00.000Z', true],
    ['7/4/2026 5:31:10 AM', 'month-first', '2026-07-04T05:31:10.000Z', false], ['7/4/2026 5:31:10 PM', 'day-first', '2026-04-07T17:31:10.000Z', false],
    ['7/4/26 12:05 am', 'month-first', '2026-07-04T00:05:00.000Z', false], ['7/4/26 12:05 p.m.', 'month-first', '2026-07-04T12:05:00.000Z', false],
    ['7/4/2026, 5:31:10\u202FPM', 'month-first', '2026-07-04T17:31:10.000Z', false], ['14.07.2026 05:31:10,5', 'day-first', '2026-07-14T05:31:10.500Z', false],
    ['05:31:10.500 14/07/26', 'day-first', '2026-07-14T05:31:10.500Z', false], ['14.07.70 05:31', 'day-first', '1970-07-14T05:31:00.000Z', false],
    ['14.07.69 05:31', 'day-first', '2069-07-14T05:31:00.000Z', false], ['14-Jul-2026 05:31', undefined, '2026-07-14T05:31:00.000Z', false],
    ['Tue, 14 July 2026 05:31', undefined, '2026-07-14T05:31:00.000Z', false], ['Jul 14, 2026 5:31 PM', undefined, '2026-07-14T17:31:00.000Z', false],
  ];
  for (const [cell, order, iso, isInstant] of moments) {
    it(`is read from “${cell}”`, () => {
      expect(momentShape(cell)).toBe('moment');
      const moment = readMoment(cell, order);
      if (typeof moment === 'string') throw new Error(moment);
      expect([new Date(moment.ms).toISOString(), moment.isInstant]).toEqual([iso, isInstant]);
    });
  }

  it('is refused where there is no such day or hour', () => {
    for (const cell of ['2026-02-29 05:31', '2026-13-01 05:31', '2026-04-31 05:31', '0026-07-14 05:31', '2026-00-10 05:31']) expect(readMoment(cell, undefined)).toBe('has a date that doesn’t exist');
    for (const cell of ['2026-07-14 24:00', '2026-07-14 05:60', '2026-07-14 05:31:60', '2026-07-14 13:00 PM', '2026-07-14 0:00 AM', '2026-07-14 05:3']) expect(readMoment(cell, undefined)).toBe('has a clock time that doesn’t exist');
    expect(readMoment('14/14/2026 05:31', undefined)).toBe('has a date that doesn’t exist');
    expect(readMoment('2026-07-14', undefined)).toBe('has no clock time');
    expect(readMoment('fish', undefined)).toBe('is not a date with a clock time');
    expect(readClock('2026-07-14 05:31')).toBe('is not a clock time');
  });

  it('exists for every day of the calendar and for no other', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1900, max: 2199 }), fc.integer({ min: 0, max: 13 }), fc.integer({ min: 0, max: 32 }), (year, month, day) => {
        const ms = Date.UTC(year, month - 1, day);
        const back = new Date(ms);
        const exists = back.getUTCMonth() === month - 1 && back.getUTCDate() === day;
        return dayMsFrom(year, month, day) === (exists ? ms : undefined);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('Lines and fields', () => {
  it('end at any line ending, and quote marks keep delimiters in a field', () => {
    expect(splitLines('\uFEFFa\r\nb\rc\n\nd\n')).toEqual(['a', 'b', 'c', '', 'd']);
    expect(splitFields(' a ; "b;""c""" ;"";d"e', ';')).toEqual(['a', 'b;"c"', '', 'd"e']);
    expect(splitFields('a ; b; c ;\u00A0d\u00A0', ';')).toEqual(['a', 'b', 'c', 'd']);
    expect(splitFields('a,"b', ',')).toBeUndefined();
    expect(isBlankLine(' ;;"" ; ', ';')).toBe(true);
    expect(isBlankLine(';0;', ';')).toBe(false);
  });
});
