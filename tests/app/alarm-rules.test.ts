import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockWords } from '../../app/limits/words.ts';
import { exactTicks } from '../../app/measures/temperature.ts';
import { quietUntilMs, QUIET_MS } from '../../app/probes/alarm-quiet.ts';
import { coldChamberDrifting, coolingTooSlow, hotChamberDrifting, pieceTooSlow, probeSilent, roundOverdue } from '../../app/probes/alarm-rules.ts';
import { reachMs, trendOf, type ReadAt } from '../../app/probes/alarm-trend.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const f = (degrees: number): number => exactTicks(degrees, 'F');
const clock = (ms: number): string => `${String(Math.floor(ms / HOUR)).padStart(2, '0')}:${String(Math.floor((ms % HOUR) / MINUTE)).padStart(2, '0')}`;
const WORDS = clockWords('F', clock);

function read(points: readonly (readonly [minute: number, degrees: number])[]): ReadAt[] {
  return points.map(([minute, degrees]) => ({ atMs: minute * MINUTE, ticks: f(degrees) }));
}
/** A reading a minute from one minute and temperature to another. */
function ramp(from: number, to: number, fromF: number, toF: number): ReadAt[] {
  return Array.from({ length: to - from + 1 }, (_, index) => ({ atMs: (from + index) * MINUTE, ticks: Math.round(f(fromF) + ((f(toF) - f(fromF)) * index) / (to - from)) }));
}

describe('the line through the last 20 minutes', () => {
  it('is the line itself where the readings lie on one, whatever came before', () => {
    fc.assert(fc.property(fc.integer({ min: -40, max: 40 }), fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 30 }), (perMinute, before) => {
      const readings = [...before.map((degrees, index) => ({ atMs: index * MINUTE, ticks: f(degrees) })), ...Array.from({ length: 21 }, (_, index) => ({ atMs: (100 + index) * MINUTE, ticks: f(100) + index * perMinute * 500 }))];
      expect((trendOf(readings)?.ticksPerMs ?? Number.NaN) * MINUTE).toBeCloseTo(perMinute * 500, 6);
    }));
  });

  it('goes through the last two readings where it is read more rarely, and is none where they are too near or too far', () => {
    expect(trendOf(read([[0, 100], [40, 120]]))).toMatchObject({ basis: 'last-two-readings', lastTicks: f(120) });
    expect(trendOf(read([[0, 100], [3, 120]]))).toBeUndefined();
    expect(trendOf(read([[0, 100], [121, 60]]))).toBeUndefined();
    expect(trendOf([])).toBeUndefined();
  });

  it('reaches a temperature ahead of it, and one behind it never', () => {
    const trend = trendOf(ramp(0, 20, 100, 120));
    if (trend === undefined) throw new Error('no line');
    expect(reachMs(trend, f(145)) / MINUTE).toBeCloseTo(45, 6);
    expect(reachMs(trend, f(90))).toBe(Infinity);
    expect(reachMs({ ...trend, ticksPerMs: 0 }, f(145))).toBe(Infinity);
  });
});

describe('a piece that heats', () => {
  const piece = { name: 'Piece 1', limitTicks: f(145), limitText: '145 °F', requiredMs: 30 * MINUTE, provenMs: 0, inMs: 0, latestOutMs: 5 * HOUR, nowMs: 2 * HOUR };

  it('is warned of when it will not have been kept long enough in time, with the line named', () => {
    const alarm = pieceTooSlow({ ...piece, readings: ramp(60, 120, 85, 115) }, WORDS);
    expect(alarm).toBeUndefined();
    const slow = pieceTooSlow({ ...piece, readings: ramp(60, 120, 95, 115), latestOutMs: 3.5 * HOUR }, WORDS);
    expect(slow?.text).toBe('Piece 1 reaches 145 °F at about 03:30: with 30 min to keep it is done at 04:00, and it must be out by 03:30.');
    expect(slow?.ground).toMatch(/^By a straight line through its last 20 minutes\. .*hopeful case/);
    expect(slow?.level).toBe(2);
  });

  it('is warned of when it rises no more, also where nobody knows when it must be out', () => {
    expect(pieceTooSlow({ ...piece, readings: ramp(60, 120, 140, 140), latestOutMs: null }, WORDS)?.text).toBe('Piece 1 is at 140 °F and rises no more: it will not reach 145 °F.');
    expect(pieceTooSlow({ ...piece, readings: ramp(60, 120, 100, 101), latestOutMs: null }, WORDS)).toBeUndefined();
  });

  it('counts what it has kept, and is not warned of once it has kept enough', () => {
    const hot = { ...piece, readings: ramp(60, 120, 145, 147), latestOutMs: 2 * HOUR + 15 * MINUTE };
    expect(pieceTooSlow({ ...hot, provenMs: 10 * MINUTE }, WORDS)?.text).toBe('Piece 1 has kept 10 of 30 min: done at 02:20 at the earliest, and it must be out by 02:15.');
    expect(pieceTooSlow({ ...hot, provenMs: 15 * MINUTE }, WORDS)).toBeUndefined();
    expect(pieceTooSlow({ ...hot, provenMs: 30 * MINUTE, latestOutMs: HOUR }, WORDS)).toBeUndefined();
  });

  it('is left alone while it is still cold from the brine', () => {
    expect(pieceTooSlow({ ...piece, readings: ramp(0, 44, 40, 40) }, WORDS)).toBeUndefined();
    expect(pieceTooSlow({ ...piece, readings: ramp(0, 45, 40, 40) }, WORDS)).toBeDefined();
  });
});

