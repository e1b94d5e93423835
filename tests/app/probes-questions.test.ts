/** What reading a log asks, what it never asks, and how answers are checked. */
import { describe, expect, it } from 'vitest';
import type { LogOptions, LogReading } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';

function read(text: string, options: LogOptions = {}): LogReading {
  const outcome = readLog(text, options);
  if (!outcome.ok) throw new Error(`${outcome.problem.field}: ${outcome.problem.message}`);
  return outcome.value;
}

function asked(text: string, options: LogOptions = {}): readonly string[] {
  return read(text, options).questions.map((question) => question.id);
}

function timesOf(text: string, options: LogOptions): readonly string[] {
  return (read(text, options).places[0]?.atMs ?? []).map((atMs) => new Date(atMs).toISOString());
}

function dated(...dates: readonly string[]): string {
  return ['Time,P1 (F)', ...dates.map((date, index) => `${date},${60 + index}`)].join('\n');
}

const UTC: LogOptions = { timeZone: 'UTC' };

describe('The order of dates', () => {
  it('is settled by any figure over 12 in the column, also far from the first row', () => {
    const early = Array.from({ length: 700 }, (_, index) => `7/4/2026 ${Math.floor(index / 60)}:${String(index % 60).padStart(2, '0')}`);
    expect(asked(dated(...early, '7/13/2026 05:00'), UTC)).toEqual([]);
    expect(timesOf(dated('7/4/2026 05:31', '7/13/2026 05:31'), UTC)).toEqual(['2026-07-04T05:31:00.000Z', '2026-07-13T05:31:00.000Z']);
    expect(timesOf(dated('4.7.2026 05:31', '13.7.2026 05:31'), UTC)).toEqual(['2026-07-04T05:31:00.000Z', '2026-07-13T05:31:00.000Z']);
  });

  it('is asked when both orders give dates, with slashes and with points', () => {
    for (const date of ['7/4/2026 05:31', '04.07.2026 05:31', '4-7-2026 05:31']) expect(asked(dated(date), UTC)).toEqual(['dateOrder']);
  });

  it('is not asked where it makes no difference or the year stands first', () => {
    expect(asked(dated('7/7/2026 05:31'), UTC)).toEqual([]);
    expect(asked(dated('2026-07-04 05:31', '2026/07/04 05:32', '4 Jul 2026 05:33', 'Jul 4, 2026 5:34 AM'.replace(',', '')), UTC)).toEqual([]);
  });

  it('is asked when the column contradicts itself, and the rows of the other order are refused', () => {
    const text = dated('7/14/2026 05:31', '14/7/2026 05:32');
    expect(asked(text, UTC)).toEqual(['dateOrder']);
    const reading = read(text, { ...UTC, answers: { dateOrder: 'day-first' } });
    expect(reading.refusedRows.map((row) => row.line)).toEqual([2]);
    expect(reading.places[0]?.values).toEqual([61]);
  });

  it('comes before the clock change: no hour is asked about until the day is known', () => {
    const zone: LogOptions = { timeZone: 'America/New_York' };
    expect(asked(dated('1/11/2026 01:10', '1/11/2026 01:20'), zone)).toEqual(['dateOrder']);
    expect(asked(dated('1/11/2026 01:10', '1/11/2026 01:20'), { ...zone, answers: { dateOrder: 'day-first' } })).toEqual(['clockChange']);
    expect(asked(dated('1/11/2026 01:10', '1/11/2026 01:20'), { ...zone, answers: { dateOrder: 'month-first' } })).toEqual([]);
  });

  it('offers the year first for two-digit figures with hyphens', () => {
    const [question] = read(dated('26-07-14 05:31'), UTC).questions;
    expect(question?.choices).toEqual([
      { id: 'day-first', text: 'The day: all on 26 Jul 2014' },
      { id: 'year-first', text: 'The year: all on 14 Jul 2026' },
    ]);
    expect(timesOf(dated('26-07-14 05:31'), { ...UTC, answers: { dateOrder: 'year-first' } })).toEqual(['2026-07-14T05:31:00.000Z']);
  });

  it('that makes the log run over more than three days is remarked', () => {
    const text = dated('7/4/2026 23:50', '8/4/2026 00:10');
    expect(read(text, { ...UTC, answers: { dateOrder: 'day-first' } }).remarks).toEqual([]);
    expect(read(text, { ...UTC, answers: { dateOrder: 'month-first' } }).remarks).toEqual([
      { text: 'Read with this date order the log runs over 30 days. If that is too long, the other order is right.' },
    ]);
  });
});

