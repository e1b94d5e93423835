/** Short invented files, each with every reading of it checked: instant, text and tick. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exactTicks } from '../../app/measures/temperature.ts';
import type { ColumnLog } from '../../app/probes/log-columns.ts';
import type { LogOptions } from '../../app/probes/log-types.ts';
import { textAt } from '../../app/probes/reading-columns.ts';
import { readLogColumns } from '../../main/backroom/services/log-read.ts';

function readFixture(name: string, options: LogOptions): ColumnLog {
  const outcome = readLogColumns(new Uint8Array(readFileSync(new URL(`../fixtures/logs/${name}`, import.meta.url))), { fileName: name, ...options });
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

/** Name, unit, and of each reading: when, as written, and its ticks as degrees of the unit. */
function allOf({ places }: ColumnLog): unknown {
  return places.map(({ name, columns }) => ({
    name, unit: columns.unit,
    readings: Array.from(columns.atMs, (atMs, index) => [new Date(atMs).toISOString(), textAt(columns, index), columns.lowTicks[index]]),
  }));
}

function reading(at: string, text: string, value: number, unit: 'F' | 'C'): [string, string, number] {
  return [`2026-07-${at}.000Z`, text, exactTicks(value, unit)];
}

describe('Short logs of different loggers', () => {
  it('newest first, with decimal commas and the unit in every cell', () => {
    const log = readFixture('newest-first-units-in-cells.csv', { timeZone: 'Europe/Berlin' });
    expect(allOf(log)).toEqual([
      {
        name: 'Kern', unit: 'C',
        readings: [
          reading('14T06:03:00', '63,1', 63.1, 'C'), reading('14T06:02:00', '62,9', 62.9, 'C'), reading('14T06:01:00', '62,8', 62.8, 'C'),
          reading('14T06:00:00', '62,75', 62.75, 'C'), reading('13T21:59:00', '-0,5', -0.5, 'C'),
        ],
      },
      {
        name: 'Rauchkammer', unit: 'C',
        readings: [reading('14T06:03:00', '80,2', 80.2, 'C'), reading('14T06:01:00', '79,95', 79.95, 'C'), reading('14T06:00:00', '79,9', 79.9, 'C'), reading('13T21:59:00', '20', 20, 'C')],
      },
    ]);
    expect(log).toMatchObject({ questions: [], refusedRows: [], remarks: [], counts: { lines: 6, opening: 1, blank: 0, read: 5, refused: 0 } });
  });

  it('one channel a row, with a unit column and decimals only where there are any', () => {
    const log = readFixture('long-units-mixed-decimals.tsv', {});
    expect(allOf(log)).toEqual([
      { name: 'Tail', unit: 'F', readings: [reading('14T16:00:00', '62', 62, 'F'), reading('14T16:02:00', '63.25', 63.25, 'F')] },
      { name: 'Loin', unit: 'F', readings: [reading('14T16:00:00', '62.5', 62.5, 'F'), reading('14T16:01:00', '63', 63, 'F'), reading('14T16:02:00', '63.125', 63.125, 'F')] },
    ]);
    expect(log).toMatchObject({ questions: [], refusedRows: [], counts: { lines: 9, opening: 2, blank: 1, read: 6, refused: 0 } });
  });

  it('months by name, noon in twelve hours, a byte order mark, and a row that can’t be', () => {
    const log = readFixture('named-month-bom.csv', { timeZone: 'America/Anchorage' });
    expect(allOf(log)).toEqual([
      { name: 'P1', unit: 'F', readings: [reading('14T19:59:00', '145.0', 145, 'F'), reading('14T20:00:00', '145.2', 145.2, 'F'), reading('14T20:01:00', '145.4', 145.4, 'F'), reading('14T20:03:00', '145.6', 145.6, 'F')] },
      { name: 'P2', unit: 'F', readings: [reading('14T20:00:00', '144.9', 144.9, 'F'), reading('14T20:03:00', '145.1', 145.1, 'F')] },
    ]);
    expect(log.refusedRows).toEqual([{ line: 5, reason: '“14 Jul 2026 12:0x PM” in the column “When” is not a date with a clock time.' }]);
  });
});
