/** Whole invented log files: three pieces and the chamber of a smoker, as different loggers would write them. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LogOptions, LogReading } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';
import { decodeLog } from '../../main/backroom/services/log-read.ts';

const START = '2026-07-14T08:00:00.000Z';
const END = '2026-07-14T14:00:00.000Z';
const LOCAL_START = '2026-07-14T16:00:00.000Z';
const LOCAL_END = '2026-07-14T22:00:00.000Z';
const FAHRENHEIT = [[44, 164.5], [45, 162.3], [46, 166.4], [110, 176.4]] as const;
const CELSIUS = [[6.7, 73.6], [7.2, 72.4], [7.8, 74.7], [43.3, 80.2]] as const;

function readFixture(name: string, options: LogOptions): LogReading {
  const text = decodeLog(readFileSync(new URL(`../fixtures/logs/${name}`, import.meta.url)), name);
  if (!text.ok) throw new Error(text.problem.message);
  const outcome = readLog(text.value, { fileName: name, ...options });
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function endsOf(reading: LogReading): unknown {
  return reading.places.map((place) => ({
    name: place.name,
    unit: place.unit,
    count: place.atMs.length,
    from: new Date(place.atMs[0] ?? 0).toISOString(),
    to: new Date(place.atMs.at(-1) ?? 0).toISOString(),
    values: [place.values[0], place.values.at(-1)],
  }));
}

interface Expected {
  readonly names: readonly string[];
  readonly unit: 'F' | 'C';
  readonly count: number;
  readonly from: string;
  readonly to: string;
  readonly values: readonly (readonly [number, number])[];
}

function expected({ names, unit, count, from, to, values }: Expected): unknown {
  return names.map((name, index) => ({ name, unit, count, from, to, values: [...(values[index] ?? [])] }));
}

const PIECES = ['Piece 1', 'Piece 2', 'Piece 3', 'Chamber'];
const COLUMNS = ['Column 2', 'Column 3', 'Column 4', 'Column 5'];
const ANCHORAGE: LogOptions = { timeZone: 'America/Anchorage' };
const LOCAL = { count: 25, from: LOCAL_START, to: LOCAL_END };

const DIALECTS: readonly { file: string; says: string; asks: readonly string[]; options: LogOptions; gives: Expected }[] = [
  {
    file: 'iso-utc-fahrenheit.csv', says: 'ISO times in UTC by the minute over six hours', asks: [], options: {},
    gives: { names: PIECES, unit: 'F', count: 361, from: START, to: END, values: FAHRENHEIT },
  },
  {
    file: 'european-date-and-clock.csv', says: 'a byte order mark, semicolons, decimal commas, date and clock apart', asks: ['timeZone'], options: ANCHORAGE,
    gives: { names: ['P1', 'P2', 'P3', 'Kammer'], unit: 'C', ...LOCAL, values: CELSIUS },
  },
  {
    file: 'tab-utf16-units-row.txt', says: 'UTF-16, tabs, opening lines, a units row', asks: ['timeZone'], options: ANCHORAGE,
    gives: { names: PIECES, unit: 'C', ...LOCAL, values: [[6.67, 73.61], [7.22, 72.37], [7.78, 74.68], [43.33, 80.21]] },
  },
  {
    file: 'us-twelve-hour-quoted.csv', says: 'month first, AM and PM, everything in quote marks', asks: ['timeZone'], options: ANCHORAGE,
    gives: { names: PIECES, unit: 'F', ...LOCAL, values: FAHRENHEIT },
  },
  {
    file: 'dates-both-ways.csv', says: 'dates that can be read both ways', asks: ['dateOrder', 'timeZone'],
    options: { ...ANCHORAGE, answers: { dateOrder: 'month-first' } },
    gives: {
      names: ['Probe 1', 'Probe 2', 'Probe 3', 'Probe 4'], unit: 'F', count: 25,
      from: '2026-07-04T16:00:00.000Z', to: '2026-07-04T22:00:00.000Z', values: [[44, 164], [45, 162], [46, 166], [110, 176]],
    },
  },
  {
    file: 'elapsed-clock.csv', says: 'hours, minutes and seconds since the start', asks: ['start'], options: { answers: { start: '2026-07-14 08:00Z' } },
    gives: { names: ['Piece 1', 'Piece 2', 'Piece 3', 'Smoker'], unit: 'F', count: 25, from: START, to: END, values: FAHRENHEIT },
  },
  {
    file: 'epoch-no-headings.csv', says: 'milliseconds since 1970 and no headings', asks: ['unit'], options: { answers: { unit: 'C' } },
    gives: { names: COLUMNS, unit: 'C', count: 25, from: START, to: END, values: CELSIUS },
  },
  {
    file: 'serial-windows-1252.csv', says: 'Windows-1252, spreadsheet serials with decimal commas, a unit behind each value', asks: ['timeZone'], options: ANCHORAGE,
    gives: { names: ['Stück 1', 'Stück 2', 'Stück 3', 'Rauchkammer'], unit: 'C', ...LOCAL, values: CELSIUS },
  },
  {
    file: 'long-channels.csv', says: 'one channel a row with its unit', asks: [], options: {},
    gives: { names: PIECES, unit: 'F', ...LOCAL, values: FAHRENHEIT },
  },
  {
    file: 'bar-time-first.txt', says: 'bars, the clock before the date, a two-digit year', asks: ['timeZone'], options: ANCHORAGE,
    gives: { names: COLUMNS, unit: 'F', count: 25, from: '2026-07-14T16:00:00.500Z', to: '2026-07-14T22:00:00.500Z', values: FAHRENHEIT },
  },
  {
    file: 'autumn-clock-change.csv', says: 'local times over the night the clocks go back', asks: ['timeZone'], options: { timeZone: 'America/New_York' },
    gives: {
      names: PIECES, unit: 'F', count: 31, from: '2026-11-01T03:30:00.000Z', to: '2026-11-01T08:30:00.000Z',
      values: [[44, 157.5], [45, 154.6], [46, 160.1], [110, 173.6]],
    },
  },
];

describe('Logs of different loggers', () => {
  for (const { file, says, asks, options, gives } of DIALECTS) {
    it(`reads ${says} from the first reading to the last`, () => {
      expect(readFixture(file, {}).questions.map((question) => question.id)).toEqual(asks);
      const reading = readFixture(file, options);
      expect(reading.questions).toEqual([]);
      expect(endsOf(reading)).toEqual(expected(gives));
      expect(reading.refusedRows).toEqual([]);
      expect(reading.remarks).toEqual([]);
    });
  }

  it('reads elapsed seconds with opening lines and leaves out cells without a reading', () => {
    const reading = readFixture('elapsed-seconds.csv', { answers: { start: '2026-07-14T08:00:00Z' } });
    expect(reading.places.map((place) => place.atMs.length)).toEqual([25, 24, 24, 25]);
    expect(new Date(reading.places[0]?.atMs[0] ?? 0).toISOString()).toBe('2026-07-14T08:00:30.000Z');
    expect(new Date(reading.places[1]?.atMs[0] ?? 0).toISOString()).toBe('2026-07-14T08:15:30.000Z');
    expect(reading.places.map((place) => place.values.at(-1))).toEqual([73.6, 72.4, 74.7, 80.2]);
    expect(reading.counts).toEqual({ lines: 30, opening: 4, blank: 1, read: 25, refused: 0 });
  });

  it('keeps steps of ten minutes over the repeated hour', () => {
    const { places } = readFixture('autumn-clock-change.csv', { timeZone: 'America/New_York' });
    const steps = places[0]?.atMs.map((atMs, index, all) => atMs - (all[index - 1] ?? atMs)) ?? [];
    expect(new Set(steps.slice(1))).toEqual(new Set([600_000]));
  });
});
