/** Random and damaged texts: reading never throws, and every line is accounted for. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LogOptions, LogReading } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';

const WHOLE: readonly string[] = [
  'Time,P1 (F),P2 (F),Chamber (F)\n2026-07-14 05:31,62.1,61.2,180.4\n2026-07-14 05:32,62.4,OL,180.9\n2026-07-14 05:33,62.8,61.9,181.0\n2026-07-14 05:34,63.0,62.2,180.7\n',
  'Date;Time;P1 [°C];P2 [°C]\n14.07.2026;05:31:10;62,8;61,9\n14.07.2026;05:32:10;62,9;---\n15.07.2026;05:33:10;63,1;62,3\n',
  'Logger,SN 0001\nStart,2026-07-14\n\nElapsed (s),T1,T2\n(s),(degC),(degC)\n30,10.4,---\n60,10.5,11\n90,10.8,11.2\n',
  'Time|Channel|Value|Unit\n7/4/2026 5:31:10 AM|P1|145.0|F\n7/4/2026 5:31:10 AM|P2|62.8|C\n7/4/2026 5:32:10 AM|P1|145.2|F\n',
  '"2026-11-01 01:50","63.1"\n"2026-11-01 01:00","63.3"\n"2026-11-01 01:10","63.4"\n',
];
const PIECES = [...'0123456789,;|\t\n\r":.-/ °FCAPMTZ+e#x', '\u0001', '\u0000', 'Â', 'OL', '\n\n', '1e9', '2026', 'Time'];
const OPTIONS: readonly LogOptions[] = [
  {},
  { timeZone: 'America/New_York' },
  { timeZone: 'America/New_York', answers: { unit: 'F', dateOrder: 'day-first', start: '2026-07-14 05:00', elapsedUnit: 'minutes' } },
];

const options = fc.constantFrom(...OPTIONS);
const cut = fc.record({ at: fc.nat(), length: fc.integer({ min: 0, max: 6 }), insert: fc.oneof(fc.constantFrom(...PIECES), fc.constant('')) });
const damaged = fc.tuple(fc.constantFrom(...WHOLE), fc.array(cut, { minLength: 1, maxLength: 6 })).map(([whole, cuts]) => {
  let text = whole;
  for (const { at, length, insert } of cuts) {
    const from = at % (text.length + 1);
    text = text.slice(0, from) + insert + text.slice(from + length);
  }
  return text;
});

/** What must hold of any reading: lines add up, places are exact, nothing is given while a question is open. */
function faultsOf(reading: LogReading): readonly string[] {
  const faults: string[] = [];
  const { lines, opening, blank, read, refused } = reading.counts;
  if (lines !== opening + blank + read + refused) faults.push('the lines do not add up');
  if (refused !== reading.refusedRows.length) faults.push('refused rows are miscounted');
  if (new Set(reading.refusedRows.map((row) => row.line)).size !== refused) faults.push('a row is refused twice');
  if (reading.refusedRows.some((row) => row.line < 1 || row.line > lines || row.reason === '')) faults.push('a refused row has no line or reason');
  if (reading.questions.length > 0 && reading.places.length > 0) faults.push('places beside an open question');
  const refusedLines = new Set(reading.refusedRows.map((row) => row.line));
  for (const place of reading.places) {
    const count = place.atMs.length;
    if ([place.texts, place.values, place.lowTicks, place.highTicks, place.lines].some((each) => each.length !== count)) faults.push('arrays of different lengths');
    if (!place.atMs.every(Number.isSafeInteger) || !place.lowTicks.every(Number.isSafeInteger)) faults.push('a time or a tick is no whole number');
    if (!place.values.every(Number.isFinite)) faults.push('a value is no number');
    if (place.lines.some((line) => refusedLines.has(line))) faults.push('a point from a refused row');
  }
  return faults;
}

describe('Reading any text', () => {
  it('never throws on arbitrary strings', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), options, (text, given) => {
        const outcome = readLog(text, given);
        return !outcome.ok || faultsOf(outcome.value).length === 0;
      }),
      { numRuns: 1500 },
    );
  });

  it('never throws on strings made of what logs are made of', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...PIECES), { maxLength: 150 }), options, (pieces, given) => {
        const outcome = readLog(pieces.join(''), given);
        return !outcome.ok || faultsOf(outcome.value).length === 0;
      }),
      { numRuns: 1500 },
    );
  });

  it('accounts for every line of a damaged log', () => {
    fc.assert(
      fc.property(damaged, options, (text, given) => {
        const outcome = readLog(text, given);
        if (!outcome.ok) expect(outcome.problem.message).toMatch(/\.$/);
        else expect(faultsOf(outcome.value)).toEqual([]);
      }),
      { numRuns: 3000 },
    );
  });

  it('gives the same answer every time', () => {
    fc.assert(
      fc.property(damaged, options, (text, given) => {
        expect(JSON.stringify(readLog(text, given))).toBe(JSON.stringify(readLog(text, given)));
      }),
      { numRuns: 200 },
    );
  });

  it('never throws on answers made up', () => {
    const ids = fc.constantFrom('unit', 'unit:1', 'unit:9', 'role:0', 'role:1', 'role:2', 'role:3', 'dateOrder', 'timeZone', 'start', 'clockChange', 'elapsedUnit', '__proto__', 'x');
    const choices = fc.constantFrom('F', 'C', 'time', 'date', 'clock', 'elapsed', 'reading', 'note', 'ignore', 'channel', 'unit', 'day-first', 'first', 'repeat', 'UTC', '2026-07-14 05:00Z', '2026-11-01 01:30', '');
    fc.assert(
      fc.property(fc.constantFrom(...WHOLE), fc.array(fc.tuple(ids, choices), { maxLength: 5 }), (text, pairs) => {
        const outcome = readLog(text, { timeZone: 'America/New_York', answers: Object.fromEntries(pairs) });
        return !outcome.ok || faultsOf(outcome.value).length === 0;
      }),
      { numRuns: 3000 },
    );
  });
});

describe('A log written and read back', () => {
  it('gives every value and instant, whatever the marks', () => {
    const value = fc.integer({ min: -400, max: 3000 }).filter((tenths) => ![-1270].includes(tenths));
    const rows = fc.array(fc.tuple(value, value), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(rows, fc.constantFrom(';', '\t', '|'), fc.boolean(), fc.integer({ min: 0, max: 3_000_000 }), (values, mark, comma, startMinute) => {
        const lines = values.map((pair, index) => {
          const time = new Date(Date.UTC(2024, 0, 1) + (startMinute + index) * 60_000).toISOString();
          return [time, ...pair.map((tenths) => (tenths / 10).toFixed(1).replace('.', comma ? ',' : '.'))].join(mark);
        });
        const outcome = readLog([`Time${mark}P1 (F)${mark}P2 (F)`, ...lines].join('\n'));
        if (!outcome.ok) throw new Error(outcome.problem.message);
        const { places } = outcome.value;
        expect(places.map((place) => place.values)).toEqual([0, 1].map((column) => values.map((pair) => (pair[column] ?? 0) / 10 + 0)));
        expect(places[0]?.atMs).toEqual(values.map((_, index) => Date.UTC(2024, 0, 1) + (startMinute + index) * 60_000));
      }),
      { numRuns: 200 },
    );
  });
});
