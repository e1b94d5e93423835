/** Logs read from their bytes: the same as by way of texts, to the last tick and millisecond. */
import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { columnsOfLog, readLogBytes, readPlainRows, type ColumnLog } from '../../app/probes/log-columns.ts';
import { shapeOfText } from '../../app/probes/log-shape.ts';
import type { LogOptions } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';
import { textAt } from '../../app/probes/reading-columns.ts';
import { decodeLog } from '../../main/backroom/services/log-read.ts';
import { randomLog, randomLongLog } from './log-random.ts';

const FOLDER = new URL('../fixtures/logs/', import.meta.url);
const FIXTURE_OPTIONS: LogOptions = { timeZone: 'America/New_York', answers: { unit: 'C', dateOrder: 'month-first', start: '2026-07-14 05:00Z' } };

/** All that was read, with every reading as its text. */
function spelledOut(log: ColumnLog): unknown {
  return {
    ...log,
    places: log.places.map(({ name, column, columns, lines }) => ({
      name, column, unit: columns.unit, lines: [...lines], atMs: [...columns.atMs], lowTicks: [...columns.lowTicks],
      cut: [...columns.lowTicks].map((_, index) => columns.cut?.[index] ?? 0), texts: [...columns.lowTicks].map((_, index) => textAt(columns, index)),
    })),
  };
}

function byTexts(bytes: Uint8Array, options: LogOptions): ColumnLog {
  const text = decodeLog(bytes, 'log');
  if (!text.ok) throw new Error(text.problem.message);
  const outcome = readLog(text.value, options);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return columnsOfLog(outcome.value, shapeOfText(text.value));
}

describe('A log read from its bytes', () => {
  it('gives what the texts give, for random logs of every dialect it takes', () => {
    const taken = new Map<string, number>();
    fc.assert(
      fc.property(randomLog, ({ text, options, dialect, isPlain }) => {
        const bytes = new TextEncoder().encode(text);
        const read = readLogBytes(bytes, options);
        if (read === undefined) {
          expect(isPlain, `${dialect} should be read from its bytes:\n${text}`).toBe(false);
          return;
        }
        taken.set(dialect, (taken.get(dialect) ?? 0) + 1);
        expect(spelledOut(read)).toEqual(spelledOut(byTexts(bytes, options)));
      }),
      { numRuns: 1500 },
    );
    expect([...taken.keys()].toSorted()).toEqual(['clock first', 'date and clock', 'elapsed', 'epoch', 'iso', 'long', 'long with units', 'named month', 'numeric date', 'offset', 'twelve hours']);
  });

  it('gives what the texts give for long ones too, whose plain rows are read in one pass', { timeout: 120_000 }, () => {
    const taken = new Map<string, number>();
    fc.assert(
      fc.property(randomLongLog, ({ text, options, dialect }) => {
        const bytes = new TextEncoder().encode(text);
        const read = readPlainRows(bytes, options);
        if (read === undefined) return;
        taken.set(dialect, (taken.get(dialect) ?? 0) + 1);
        expect(spelledOut(read)).toEqual(spelledOut(byTexts(bytes, options)));
      }),
      { numRuns: 150 },
    );
    expect([...taken.keys()].toSorted()).toEqual(['date and clock', 'iso', 'long', 'named month', 'numeric date', 'offset', 'twelve hours']);
  });

  it('gives what the texts give for every whole file, or leaves it to them', () => {
    const files = readdirSync(FOLDER).filter((name) => !name.endsWith('.xlsx'));
    const taken = files.filter((name) => {
      const bytes = new Uint8Array(readFileSync(new URL(name, FOLDER)));
      const read = readLogBytes(bytes, FIXTURE_OPTIONS);
      if (read !== undefined) expect(spelledOut(read), name).toEqual(spelledOut(byTexts(bytes, FIXTURE_OPTIONS)));
      return read !== undefined;
    });
    expect(taken).toEqual(expect.arrayContaining(['iso-utc-fahrenheit.csv', 'european-date-and-clock.csv', 'long-channels.csv', 'dates-both-ways.csv', 'epoch-no-headings.csv']));
  });

  it('leaves the hour that came twice to the texts', () => {
    const rows = ['2026-11-01 01:50,63.1', '2026-11-01 01:00,63.3', '2026-11-01 01:10,63.4'];
    const bytes = new TextEncoder().encode(`Time,P1 (F)\n${rows.join('\n')}\n`);
    expect(readLogBytes(bytes, { timeZone: 'America/New_York' })).toBeUndefined();
    expect(readLogBytes(bytes, { timeZone: 'America/Phoenix' })?.places[0]?.columns.atMs.length).toBe(3);
  });

  it('refuses a row whose channel is blank, with or without spaces in it', () => {
    const rows = ['P1,62.1,F', ' ,62.2,F', 'P1,62.3,F', '\t ,62.4,F', ',62.5,F', 'P2 ,62.6,F', 'P1,62.7,F'].map((cells, row) => `2026-07-14 08:0${row},${cells}`);
    const bytes = new TextEncoder().encode(`Time,Channel,Value,Unit\n${rows.join('\n')}\n`);
    const log = readLogBytes(bytes, { timeZone: 'America/Phoenix' });
    expect(log?.places.map(({ name, lines }) => [name, ...lines])).toEqual([['P1', 2, 4, 8], ['P2', 7]]);
    expect(log?.refusedRows.map(({ line }) => line)).toEqual([3, 5, 6]);
    if (log !== undefined) expect(spelledOut(log)).toEqual(spelledOut(byTexts(bytes, { timeZone: 'America/Phoenix' })));
  });

  it('refuses with its row a number that no thermometer shows', () => {
    const log = byTexts(new TextEncoder().encode('Time,P1 (F),P2 (F)\n2026-07-14T05:31Z,62.1,61\n2026-07-14T05:32Z,300000,61\n2026-07-14T05:33Z,62.2,61\n'), {});
    expect(log.refusedRows).toEqual([{ line: 3, reason: '“300000” in “P1” is no temperature.' }]);
    expect(log.places.map(({ columns }) => columns.atMs.length)).toEqual([2, 2]);
    expect(log.counts).toEqual({ lines: 4, opening: 1, blank: 0, read: 2, refused: 1 });
  });
});