describe('The unit', () => {
  it('is taken from headings, a units row, the cells, a unit column or the opening lines', () => {
    const files: readonly (readonly [string, 'F' | 'C'])[] = [
      ['Time,P1 [°C]\n2026-07-14T05:31Z,62', 'C'], ['Time,P1 (F)\n2026-07-14T05:31Z,62', 'F'], ['Time,P1 degC\n2026-07-14T05:31Z,62', 'C'],
      ['Time,Temp_F\n2026-07-14T05:31Z,62', 'F'], ['Time,Temperature Celsius\n2026-07-14T05:31Z,62', 'C'], ['Time,P1 [Â°C]\n2026-07-14T05:31Z,62', 'C'],
      ['Time,P1 (Cel)\n2026-07-14T05:31Z,62', 'C'], ['Time,P1 F,P2 F\n2026-07-14T05:31Z,62,63', 'F'], ['Time,P1\n(UTC),(degF)\n2026-07-14T05:31Z,62', 'F'],
      ['Time,P1\n2026-07-14T05:31Z,62 °F', 'F'], ['Time,P1\n2026-07-14T05:31Z,62.5C', 'C'], ['Time,P1,Unit\n2026-07-14T05:31Z,62,F', 'F'],
      ['Temperature unit: °C\nTime,P1\n2026-07-14T05:31Z,62', 'C'],
    ];
    for (const [text, unit] of files) expect([text, read(text).places[0]?.unit]).toEqual([text, unit]);
  });

  it('is asked once when one answer serves all columns', () => {
    const text = 'Time,P1,P2\n2026-07-14T05:31Z,62.8,61\n2026-07-14T05:32Z,63,145';
    expect(read(text).questions).toEqual([
      { id: 'unit', text: 'Are the numbers of the columns of readings in °F or °C? The numbers go from 61 to 145.', choices: [{ id: 'F', text: '°F' }, { id: 'C', text: '°C' }] },
    ]);
    expect(read(text, { answers: { unit: 'F' } }).places.map((place) => place.unit)).toEqual(['F', 'F']);
    expect(read(text, { answers: { 'unit:1': 'F', 'unit:2': 'C' } }).places.map((place) => place.unit)).toEqual(['F', 'C']);
  });

  it('is asked column by column when the file has both', () => {
    const text = 'Time,A (F),B (C),P3,P4\n2026-07-14T05:31Z,62,17,62,18';
    expect(asked(text)).toEqual(['unit:3', 'unit:4']);
    expect(asked(text, { answers: { 'unit:3': 'F' } })).toEqual(['unit:4']);
    expect(read(text, { answers: { 'unit:3': 'F', 'unit:4': 'C' } }).places.map((place) => place.unit)).toEqual(['F', 'C', 'F', 'C']);
  });

  it('is not taken from a letter that is a place’s name', () => {
    expect(asked('Time,Rack 2 A,Rack 2 B,Rack 2 C\n2026-07-14T05:31Z,62,63,64')).toEqual(['unit']);
    expect(asked('Time,Probe C\n2026-07-14T05:31Z,62')).toEqual(['unit']);
    const half = read('Time,P1 F,Chamber\n2026-07-14T05:31Z,62,180');
    expect(half.questions.map((question) => question.id)).toEqual(['unit']);
    expect(half.columns.map((column) => column.unit)).toEqual([null, null, null]);
  });
});

describe('The time zone', () => {
  it('is asked for local times only', () => {
    expect(asked(dated('2026-07-14 05:31'))).toEqual(['timeZone']);
    expect(asked(dated('2026-07-14 05:31+02:00'))).toEqual([]);
    expect(asked('Time (UTC),P1 (F)\n2026-07-14 05:31,62')).toEqual([]);
    expect(timesOf('Time GMT-07:00,P1 (F)\n2026-07-14 05:31,62', {})).toEqual(['2026-07-14T12:31:00.000Z']);
  });

  it('may be given with the file or as an answer, and the answer wins', () => {
    const text = dated('2026-07-14 05:31');
    expect(timesOf(text, { timeZone: 'America/Anchorage' })).toEqual(['2026-07-14T13:31:00.000Z']);
    expect(timesOf(text, { timeZone: 'UTC', answers: { timeZone: 'America/Anchorage' } })).toEqual(['2026-07-14T13:31:00.000Z']);
    expect(timesOf(text, { timeZone: '+05:30' })).toEqual(['2026-07-14T00:01:00.000Z']);
  });

  it('that doesn’t exist, or is only an abbreviation, is refused by its field', () => {
    for (const zone of ['Mars/Olympus', 'EST', '', 'America/']) {
      expect(readLog(dated('2026-07-14 05:31'), { timeZone: zone })).toMatchObject({ ok: false, problem: { field: 'timeZone', message: `“${zone}” is not a time zone.` } });
    }
    expect(readLog(dated('2026-07-14 05:31'), { answers: { timeZone: 'PDT' } })).toMatchObject({ ok: false, problem: { field: 'answers.timeZone' } });
  });
});

