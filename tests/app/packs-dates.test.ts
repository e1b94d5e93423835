import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, dayFromOrdinal, dayInWords, dayOfYear, dayText, daysBetween, daysInWords, readDay, type CalendarDay } from '../../app/packs/dates.ts';
import { yearAndDay } from '../../app/packs/lot-code.ts';

function day(text: string): CalendarDay {
  const read = readDay(text);
  if (!read.ok) throw new Error(read.problem.message);
  return read.value;
}

describe('calendar days', () => {
  // Computed with a standard date library.
  it.each([
    ['2026-01-01', '26001'],
    ['2026-07-13', '26194'],
    ['2026-07-14', '26195'],
    ['2026-12-31', '26365'],
    ['2028-02-29', '28060'],
    ['2028-12-31', '28366'],
  ])('%s is %s in a pack’s code', (text, code) => {
    expect(yearAndDay(day(text))).toBe(code);
  });

  it.each([
    ['2026-07-14', 90, '2026-10-12'],
    ['2026-07-14', 180, '2027-01-10'],
    ['2026-07-13', 14, '2026-07-27'],
    ['2028-02-28', 1, '2028-02-29'],
  ])('%s and %i days is %s', (from, days, to) => {
    expect(dayText(addDays(day(from), days))).toBe(to);
    expect(daysBetween(day(from), day(to))).toBe(days);
  });

  it('writes the month in letters', () => {
    expect(dayInWords(day('2026-07-14'))).toBe('14 JUL 2026');
    expect(dayInWords(day('2026-10-02'))).toBe('02 OCT 2026');
    expect(daysInWords(day('2026-07-11'), day('2026-07-12'))).toBe('11-12 JUL 2026');
    expect(daysInWords(day('2026-06-30'), day('2026-07-02'))).toBe('30 JUN-02 JUL 2026');
    expect(daysInWords(day('2026-12-31'), day('2027-01-01'))).toBe('31 DEC 2026-01 JAN 2027');
    expect(daysInWords(day('2026-07-11'), day('2026-07-11'))).toBe('11 JUL 2026');
  });

  it.each(['2026-02-29', '2026-13-01', '2026-00-10', '2026-06-31', '14/07/2026', '26-07-14', '', '1999-12-31', '2100-01-01', '2026-7-4'])(
    'refuses “%s”',
    (text) => {
      expect(readDay(text, 'dates.packedOn')).toMatchObject({ ok: false, problem: { field: 'dates.packedOn' } });
    },
  );

  it('finds every day again from its number in the year, and none behind the last', () => {
    fc.assert(fc.property(fc.integer({ min: 2000, max: 2099 }), fc.integer({ min: -3, max: 370 }), (year, ordinal) => {
      const found = dayFromOrdinal(year, ordinal);
      const isLeap = year % 4 === 0;
      expect(found === undefined).toBe(ordinal < 1 || ordinal > (isLeap ? 366 : 365));
      if (found !== undefined) expect(dayOfYear(found)).toBe(ordinal);
    }));
  });
});
