/**
 * Eight invented rows, one for each way in which thermometer loggers write their text, and the
 * first reading each must give. The expectations are computed by hand from the text (mark:
 * computed). The clock change of sample 5 follows the United States rule, 15 U.S.C. 260a: daylight
 * time ends at 02:00 on the first Sunday of November (mark: from memory).
 */
import { describe, expect, it } from 'vitest';
import { exactTicks } from '../../app/measures/temperature.ts';
import type { LogOptions, LogReading } from '../../app/probes/log-types.ts';
import { readLog } from '../../app/probes/read-log.ts';

function read(text: string, options: LogOptions = {}): LogReading {
  const outcome = readLog(text, { fileName: 'sample.csv', ...options });
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function questionsOf(reading: LogReading): readonly string[] {
  return reading.questions.map((question) => question.id);
}

/** Each place as its points `[ISO instant, value]`. */
function pointsOf(reading: LogReading): readonly (readonly (readonly [string, number])[])[] {
  return reading.places.map((place) => place.atMs.map((atMs, index) => [new Date(atMs).toISOString(), place.values[index] ?? Number.NaN] as const));
}

describe('The sample rows of logger dialects', () => {
  it('1: semicolons, decimal comma, European date and clock apart, unit in brackets', () => {
    const text = 'Date;Time;P1 [°C];P2 [°C]\n14.07.2026;05:31:10;62,8;61,9\n';
    expect(questionsOf(read(text))).toEqual(['timeZone']);
    const reading = read(text, { timeZone: 'UTC' });
    expect(reading.columns.map((column) => [column.role, column.unit])).toEqual([['date', null], ['clock', null], ['reading', 'C'], ['reading', 'C']]);
    expect(pointsOf(reading)).toEqual([[['2026-07-14T05:31:10.000Z', 62.8]], [['2026-07-14T05:31:10.000Z', 61.9]]]);
  });

  it('2: a date that is 4 July or 7 April is asked about; the values are 62.78 and 61.89 °C', () => {
    const text = 'Timestamp,Probe 1 (F),Probe 2 (F)\n7/4/2026 5:31:10 AM,145.0,143.4\n';
    const asked = read(text, { timeZone: 'UTC' });
    expect(questionsOf(asked)).toEqual(['dateOrder']);
    expect(asked.questions[0]?.choices.map((choice) => choice.id)).toEqual(['day-first', 'month-first']);
    expect(asked.places).toEqual([]);
    const july = read(text, { timeZone: 'UTC', answers: { dateOrder: 'month-first' } });
    expect(pointsOf(july)).toEqual([[['2026-07-04T05:31:10.000Z', 145]], [['2026-07-04T05:31:10.000Z', 143.4]]]);
    const april = read(text, { timeZone: 'UTC', answers: { dateOrder: 'day-first' } });
    expect(pointsOf(april)[0]).toEqual([['2026-04-07T05:31:10.000Z', 145]]);
    expect(july.places.map((place) => Math.round((place.lowTicks[0] ?? 0) / 90) / 100)).toEqual([62.78, 61.89]);
  });

  it('3: opening lines, a units row, elapsed seconds that need a start, and a missing reading', () => {
    const text = 'Logger,SN 0001\nStart,2026-07-14\n\nElapsed (s),T1,T2\n(s),(degC),(degC)\n30,10.4,---\n';
    const asked = read(text);
    expect(questionsOf(asked)).toEqual(['start']);
    expect(asked.questions[0]?.text).toContain('Start,2026-07-14');
    const reading = read(text, { answers: { start: '2026-07-14T05:00:00Z' } });
    expect(pointsOf(reading)).toEqual([[['2026-07-14T05:00:30.000Z', 10.4]], []]);
    expect(reading.places.map((place) => [place.name, place.unit])).toEqual([['T1', 'C'], ['T2', 'C']]);
    expect(reading.refusedRows).toEqual([]);
  });

  it('4: tabs, an offset, no headings, and a probe that is open', () => {
    const text = '2026-07-14T05:31:10+02:00\t62.8\tOL\n';
    expect(questionsOf(read(text))).toEqual(['unit']);
    const reading = read(text, { answers: { unit: 'C' } });
    expect(pointsOf(reading)).toEqual([[['2026-07-14T03:31:10.000Z', 62.8]], []]);
    expect(reading.refusedRows).toEqual([]);
  });

  it('5: the second row is the repeated hour, 10 minutes later', () => {
    const text = '"2026-11-01 01:50","63.1"\n"2026-11-01 01:00","63.3"\n';
    const reading = read(text, { timeZone: 'America/New_York', answers: { unit: 'C' } });
    expect(pointsOf(reading)).toEqual([[['2026-11-01T05:50:00.000Z', 63.1], ['2026-11-01T06:00:00.000Z', 63.3]]]);
    expect(reading.remarks).toEqual([]);
  });

  it('6: a spreadsheet’s serial number and a unit behind the value', () => {
    const reading = read('45852.25;62,80 °C\n', { timeZone: 'UTC' });
    expect(pointsOf(reading)).toEqual([[['2025-07-14T06:00:00.000Z', 62.8]]]);
    expect(reading.places[0]?.unit).toBe('C');
    expect(reading.places[0]?.texts).toEqual(['62,80']);
    expect(reading.places[0]?.lowTicks).toEqual([exactTicks(62.8, 'C')]);
  });

  it('7: milliseconds since 1970', () => {
    const reading = read('1784005870000,62.8\n', { answers: { unit: 'C' } });
    expect(pointsOf(reading)).toEqual([[['2026-07-14T05:11:10.000Z', 62.8]]]);
  });

  it('8: bars, the clock first with tenths, a two-digit year, 145,0 °F = 62.78 °C', () => {
    const reading = read('05:31:10.500 14/07/26|145,0 °F\n', { timeZone: 'UTC' });
    expect(pointsOf(reading)).toEqual([[['2026-07-14T05:31:10.500Z', 145]]]);
    expect(reading.places[0]?.unit).toBe('F');
    expect(Math.round((reading.places[0]?.lowTicks[0] ?? 0) / 90) / 100).toBe(62.78);
  });
});
