/** Where the table lies and what its columns hold: wide and long files, headings, units, opening lines. */
import { describe, expect, it } from 'vitest';
import type { LogOptions, LogReading } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';

function read(text: string, options: LogOptions = {}): LogReading {
  const outcome = readLog(text, { timeZone: 'UTC', ...options });
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function rolesOf(reading: LogReading): readonly string[] {
  return reading.columns.map((column) => column.role);
}

function namesOf(reading: LogReading): readonly string[] {
  return reading.places.map((place) => `${place.name} °${place.unit}`);
}

describe('The delimiter', () => {
  it('is the one that lets rows be read: semicolon, tab, comma or bar', () => {
    for (const mark of [';', '\t', ',', '|']) {
      const reading = read([['Time', 'P1 (C)', 'P2 (C)'], ['2026-07-14 05:31', '"62,8"', '61.9']].map((row) => row.join(mark)).join('\n'));
      expect(reading.places.map((place) => place.values)).toEqual([[62.8], [61.9]]);
    }
  });

  it('may be stated in the first line', () => {
    expect(read('sep=;\nTime;P1 (C)\n2026-07-14 05:31;62,8\n').places[0]?.values).toEqual([62.8]);
  });

  it('at the end of every line makes no column of readings', () => {
    const reading = read('Time;P1 (C);\r\n2026-07-14 05:31;62,8;\r\n;;\r\n\r\n');
    expect(rolesOf(reading)).toEqual(['time', 'reading', 'ignore']);
    expect(reading.counts).toEqual({ lines: 4, opening: 1, blank: 2, read: 1, refused: 0 });
  });
});

describe('The headings', () => {
  it('lie above the data under any opening lines, also where these hold numbers', () => {
    const reading = read('Recorder,12345\nInterval,60\n\nTime,Temp (F)\n2026-07-14 05:31,63\n2026-07-14 05:32,64\n');
    expect(reading.columns.map((column) => column.heading)).toEqual(['Time', 'Temp (F)']);
    expect(reading.counts).toEqual({ lines: 6, opening: 3, blank: 1, read: 2, refused: 0 });
  });

  it('may be bare numbers', () => {
    expect(namesOf(read('Recorder,Model,X\nTime,1,2\n2026-07-14 05:31,63,62\n', { answers: { unit: 'F' } }))).toEqual(['1 °F', '2 °F']);
  });

  it('are not taken from opening lines right above a table without headings', () => {
    expect(namesOf(read('Recorder,12345\n2026-07-14 05:31,63 F\n2026-07-14 05:32,64 F\n'))).toEqual(['Column 2 °F']);
  });

  it('give the places’ names without the unit, and the same name twice is told apart', () => {
    expect(namesOf(read('Time,Piece 1 [°F],"Piece 2, degF",Temp (F),Temp (F)\n2026-07-14 05:31,1,2,3,4\n'))).toEqual(['Piece 1 °F', 'Piece 2 °F', 'Temp °F', 'Temp (column 5) °F']);
  });

  it('may be more than the fields of rows that leave off an empty end', () => {
    const reading = read('Time,P1 (F),Note\n2026-07-14 05:31,63\n2026-07-14 05:32,64,turned\n2026-07-14 05:33,65\n');
    expect(rolesOf(reading)).toEqual(['time', 'reading', 'note']);
    expect(reading.places[0]?.values).toEqual([63, 64, 65]);
  });
});

describe('The columns of a wide file', () => {
  it('that hold counters, other quantities, set points and notes are no places', () => {
    const reading = read('#,Date,Time,CH1 (°C),RH (%),Battery (V),Set point (°C),Note\n1,14/07/2026,05:31,62.8,50,3.6,70,in\n2,14/07/2026,05:32,62.9,51,3.6,70,\n');
    expect(rolesOf(reading)).toEqual(['ignore', 'date', 'clock', 'reading', 'ignore', 'ignore', 'ignore', 'note']);
    expect(reading.columns.map((column) => column.unit)).toEqual([null, null, null, 'C', null, null, null, null]);
  });

  it('that count the rows are no places, with a heading or without', () => {
    const rows = Array.from({ length: 25 }, (_, index) => `${index + 1},2026-07-14 05:${index + 10},${60 + (index % 7)}`);
    expect(rolesOf(read(rows.join('\n')))).toEqual(['ignore', 'time', 'reading']);
    expect(rolesOf(read(['No.,Time,P1', ...rows.slice(0, 2)].join('\n')))).toEqual(['ignore', 'time', 'reading']);
  });

  it('include a probe that never read', () => {
    const reading = read('Time,A,B\n2026-07-14 05:31,63 F,OL\n2026-07-14 05:32,64 F,OL\n');
    expect(namesOf(reading)).toEqual(['A °F', 'B °F']);
    expect(reading.places[1]?.values).toEqual([]);
    expect(reading.counts.read).toBe(2);
  });

  it('may each have a unit column', () => {
    expect(namesOf(read('Time,T1,u1,T2,u2\n2026-07-14 05:31,63,F,17,C\n'))).toEqual(['T1 °F', 'T2 °C']);
  });

  it('named Probe and Chamber are two places, not a channel and a reading', () => {
    expect(namesOf(read('Time,Probe,Chamber\n2026-07-14 05:31,145,180\n2026-07-14 05:32,145,180\n', { answers: { unit: 'F' } }))).toEqual(['Probe °F', 'Chamber °F']);
  });

  it('with two times use the first and say so', () => {
    const reading = read('Uploaded,Measured,P1 (F)\n2026-07-15 00:00,2026-07-14 05:31,63\n');
    expect(rolesOf(reading)).toEqual(['ignore', 'time', 'reading']);
    expect(reading.remarks).toEqual([{ text: 'Two columns hold times; the column “Measured” is used and the column “Uploaded” is not.' }]);
  });

  it('may hold a date written with midnight beside the clock', () => {
    const reading = read('Date,Time,P1 (F)\n7/14/2026 12:00:00 AM,5:31 AM,63\n');
    expect(new Date(reading.places[0]?.atMs[0] ?? 0).toISOString()).toBe('2026-07-14T05:31:00.000Z');
  });
});

describe('A long file', () => {
  const rows = ['2026-07-14 05:31,P1,62.8,C', '2026-07-14 05:31,Chamber,180,F', '2026-07-14 05:32,P1,62.9,C', '2026-07-14 05:32,Chamber,181,F'];

  it('has a place for each channel with its own unit', () => {
    const reading = read(['Time,Channel,Value,Unit', ...rows].join('\n'));
    expect(rolesOf(reading)).toEqual(['time', 'channel', 'reading', 'unit']);
    expect(namesOf(reading)).toEqual(['P1 °C', 'Chamber °F']);
    expect(reading.columns[2]?.unit).toBeNull();
    expect(reading.places.map((place) => place.lines)).toEqual([[2, 4], [3, 5]]);
    expect(reading.remarks).toEqual([]);
  });

  it('is known without headings by its times coming again', () => {
    expect(namesOf(read(rows.join('\n')))).toEqual(['P1 °C', 'Chamber °F']);
  });

  it('may number its channels, or write one after the other', () => {
    expect(namesOf(read('Time,Channel,Temp (F)\n2026-07-14 05:31,1,62\n2026-07-14 05:31,2,180\n2026-07-14 05:32,1,62\n2026-07-14 05:32,2,181'))).toEqual(['1 °F', '2 °F']);
    const blocks = read('Time,Probe,Temp (F)\n2026-07-14 05:31,A,62\n2026-07-14 05:32,A,63\n2026-07-14 05:31,B,180\n2026-07-14 05:32,B,181');
    expect(blocks.places.map((place) => place.values)).toEqual([[62, 63], [180, 181]]);
    expect(blocks.remarks).toEqual([]);
  });
});

describe('Times as numbers', () => {
  it('since 1970 are known by their size in seconds, milliseconds and microseconds', () => {
    for (const time of ['1784005870', '1784005870000', '1784005870000000']) {
      expect(new Date(read(`ts,P1 (C)\n${time},62.8\n`).places[0]?.atMs[0] ?? 0).toISOString()).toBe('2026-07-14T05:11:10.000Z');
    }
  });

  it('as serials are local times and end on the millisecond', () => {
    const reading = read('Date,P1 (C)\n45852.229976851855,62.8\n', { timeZone: 'America/Anchorage' });
    expect(new Date(reading.places[0]?.atMs[0] ?? 0).toISOString()).toBe('2025-07-14T13:31:10.000Z');
  });

  it('in seconds since the start are no serials, however large', () => {
    expect(rolesOf(read('Elapsed (s),P1 (C)\n45852,62.8\n45862,62.9\n'))).toEqual(['elapsed', 'reading']);
    expect(rolesOf(read('Time (s),P1 (C)\n45852,62.8\n45862,62.9\n'))).toEqual(['elapsed', 'reading']);
  });

  it('outside of 1990 to 2199 refuse their row', () => {
    const reading = read('ts,P1 (C)\n1784005870,62.8\n12,62.9\n1784005930,63.0\n');
    expect(reading.refusedRows).toEqual([{ line: 3, reason: '“12” in the column “ts” is not a time between 1990 and 2199.' }]);
  });
});

describe('The values', () => {
  it('stay as written beside exact ticks, and more decimals than a tick holds give both neighbours', () => {
    const [place] = read('Time;P1 (C)\n2026-07-14 05:31;62,80\n2026-07-14 05:32;62,77999878\n').places;
    expect(place?.texts).toEqual(['62,80', '62,77999878']);
    expect(place?.values).toEqual([62.8, 62.77999878]);
    expect(place?.lowTicks).toEqual([565_200, 565_019]);
    expect(place?.highTicks).toEqual([565_200, 565_020]);
  });
});