describe('The start of elapsed times', () => {
  const minutes = 'Minutes,P1 (F)\n0,40\n1.5,41';
  it('is read with an offset, or in the time zone', () => {
    expect(asked(minutes)).toEqual(['start']);
    expect(timesOf(minutes, { answers: { start: '2026-07-14T05:00:00-08:00' } })).toEqual(['2026-07-14T13:00:00.000Z', '2026-07-14T13:01:30.000Z']);
    expect(asked(minutes, { answers: { start: '2026-07-14 05:00' } })).toEqual(['timeZone']);
    expect(timesOf(minutes, { timeZone: 'America/Anchorage', answers: { start: '2026-07-14 05:00' } })).toEqual(['2026-07-14T13:00:00.000Z', '2026-07-14T13:01:30.000Z']);
  });

  it('runs on through a clock change', () => {
    const times = timesOf('Hours,P1 (F)\n0,40\n3,41', { timeZone: 'America/New_York', answers: { start: '2026-11-01 00:30' } });
    expect(times).toEqual(['2026-11-01T04:30:00.000Z', '2026-11-01T07:30:00.000Z']);
  });

  it('is refused in words when it can’t be read or came twice', () => {
    for (const start of ['yesterday', '7/4/2026 05:00', '2026-07-14']) {
      expect(readLog(minutes, { answers: { start } })).toMatchObject({ ok: false, problem: { field: 'answers.start', message: `“${start}” is not a start that can be read.` } });
    }
    expect(readLog(minutes, { timeZone: 'America/New_York', answers: { start: '2026-11-01 01:30' } })).toMatchObject({
      ok: false, problem: { message: 'The start “2026-11-01 01:30” came twice: the clocks went back.' },
    });
  });

  it('asks the unit of numbers when nothing tells it', () => {
    expect(asked('Time,P1 (F)\n0,40\n10,41')).toEqual(['elapsedUnit', 'start']);
    expect(timesOf('Time,P1 (F)\n0,40\n10,41', { answers: { elapsedUnit: 'minutes', start: '2026-07-14 05:00Z' } })).toEqual(['2026-07-14T05:00:00.000Z', '2026-07-14T05:10:00.000Z']);
    expect(asked('Elapsed,P1 (F)\n00:10,40\n00:20,41')).toEqual(['elapsedUnit', 'start']);
  });

  it('is only a day for clock times without a date, and midnight is passed', () => {
    const text = 'Clock time,P1 (F)\n23:59:30,40\n00:00:30,41';
    expect(read(text).questions.map((question) => question.text)).toEqual([
      'The clock times of the column “Clock time” have no date. On which day was the first row taken (such as 2026-07-14)?',
    ]);
    expect(timesOf(text, { timeZone: 'UTC', answers: { start: '2026-07-14' } })).toEqual(['2026-07-14T23:59:30.000Z', '2026-07-15T00:00:30.000Z']);
  });
});

describe('Answers', () => {
  const text = dated('2026-07-14T05:31Z');
  it('to an unknown question or with an unknown choice are refused by name', () => {
    const faults: readonly (readonly [Record<string, string>, string, string])[] = [
      [{ colour: 'red' }, 'answers.colour', '“colour” is not a question about this file.'],
      [{ 'unit:9': 'F' }, 'answers.unit:9', '“unit:9” is not a question about this file.'],
      [{ 'unit:01': 'F' }, 'answers.unit:01', '“unit:01” is not a question about this file.'],
      [{ toString: 'x' }, 'answers.toString', '“toString” is not a question about this file.'],
      [{ unit: 'K' }, 'answers.unit', '“K” is not a choice for “unit”.'],
      [{ dateOrder: 'sideways' }, 'answers.dateOrder', '“sideways” is not a choice for “dateOrder”.'],
      [{ 'role:1': 'king' }, 'answers.role:1', '“king” is not a choice for “role:1”.'],
    ];
    for (const [answers, field, message] of faults) expect(readLog(text, { answers })).toMatchObject({ ok: false, problem: { field, message } });
  });

  it('that the file doesn’t need are let pass, and the file’s own words win', () => {
    expect(read(text, { answers: { unit: 'C', dateOrder: 'day-first', start: 'whenever' } }).places[0]?.unit).toBe('F');
  });

  it('may give a column another role', () => {
    const file = 'Time,Battery,P1 (F)\n2026-07-14T05:31Z,61,62';
    expect(read(file).places.map((place) => place.name)).toEqual(['P1']);
    expect(read(file, { answers: { 'role:1': 'reading', unit: 'F' } }).places.map((place) => place.name)).toEqual(['Battery', 'P1']);
    expect(read(file, { answers: { 'role:2': 'ignore', 'role:1': 'reading', unit: 'F' } }).places.map((place) => place.name)).toEqual(['Battery']);
  });
});
