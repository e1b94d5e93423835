/** Files and rows that can't be read as they are: the exact sentence, and nothing lost beside it. */
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../app/measures/outcome.ts';
import type { LogOptions, LogReading } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';

function read(text: string, options: LogOptions = {}): LogReading {
  const outcome = readLog(text, { fileName: 'smoke.csv', ...options });
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function problemOf(text: string, options: LogOptions = {}): Problem {
  const outcome = readLog(text, { fileName: 'smoke.csv', ...options });
  if (outcome.ok) throw new Error('it was read');
  return outcome.problem;
}

function valuesOf(reading: LogReading): readonly (readonly number[])[] {
  return reading.places.map((place) => place.values);
}

describe('A file that is no log', () => {
  it('is refused when it is empty or blank', () => {
    expect(problemOf('').message).toBe('“smoke.csv” is empty.');
    expect(problemOf('\r\n \r\n').message).toBe('“smoke.csv” holds nothing but blank lines.');
  });

  it('is refused when it is binary', () => {
    expect(problemOf('\u0089PNG\r\n\u001a\n\u0000\u0000\u0000\rIHDR').message).toBe('“smoke.csv” is not a text file: it holds characters that no text has.');
  });

  it('is refused when no row has a time and a number', () => {
    const problem = { message: 'No row of “smoke.csv” has a time and a temperature.', remedy: 'Export the log as CSV with one row for each time.' };
    expect(problemOf('Dear chef,\nthe trout was very good.\n')).toEqual(problem);
    expect(problemOf('Time,P1 (F)\n')).toEqual(problem);
  });

  it('is refused when it has times but no temperatures, or dates but no clock times', () => {
    expect(problemOf('Time,RH (%)\n2026-07-14T05:31Z,62\n').message).toBe('“smoke.csv” has times but no column of temperatures.');
    expect(problemOf('Date,P1 (F)\n2026-07-14,62\n')).toEqual({
      message: '“smoke.csv” has dates in the column “Date” but no clock times.',
      remedy: 'Export the log with the time of each reading.',
    });
  });

  it('is refused when decimal commas can’t be told from the commas between columns', () => {
    expect(problemOf('Time,P1 (C),P2 (C)\n2026-07-14T05:31Z,62,8,61,9\n2026-07-14T05:32Z,62,9,62,0\n')).toEqual({
      message: 'In “smoke.csv” the commas in the numbers can’t be told from those between the columns (line 2).',
      remedy: 'Export the log with semicolons between the columns, or with decimal points.',
    });
  });
});

describe('A row that can’t be read', () => {
  it('is refused with its line and reason, and the rows beside it are read', () => {
    const reading = read(
      [
        'Time,P1 (F),P2 (F)',
        '2026-13-45 05:31Z,62.8,61',
        '2026-07-14 05:32Z,63,62',
        '2026-07-14 05:33Z,warm,62',
        '2026-07-14 05:34Z,63',
        '2026-07-14 05:35Z,63,62,61',
        '2026-07-14 25:00Z,63,62',
        'noon,63,62',
        ',63,62',
        '2026-07-14 05:36Z,"63,62',
        '',
        'Time,P1 (F),P2 (F)',
        '2026-07-14 05:37Z,1e9,62',
        '2026-02-30 05:38Z,63,62',
        '2026-07-14 05:39Z,64,63',
      ].join('\n'),
    );
    expect(reading.refusedRows).toEqual([
      { line: 2, reason: '“2026-13-45 05:31Z” in the column “Time” has a date that doesn’t exist.' },
      { line: 4, reason: '“warm” in the column “P1 (F)” is not a number.' },
      { line: 5, reason: 'This row has 2 fields where the headings have 3.' },
      { line: 6, reason: 'This row has 4 fields where the headings have 3. Numbers with a decimal comma must stand in quote marks in a file with commas.' },
      { line: 7, reason: '“2026-07-14 25:00Z” in the column “Time” has a clock time that doesn’t exist.' },
      { line: 8, reason: '“noon” in the column “Time” is not a date with a clock time.' },
      { line: 9, reason: 'There is no time in the column “Time”.' },
      { line: 10, reason: 'A quote mark is opened and not closed on this line.' },
      { line: 12, reason: 'This row repeats the headings.' },
      { line: 13, reason: '“1e9” in the column “P1 (F)” is no temperature.' },
      { line: 14, reason: '“2026-02-30 05:38Z” in the column “Time” has a date that doesn’t exist.' },
    ]);
    expect(valuesOf(reading)).toEqual([[63, 64], [62, 63]]);
    expect(reading.counts).toEqual({ lines: 15, opening: 1, blank: 1, read: 2, refused: 11 });
  });

  it('above the first good row is not taken for the headings', () => {
    const reading = read('Recorder,7\nTime,P1 (F),P2 (F)\nabc,62,61\ndef,63\n2026-07-14T05:32Z,63,62\n');
    expect(reading.columns.map((column) => column.heading)).toEqual(['Time', 'P1 (F)', 'P2 (F)']);
    expect(reading.refusedRows.map((row) => row.line)).toEqual([3, 4]);
  });

  it('above the first good row is refused also where there are no headings', () => {
    const reading = read('2026-07-14T05:31Z,warm\n2026-07-14T05:32Z,63 F\n2026-07-14T05:33Z,64 F\n');
    expect(reading.refusedRows).toEqual([{ line: 1, reason: '“warm” in column 2 is not a number.' }]);
    expect(reading.counts).toEqual({ lines: 3, opening: 0, blank: 0, read: 2, refused: 1 });
  });

  it('with an elapsed time below zero is refused', () => {
    const reading = read('Minutes,P1 (F)\n-1,62\n0,63\n1,64\n', { answers: { start: '2026-07-14 05:00Z' } });
    expect(reading.refusedRows).toEqual([{ line: 2, reason: '“-1” in the column “Minutes” is before the start.' }]);
    expect(valuesOf(reading)).toEqual([[63, 64]]);
  });

  it('is refused whole: the good value beside the bad one gives no point', () => {
    const reading = read('Time,P1 (F),P2 (F)\n2026-07-14T05:31Z,62,hot\n2026-07-14T05:32Z,63,64\n');
    expect(valuesOf(reading)).toEqual([[63], [64]]);
  });

  it('in a long file is refused without a channel, or with a unit that is none of temperature', () => {
    const reading = read('Time,Channel,Value,Unit\n2026-07-14T05:31Z,P1,62,F\n2026-07-14T05:31Z,,62,F\n2026-07-14T05:31Z,Air,60,%\n2026-07-14T05:32Z,P1,63,F\n');
    expect(reading.refusedRows).toEqual([
      { line: 3, reason: 'There is no name in the column “Channel”.' },
      { line: 4, reason: '“%” in the column “Unit” is neither °F nor °C.' },
    ]);
    expect(reading.places.map((place) => place.name)).toEqual(['P1']);
  });
});

describe('Mixed units', () => {
  it('in one column refuse the rows in the other unit, naming both', () => {
    const reading = read('Time;P1\n2026-07-14T05:31Z;62,8 °C\n2026-07-14T05:32Z;145 °F\n2026-07-14T05:33Z;63 °C\n');
    expect(reading.refusedRows).toEqual([{ line: 3, reason: '“145 °F” is in °F; the rest of “P1” is in °C. Export the log in one unit.' }]);
    expect(valuesOf(reading)).toEqual([[62.8, 63]]);
    expect(reading.counts).toMatchObject({ read: 2, refused: 1 });
  });

  it('against the heading refuse the rows that differ from it', () => {
    const reading = read('Time;P1 (°C)\n2026-07-14T05:31Z;62,8\n2026-07-14T05:32Z;145 °F\n2026-07-14T05:33Z;63\n');
    expect(reading.refusedRows.map((row) => row.line)).toEqual([3]);
    expect(valuesOf(reading)).toEqual([[62.8, 63]]);
  });

  it('in equal parts are asked about, and the answer decides which rows are refused', () => {
    const text = 'Time;P1\n2026-07-14T05:31Z;62,8 °C\n2026-07-14T05:32Z;145 °F\n';
    const asked = read(text);
    expect(asked.questions).toEqual([
      {
        id: 'unit', column: 1, text: 'The file says both °F and °C for the column “P1”. Which is right? Rows in the other are refused.',
        choices: [{ id: 'F', text: '°F' }, { id: 'C', text: '°C' }],
      },
    ]);
    expect(read(text, { answers: { unit: 'F' } }).refusedRows).toEqual([{ line: 2, reason: '“62,8 °C” is in °C; the rest of “P1” is in °F. Export the log in one unit.' }]);
  });

  it('within one row refuse it: the value in one, the unit column in the other', () => {
    const reading = read('Time,P1,Unit\n2026-07-14T05:31Z,62 F,C\n2026-07-14T05:32Z,63,F\n2026-07-14T05:33Z,64,F\n');
    expect(reading.refusedRows).toEqual([{ line: 2, reason: '“62 F” in the column “P1” is in °F, but the row says °C.' }]);
    expect(valuesOf(reading)).toEqual([[63, 64]]);
  });

  it('in a heading that every value contradicts are asked about', () => {
    expect(read('Time;P1 (°C)\n2026-07-14T05:31Z;145 °F\n2026-07-14T05:32Z;146 °F\n').questions.map((question) => question.id)).toEqual(['unit']);
  });
});

describe('Repeated and backward times', () => {
  it('are kept in the order of the file, with a remark for each kind', () => {
    const reading = read('Time,P1 (F)\n2026-07-14T05:31Z,145\n2026-07-14T05:31Z,146\n2026-07-14T05:20Z,147\n2026-07-14T05:32Z,148\n2026-07-14T05:32Z,149\n');
    expect(valuesOf(reading)).toEqual([[145, 146, 147, 148, 149]]);
    expect(reading.refusedRows).toEqual([]);
    expect(reading.remarks).toEqual([
      { line: 4, text: 'The time goes backward on line 4. The readings are kept at the times written; if the logger’s clock was set meanwhile, mend the times in the file.' },
      { line: 3, text: 'The time on line 3 is the same as the reading’s before it (and on 1 more line). Both readings are kept, and the less favourable counts.' },
    ]);
  });

  it('are none in a log that is written newest first', () => {
    const rows = Array.from({ length: 6 }, (_, index) => `2026-07-14T05:${50 - index}Z,${60 + index}`);
    const reading = read(['Time,P1 (F)', ...rows].join('\n'));
    expect(reading.remarks).toEqual([]);
    expect(valuesOf(reading)).toEqual([[60, 61, 62, 63, 64, 65]]);
  });
});

describe('Swapped columns', () => {
  it('with headings over the wrong ones are asked about, and mended by the answer', () => {
    const text = 'Temp (F),Time\n2026-07-14T05:31Z,62.8\n2026-07-14T05:32Z,63\n';
    const asked = read(text);
    expect(asked.questions.map((question) => [question.id, question.text])).toEqual([
      ['role:1', 'The headings look swapped: “Temp (F)” stands over times and “Time” over numbers. What does “Time” hold?'],
    ]);
    expect(asked.places).toEqual([]);
    expect(read(text, { answers: { 'role:1': 'reading' } }).questions.map((question) => question.id)).toEqual(['unit']);
    expect(valuesOf(read(text, { answers: { 'role:1': 'reading', unit: 'F' } }))).toEqual([[62.8, 63]]);
  });

  it('with headings over the wrong ones are not asked about again once a column is left out', () => {
    const reading = read('Temp (F),Time,P2 (F)\n2026-07-14T05:31Z,62.8,64\n', { answers: { 'role:1': 'ignore' } });
    expect(reading.questions).toEqual([]);
    expect(valuesOf(reading)).toEqual([[64]]);
  });

  it('of piece and chamber are remarked when the chamber is the colder nearly all the time', () => {
    const rows = Array.from({ length: 12 }, (_, index) => `2026-07-14T05:${10 + index}Z,${60 + index},${180 - index}`);
    const reading = read(['Time,Chamber (F),Piece 1 (F)', ...rows].join('\n'));
    expect(reading.remarks).toEqual([{ text: '“Chamber” is colder than “Piece 1” in 12 of 12 rows: the two columns may be swapped. Check which probe was where.' }]);
    expect(read(['Time,Piece 1 (F),Chamber (F)', ...rows].join('\n')).remarks).toEqual([]);
  });

  it('stand in any order when their headings are right', () => {
    expect(read('Chamber (F),P1 (F),When\n180,62,2026-07-14T05:31Z\n').columns.map((column) => column.role)).toEqual(['reading', 'reading', 'time']);
  });
});

describe('A reading that no kitchen has', () => {
  it('is kept and remarked: below −60 °F or above 600 °F', () => {
    const reading = read('Time,P1 (F)\n2026-07-14T05:31Z,-60\n2026-07-14T05:32Z,600\n2026-07-14T05:33Z,600.1\n2026-07-14T05:34Z,-61\n');
    expect(reading.remarks).toEqual([{ line: 4, text: '“P1” reads 600.1 °F on line 4 (and on 1 more line): check the unit, the column and the probe.' }]);
    expect(valuesOf(reading)).toEqual([[-60, 600, 600.1, -61]]);
  });
});
