import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { localDay, localTime } from '../../app/measures/zone.ts';
import { offsetTeller, spanOfDays } from '../../main/backroom/services/export-days.ts';

const HOUR_MS = 3_600_000;
/** Half an hour of summer time, quarters of an hour, clocks that go back at midnight, and the kitchen's own. */
const ZONES = ['America/Chicago', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'America/Havana', 'America/Sao_Paulo', 'UTC'];

describe('the clock of a table', () => {
  it('is the kitchen’s at every instant, in weeks with a change of clocks too', () => {
    fc.assert(fc.property(fc.constantFrom(...ZONES), fc.array(fc.integer({ min: Date.UTC(2015, 0, 1), max: Date.UTC(2027, 0, 1) }), { minLength: 1, maxLength: 40 }), (zone, instants) => {
      const offsetMs = offsetTeller(zone);
      for (const atMs of instants) {
        const shown = new Date(atMs + offsetMs(atMs)).toISOString();
        expect([shown.slice(0, 10), shown.slice(11, 16)]).toEqual([localTime(atMs, zone).day, localTime(atMs, zone).clock]);
      }
    }));
    // The hour in which clocks in Chicago went back: 01:30 in summer time and an hour later again.
    const offsetMs = offsetTeller('America/Chicago');
    expect([Date.UTC(2026, 10, 1, 6, 30), Date.UTC(2026, 10, 1, 7, 30)].map((atMs) => offsetMs(atMs) / HOUR_MS)).toEqual([-5, -6]);
  });
});

describe('a stretch of days', () => {
  it.each([
    ['2026-11-01', 'America/Chicago', 25], ['2026-03-08', 'America/Chicago', 23], ['2026-07-14', 'America/Chicago', 24],
    // Clocks went back at 01:00 to midnight, which came twice; and on from midnight to 01:00.
    ['2026-11-01', 'America/Havana', 25], ['2018-11-04', 'America/Sao_Paulo', 23],
  ])('%s in %s has all of its hours and no other', (day, zone, hours) => {
    const { fromMs, toMs } = spanOfDays(day, day, zone);
    expect((toMs - fromMs) / HOUR_MS).toBe(hours);
    expect([fromMs - 1, fromMs, toMs - 1, toMs].map((atMs) => localDay(atMs, zone) === day)).toEqual([false, true, true, false]);
  });
});