describe('a chamber', () => {
  const hot = { limitTicks: f(145), limitText: '145 °F' };
  const cold = { limitTicks: f(90), limitText: '90 °F' };

  it('of a hot smoke is warned of when it has fallen below what the pieces must reach, and gets worse as it falls', () => {
    const at = (degrees: number) => hotChamberDrifting({ ...hot, readings: [...ramp(0, 60, 70, 180), ...read([[61, degrees]])] }, WORDS);
    expect(at(144)).toMatchObject({ level: 1, text: 'The chamber has fallen to 144 °F, below the 145 °F that the pieces must reach.' });
    expect(at(130)?.level).toBe(4);
    expect(hotChamberDrifting({ ...hot, readings: ramp(0, 60, 70, 140) }, WORDS)).toBeUndefined();
  });

  it('of a hot smoke is warned of when it loses 15 °F in 20 minutes', () => {
    expect(hotChamberDrifting({ ...hot, readings: [...ramp(0, 60, 70, 190), ...ramp(61, 81, 190, 175)] }, WORDS)?.text).toBe('The chamber is losing heat: 175 °F, and 15.0 °F less every 20 minutes.');
    expect(hotChamberDrifting({ ...hot, readings: [...ramp(0, 60, 70, 190), ...ramp(61, 81, 190, 176)] }, WORDS)).toBeUndefined();
  });

  it('of a cold smoke is warned of when it is over its ceiling, and within 20 minutes of it by the line', () => {
    expect(coldChamberDrifting({ ...cold, readings: read([[0, 90.1]]) }, WORDS)?.text).toBe('The chamber is at 90.1 °F, over 90 °F.');
    expect(coldChamberDrifting({ ...cold, readings: ramp(0, 20, 60, 76) }, WORDS)).toMatchObject({ level: 0, text: 'The chamber is at 76 °F and will be over 90 °F at about 00:38.' });
    expect(coldChamberDrifting({ ...cold, readings: ramp(0, 20, 60, 74) }, WORDS)).toBeUndefined();
    expect(coldChamberDrifting({ ...cold, readings: [] }, WORDS)).toBeUndefined();
  });
});

describe('a piece that cools', () => {
  const piece = { name: 'Piece 1', goalTicks: f(70), goalText: '70 °F or less', byMs: 2 * HOUR, nowMs: HOUR };

  it('is warned of when the line gets there too late, or never', () => {
    expect(coolingTooSlow({ ...piece, readings: ramp(0, 60, 145, 107.5) }, WORDS)).toBeUndefined();
    expect(coolingTooSlow({ ...piece, readings: ramp(0, 60, 145, 115) }, WORDS)).toMatchObject({ level: 2, text: 'Piece 1 is at 115 °F and gets to 70 °F or less at about 02:30: it must show 70 °F or less by 02:00.' });
    expect(coolingTooSlow({ ...piece, readings: ramp(0, 60, 100, 100) }, WORDS)?.text).toBe('Piece 1 is at 100 °F and falls no more: it will not show 70 °F or less by 02:00.');
  });

  it('is told when its time has passed, and nothing more is said once the goal is shown', () => {
    expect(coolingTooSlow({ ...piece, nowMs: 3 * HOUR, readings: read([[50, 80]]) }, WORDS)).toMatchObject({ level: 4, text: 'Piece 1 should have shown 70 °F or less by 02:00; it was last read at 80 °F.' });
    expect(coolingTooSlow({ ...piece, nowMs: 3 * HOUR, readings: read([[50, 70]]) }, WORDS)).toBeUndefined();
    expect(coolingTooSlow({ ...piece, readings: [] }, WORDS)).toBeUndefined();
  });
});

describe('a probe and a round', () => {
  it('are warned of from the gap and from the due time on, not before', () => {
    const heard = { name: 'Piece 1', lastMs: HOUR, gapMs: 5 * MINUTE };
    expect(probeSilent({ ...heard, nowMs: HOUR + 5 * MINUTE }, WORDS)).toBeUndefined();
    expect(probeSilent({ ...heard, nowMs: HOUR + 5 * MINUTE + 1 }, WORDS)).toMatchObject({ level: 0, text: 'Piece 1 has sent nothing since 01:00.' });
    expect(roundOverdue({ text: 'Read it.', dueMs: HOUR, nowMs: HOUR }, WORDS)).toBeUndefined();
    expect(roundOverdue({ text: 'Read it.', dueMs: HOUR, nowMs: HOUR + 16 * MINUTE }, WORDS)).toMatchObject({ level: 1, text: 'Read it.' });
  });
});

describe('an acknowledged alarm', () => {
  it('is quiet for a quarter of an hour, unless it gets worse', () => {
    expect(quietUntilMs(2, undefined, HOUR)).toBeNull();
    expect(quietUntilMs(2, { atMs: HOUR, level: 2 }, HOUR + 1)).toBe(HOUR + QUIET_MS);
    expect(quietUntilMs(1, { atMs: HOUR, level: 2 }, HOUR + 1)).toBe(HOUR + QUIET_MS);
    expect(quietUntilMs(3, { atMs: HOUR, level: 2 }, HOUR + 1)).toBeNull();
    expect(quietUntilMs(2, { atMs: HOUR, level: 2 }, HOUR + QUIET_MS)).toBeNull();
  });
});
