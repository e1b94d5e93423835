/** Local times over the nights when clocks are changed. New York 2026: forward on 8 March, back on 1 November at 02:00. */
import { describe, expect, it } from 'vitest';
import type { LogOptions, LogReading } from '../../app/probes/log-types.ts';
import { openZone, type LogZone, type WallMeaning } from '../../app/probes/log-zone.ts';
import { readLog } from '../../app/probes/read-log.ts';

function read(lines: readonly string[], options: LogOptions = {}): LogReading {
  const outcome = readLog(['Time,P1 (F)', ...lines].join('\n'), { timeZone: 'America/New_York', ...options });
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function rowsAt(...times: readonly string[]): readonly string[] {
  return times.map((time, index) => `${time},${60 + index}`);
}

/** The clock times in UTC of the first place. */
function utcOf(reading: LogReading): readonly string[] {
  return (reading.places[0]?.atMs ?? []).map((atMs) => new Date(atMs).toISOString().slice(11, 16));
}

function zone(name: string): LogZone {
  const opened = openZone(name, 'timeZone');
  if (!opened.ok) throw new Error(opened.problem.message);
  return opened.value;
}

function meaningAt(name: string, wall: string): WallMeaning {
  return zone(name).meaningOf(Date.parse(`${wall}Z`));
}

describe('The repeated hour', () => {
  it('is settled by a single jump back in a log that goes on evenly', () => {
    const times = ['00:50', '01:10', '01:30', '01:50', '01:10', '01:30', '01:50', '02:10'].map((time) => `2026-11-01 ${time}`);
    const reading = read(rowsAt(...times));
    expect(reading.questions).toEqual([]);
    expect(utcOf(reading)).toEqual(['04:50', '05:10', '05:30', '05:50', '06:10', '06:30', '06:50', '07:10']);
    expect(reading.remarks).toEqual([]);
  });

  it('is settled channel by channel in a long file', () => {
    const outcome = readLog(
      ['Time,Channel,Value (F)', ...['01:40', '01:50', '01:00', '01:10'].flatMap((time) => [`2026-11-01 ${time},A,60`, `2026-11-01 ${time},B,61`])].join('\n'),
      { timeZone: 'America/New_York' },
    );
    if (!outcome.ok) throw new Error(outcome.problem.message);
    expect(outcome.value.places.map((place) => place.atMs.map((atMs) => new Date(atMs).toISOString().slice(11, 16)))).toEqual([
      ['05:40', '05:50', '06:00', '06:10'],
      ['05:40', '05:50', '06:00', '06:10'],
    ]);
  });

  it('is settled in a log that is written newest first', () => {
    const times = ['02:10', '01:50', '01:30', '01:10', '01:50', '01:30', '01:10', '00:50', '00:30'].map((time) => `2026-11-01 ${time}`);
    expect(utcOf(read(rowsAt(...times)))).toEqual(['07:10', '06:50', '06:30', '06:10', '05:50', '05:30', '05:10', '04:50', '04:30']);
  });

  it('is asked when no jump shows which pass the rows are from', () => {
    const rows = rowsAt('2026-11-01 00:50', '2026-11-01 01:10', '2026-11-01 01:30', '2026-11-01 02:30');
    const asked = read(rows);
    expect(asked.questions).toMatchObject([{ id: 'clockChange', text: 'On 1 Nov 2026 the clocks went back, so the times of 2 rows from line 3 on came twice. Which are these?' }]);
    expect(asked.questions[0]?.choices.map((choice) => choice.id)).toEqual(['first', 'second', 'not-changed', 'refuse']);
    expect(asked.places).toEqual([]);
    const answers = { first: ['04:50', '05:10', '05:30', '07:30'], second: ['04:50', '06:10', '06:30', '07:30'], 'not-changed': ['04:50', '05:10', '05:30', '06:30'], refuse: ['04:50', '07:30'] };
    for (const [clockChange, utc] of Object.entries(answers)) expect([clockChange, utcOf(read(rows, { answers: { clockChange } }))]).toEqual([clockChange, utc]);
    expect(read(rows, { answers: { clockChange: 'refuse' } }).refusedRows).toEqual([
      { line: 3, reason: '1 Nov 2026 01:10:00 came twice, and the file doesn’t say which it was.' },
      { line: 4, reason: '1 Nov 2026 01:30:00 came twice, and the file doesn’t say which it was.' },
    ]);
  });

  it('is asked when the same time twice may be a repeated row or an hour later', () => {
    const rows = rowsAt('2026-11-01 00:00', '2026-11-01 01:00', '2026-11-01 01:00', '2026-11-01 02:00');
    expect(read(rows).questions[0]?.choices.map((choice) => choice.id)).toContain('repeat');
    expect(utcOf(read(rows, { answers: { clockChange: 'repeat' } }))).toEqual(['04:00', '05:00', '06:00', '07:00']);
    expect(utcOf(read(rows, { answers: { clockChange: 'first' } }))).toEqual(['04:00', '05:00', '05:00', '07:00']);
  });

  it('is asked when the jump is no hour: a minute’s step back in a log by the minute', () => {
    const times = ['01:20', '01:21', '01:20', '01:21', '01:22'].map((time) => `2026-11-01 ${time}`);
    expect(read(rowsAt('2026-11-01 00:59', ...times)).questions.map((question) => question.id)).toEqual(['clockChange']);
  });

  it('is asked when there are two jumps, or the rows don’t follow one another', () => {
    const twice = ['01:10', '01:40', '01:05', '01:35', '01:10'].map((time) => `2026-11-01 ${time}`);
    expect(read(rowsAt(...twice)).questions.map((question) => question.id)).toEqual(['clockChange']);
    const broken = ['01:30', '01:50', '02:05', '01:10', '01:30'].map((time) => `2026-11-01 ${time}`);
    expect(read(rowsAt(...broken)).questions.map((question) => question.id)).toEqual(['clockChange']);
  });

  it('is asked when the row behind it is earlier again', () => {
    const times = ['01:30', '01:50', '01:10', '00:40'].map((time) => `2026-11-01 ${time}`);
    expect(read(rowsAt(...times)).questions.map((question) => question.id)).toEqual(['clockChange']);
    expect(read(rowsAt(...times.slice(0, 3))).questions).toEqual([]);
  });

  it('refuses a choice that isn’t offered', () => {
    const rows = rowsAt('2026-11-01 00:50', '2026-11-01 01:10');
    const outcome = readLog(['Time,P1 (F)', ...rows].join('\n'), { timeZone: 'America/New_York', answers: { clockChange: 'repeat' } });
    expect(outcome).toMatchObject({ ok: false, problem: { field: 'answers.clockChange', message: '“repeat” is not one of the choices for the clock change.' } });
  });

  it('is no matter where the clock isn’t changed or the offset is written', () => {
    const rows = rowsAt('2026-11-01 00:50', '2026-11-01 01:10');
    expect(read(rows, { timeZone: 'America/Phoenix' }).questions).toEqual([]);
    expect(utcOf(read(rowsAt('2026-11-01 01:30-04:00', '2026-11-01 01:30-05:00')))).toEqual(['05:30', '06:30']);
  });
});

describe('The missing hour', () => {
  it('is a hole of an hour on the clock and no gap in time', () => {
    expect(utcOf(read(rowsAt('2026-03-08 01:50', '2026-03-08 03:00', '2026-03-08 03:10')))).toEqual(['06:50', '07:00', '07:10']);
  });

  it('is asked when a row stands in it, never guessed', () => {
    const rows = rowsAt('2026-03-08 01:50', '2026-03-08 02:10', '2026-03-08 03:10');
    const asked = read(rows);
    expect(asked.questions).toMatchObject([
      { id: 'clockChange', text: '8 Mar 2026 02:10:00 on line 3 did not exist: the clocks went forward over it (1 row). How did the logger’s clock go?' },
    ]);
    expect(asked.places).toEqual([]);
    expect(utcOf(read(rows, { answers: { clockChange: 'not-changed' } }))).toEqual(['06:50', '07:10', '08:10']);
    const refused = read(rows, { answers: { clockChange: 'refuse' } });
    expect(utcOf(refused)).toEqual(['06:50', '07:10']);
    expect(refused.refusedRows).toEqual([{ line: 3, reason: '8 Mar 2026 02:10:00 did not exist: the clocks went forward over it.' }]);
    expect(refused.counts).toMatchObject({ read: 2, refused: 1 });
  });
});

describe('A zone', () => {
  it('knows what a wall time means to the minute around both changes', () => {
    expect(meaningAt('America/New_York', '2026-11-01T00:59:59.999')).toEqual({ kind: 'one', atMs: Date.parse('2026-11-01T04:59:59.999Z') });
    expect(meaningAt('America/New_York', '2026-11-01T01:00')).toEqual({ kind: 'repeated', earlierMs: Date.parse('2026-11-01T05:00Z'), laterMs: Date.parse('2026-11-01T06:00Z') });
    expect(meaningAt('America/New_York', '2026-11-01T01:59:59.999').kind).toBe('repeated');
    expect(meaningAt('America/New_York', '2026-11-01T02:00')).toEqual({ kind: 'one', atMs: Date.parse('2026-11-01T07:00Z') });
    expect(meaningAt('America/New_York', '2026-03-08T01:59:59.999').kind).toBe('one');
    expect(meaningAt('America/New_York', '2026-03-08T02:00').kind).toBe('skipped');
    expect(meaningAt('America/New_York', '2026-03-08T03:00')).toEqual({ kind: 'one', atMs: Date.parse('2026-03-08T07:00Z') });
  });

  it('knows half-hour changes, fixed offsets and UTC', () => {
    expect(meaningAt('Australia/Lord_Howe', '2026-04-05T01:45').kind).toBe('repeated');
    expect(meaningAt('Australia/Lord_Howe', '2026-04-05T01:15').kind).toBe('one');
    expect(meaningAt('-08:00', '2026-11-01T01:30')).toEqual({ kind: 'one', atMs: Date.parse('2026-11-01T09:30Z') });
    expect(meaningAt('UTC', '2026-11-01T01:30')).toEqual({ kind: 'one', atMs: Date.parse('2026-11-01T01:30Z') });
  });

  it('agrees with the platform’s own calendar every 20 minutes of two years', () => {
    const kitchen = zone('America/Anchorage');
    const local = new Intl.DateTimeFormat('en-CA', { timeZone: 'America/Anchorage', hourCycle: 'h23', year: 'numeric', month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit' });
    const astray: string[] = [];
    for (let atMs = Date.UTC(2026, 0, 1); atMs < Date.UTC(2028, 0, 1); atMs += 1_200_000) {
      const part = Object.fromEntries(local.formatToParts(atMs).map(({ type, value }) => [type, Number(value)]));
      const wallMs = Date.UTC(part['year'] ?? 0, (part['month'] ?? 1) - 1, part['day'], part['hour'], part['minute']);
      const meaning = kitchen.meaningOf(wallMs);
      const instants = meaning.kind === 'one' ? [meaning.atMs] : meaning.kind === 'repeated' ? [meaning.earlierMs, meaning.laterMs] : [];
      if (!instants.includes(atMs)) astray.push(new Date(atMs).toISOString());
    }
    expect(astray).toEqual([]);
  });
});
