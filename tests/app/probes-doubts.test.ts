import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minuteWords } from '../../app/limits/words.ts';
import { findDoubts, type Doubt, type DoubtRecord, type RecordedTicks } from '../../app/probes/doubts.ts';

const MINUTE_MS = 60_000;
const RUNS = { numRuns: 120 };
type Log = readonly (readonly [minute: number, celsius: number])[];

/** Numbers between −1 and 1 that look like chance and come again with their seed. */
function noiseFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 31 - 1;
  };
}

function readings(log: Log, stepTicks = 900): RecordedTicks[] {
  return log.map(([minute, celsius]) => {
    const ticks = Math.round((celsius * 9000) / stepTicks) * stepTicks;
    return { atMs: Math.round(minute * MINUTE_MS), lowTicks: ticks, highTicks: ticks };
  });
}

function doubts(recorded: readonly RecordedTicks[], more: Partial<DoubtRecord> = {}): Doubt[] {
  return findDoubts({ role: 'piece', how: 'logged', readings: recorded, words: minuteWords('C'), ...more });
}

function kinds(log: Log, more: Partial<DoubtRecord> = {}): [string, number, number][] {
  return doubts(readings(log), more).map(({ kind, fromIndex, toIndex }) => [kind, fromIndex, toIndex]);
}

interface Smoke {
  readonly chamber: Log;
  readonly core: Log;
}

/** A load from fish in to cooled: the chamber stepped up and its door opened, the core behind it, the fish moved to a cooler. */
function smoke(seed: number, everyMinutes: number, noiseCelsius: number): Smoke {
  const noise = noiseFrom(seed);
  const slowness = 25 + 20 * (noise() + 1);
  const [low, high] = [45 + 8 * noise(), 85 + 15 * noise()];
  const holdAt = 90 + 30 * noise();
  const outAt = 330 + 30 * noise();
  const doors = [60 + 30 * noise(), 200 + 50 * noise()];
  const [chamber, core]: [[number, number][], [number, number][]] = [[], []];
  let air = 20;
  let flesh = 4 + 2 * noise();
  for (let minute = 0; minute <= 700; minute += 0.25) {
    const isOpen = doors.some((door) => minute >= door && minute < door + 3);
    const goal = minute < holdAt ? low : minute < outAt ? high : 2 + Math.sin(minute / 6);
    air += ((isOpen ? 20 : goal) - air) * (isOpen ? 0.06 : 0.02);
    flesh += ((air - flesh) * 0.25) / slowness;
    if (Math.abs(minute / everyMinutes - Math.round(minute / everyMinutes)) > 1e-9) continue;
    chamber.push([minute, air + noiseCelsius * 3 * noise()]);
    core.push([minute, flesh + noiseCelsius * noise()]);
  }
  return { chamber, core };
}

/** A cooler or freezer that cycles and defrosts, read day and night. */
function store(seed: number, everyMinutes: number, middle: number): Log {
  const noise = noiseFrom(seed);
  const [cycle, swing, defrost] = [35 + 10 * noise(), 1 + noise() * 0.5, 360 + 60 * noise()];
  return Array.from({ length: Math.floor(2880 / everyMinutes) }, (_, index): [number, number] => {
    const minute = index * everyMinutes;
    const sinceDefrost = minute % defrost;
    const warm = sinceDefrost < 20 ? 8 * (sinceDefrost / 20) : 8 * Math.exp(-(sinceDefrost - 20) / 15);
    return [minute, middle + swing * Math.sin((2 * Math.PI * minute) / cycle) + warm + 0.1 * noise()];
  });
}

const seeds = fc.integer({ min: 0, max: 2 ** 31 });
const every = fc.constantFrom(0.25, 0.5, 1, 2, 5, 10);
/** 0.1 °C, 0.1 °F, 0.5 °C, 1 °F and 1 °C. */
const steps = fc.constantFrom(900, 500, 4500, 5000, 9000);
const noises = fc.constantFrom(0, 0.05, 0.2);

describe('a clean record', () => {
  it('of a smoke raises no doubt, in fish or chamber, at any interval and step', () => {
    fc.assert(fc.property(seeds, every, steps, noises, (seed, interval, stepTicks, noise) => {
      const made = smoke(seed, interval, noise);
      const [chamber, core] = [readings(made.chamber, stepTicks), readings(made.core, stepTicks)];
      expect(doubts(core, { chamber })).toEqual([]);
      expect(doubts(chamber, { role: 'chamber' })).toEqual([]);
    }), RUNS);
  });

  it('of a cooler, a freezer or a soaking tub raises none', () => {
    fc.assert(fc.property(seeds, fc.constantFrom(1, 5, 15, 30), steps, fc.constantFrom(2, -12, -22, -38), (seed, interval, stepTicks, middle) => {
      expect(doubts(readings(store(seed, interval, middle), stepTicks), { role: 'store' })).toEqual([]);
      const brine = Array.from({ length: Math.floor(600 / interval) }, (_, index): [number, number] => [index * interval, 3 + 6 * Math.exp((-index * interval) / 90)]);
      expect(doubts(readings(brine, stepTicks), { role: 'brine' })).toEqual([]);
    }), RUNS);
  });

  it('of a probe put into cold fish, of fish that freezes through, and of a plateau raises none', () => {
    const settle = (constant: number): Log => Array.from({ length: 120 }, (_, minute) => [minute, 3 + 19 * Math.exp(-minute / constant)]);
    for (const constant of [0.2, 0.5, 1, 2, 4]) expect(kinds(settle(constant))).toEqual([]);
    const freezing: Log = Array.from({ length: 400 }, (_, minute) => [minute, minute < 20 ? 4 - minute * 0.25 : minute < 300 ? -1 : -1 - (minute - 300) * 0.15]);
    expect(kinds(freezing)).toEqual([]);
    expect(kinds(Array.from({ length: 120 }, (_, minute) => [minute, 68.3]))).toEqual([]);
  });

  it('read by hand raises none for odd hours, repeated values, or the order it was typed in', () => {
    const byHand: Log = [[0, 3], [60, 30], [100, 63.5], [110, 64], [120, 64], [130, 64], [145, 55], [160, 64], [20, 10]];
    expect(kinds(byHand, { how: 'typed' })).toEqual([]);
    expect(kinds(Array.from({ length: 60 }, (_, day) => [day * 1440, -20]), { how: 'typed', role: 'store' })).toEqual([]);
    expect(kinds(Array.from({ length: 60 }, (_, day) => [day * 1440, -20]), { role: 'store' })).toEqual([]);
  });

  it('is never changed, and none or one reading is no cause for doubt', () => {
    const recorded = Object.freeze(readings([[0, 20], [1, 900], [2, 20]]).map((reading) => Object.freeze(reading)));
    expect(doubts(recorded)).toHaveLength(1);
    expect(doubts([])).toEqual([]);
    expect(doubts(readings([[0, 62]]))).toEqual([]);
  });
});

describe('a planted fault', () => {
  const planted = (seed: number, interval: number) => {
    const made = smoke(seed, interval, 0.05);
    // Somewhere in the hot half, where the fish is well above the room.
    const index = Math.round((220 + (seed % 40)) / interval);
    return { core: readings(made.core), chamber: readings(made.chamber), index };
  };
  const change = (recorded: readonly RecordedTicks[], from: number, to: number, ticksOf: (reading: RecordedTicks, at: number) => number) =>
    recorded.map((reading, index) => (index < from || index > to ? reading : { ...reading, lowTicks: ticksOf(reading, index - from), highTicks: ticksOf(reading, index - from) }));
  const found = (list: readonly Doubt[]) => list.map(({ kind, fromIndex, toIndex }) => [kind, fromIndex, toIndex]);

  it('of one or two readings far off is found as a spike, up or down', () => {
    fc.assert(fc.property(seeds, fc.constantFrom(0.25, 1, 5), fc.constantFrom(1, 2), fc.constantFrom(-25, -15, 15, 30), (seed, interval, count, by) => {
      const { core, chamber, index } = planted(seed, interval);
      // Where the fish itself moves by a third of it from reading to reading, a spike can't be told.
      const around = core.slice(index - 3, index + count + 3);
      fc.pre(around.every(({ lowTicks }, at) => Math.abs(lowTicks - (around[at - 1]?.lowTicks ?? lowTicks)) * 3 < Math.abs(by) * 9000 / count));
      const broken = change(core, index, index + count - 1, ({ lowTicks }) => lowTicks + by * 9000);
      expect(found(doubts(broken, { chamber }))).toEqual([['spike', index, index + count - 1]]);
    }), RUNS);
  });

  it('of a value off the scale is found as an open circuit, once for a run', () => {
    fc.assert(fc.property(seeds, fc.constantFrom(0.25, 1, 10), fc.integer({ min: 1, max: 30 }), fc.constantFrom(-9999, -999, -127, 850, 999.9, 1372, 3276.7, 32767), (seed, interval, count, value) => {
      const { core, chamber, index } = planted(seed, interval);
      const last = Math.min(core.length - 1, index + count - 1);
      expect(found(doubts(change(core, index, last, () => value * 9000), { chamber }))).toEqual([['open-circuit', index, last]]);
    }), RUNS);
  });

  it('of a probe pulled and put back is found, from the first reading away to the last', () => {
    fc.assert(fc.property(seeds, fc.constantFrom(0.25, 0.5, 1), fc.integer({ min: 8, max: 35 }), (seed, interval, minutesOut) => {
      const { core, index } = planted(seed, interval);
      const count = Math.round(minutesOut / interval);
      const room = 18 * 9000;
      const broken = change(core, index, index + count - 1, ({ lowTicks }, at) => Math.round(room + (lowTicks - room) * Math.exp(-((at + 1) * interval) / 1.2)));
      const list = doubts(broken);
      expect(list.map(({ kind }) => kind)).toEqual(['pulled-probe']);
      // A reading or two before the cliff may be as warm as the last good one.
      expect(Math.abs((list[0]?.fromIndex ?? Infinity) - index) * interval).toBeLessThanOrEqual(1);
      expect(list[0]?.toIndex).toBe(index + count - 1);
    }), RUNS);
  });

  it('of a probe that slipped out into the chamber is found, when the chamber is on record', () => {
    fc.assert(fc.property(seeds, fc.constantFrom(0.25, 1), (seed, interval) => {
      const { core, chamber } = planted(seed, interval);
      const index = Math.round(125 / interval);
      const count = Math.round(40 / interval);
      const air = (at: number) => chamber[index + at]?.lowTicks ?? 0;
      fc.pre(air(0) - (core[index - 1]?.lowTicks ?? 0) > 16 * 9000);
      const broken = change(core, index, index + count - 1, ({ lowTicks }, at) => Math.round(air(at) + (lowTicks - air(at)) * Math.exp(-((at + 1) * interval) / 1)));
      const list = doubts(broken, { chamber });
      // In the chamber's air a door that opens may look like a spike as well.
      expect(list.filter(({ kind }) => kind !== 'spike').map(({ kind }) => kind)).toEqual(['pulled-probe']);
      expect(list[0]?.reason).toContain('slipped out');
      expect(Math.abs((list[0]?.fromIndex ?? 0) - index) * interval).toBeLessThanOrEqual(3);
    }), RUNS);
  });

  it('of a value repeated in the middle of a rise is found as a flat line', () => {
    fc.assert(fc.property(fc.constantFrom(0.25, 1, 5), fc.integer({ min: 20, max: 60 }), fc.integer({ min: 30, max: 80 }), fc.constantFrom(-1, 1), (interval, minutesFlat, pace, way) => {
      const from = Math.round(60 / interval);
      const count = Math.round(minutesFlat / interval);
      // A fall begins higher, so that it ends above the cold at which a fall at once means a cut sensor.
      const rise: Log = Array.from({ length: from + count + 4 }, (_, index) => [index * interval, (way === 1 ? 60 : 130) + (way * index * interval * pace) / 100 + 0.15 * Math.sin(index * 2)]);
      const broken = change(readings(rise), from, from + count, () => readings(rise)[from]?.lowTicks ?? 0);
      const list = doubts(broken);
      expect(list.map(({ kind }) => kind)).toEqual(['flat-line']);
      expect(Math.abs((list[0]?.fromIndex ?? 0) - from)).toBeLessThanOrEqual(1);
      expect(Math.abs((list[0]?.toIndex ?? 0) - (from + count))).toBeLessThanOrEqual(1);
    }), RUNS);
  });

  it('of one value for hours is found as stuck: a chamber past 4 h, a store past a day, three times that for a coarse step', () => {
    const stuck = (role: DoubtRecord['role'], hours: number, step: number) => {
      const start: Log = Array.from({ length: 20 }, (_, index) => [index * 5, 100 + index * step]);
      return kinds([...start, ...Array.from({ length: hours * 12 + 1 }, (_, index): [number, number] => [100 + index * 5, 110])], { role });
    };
    expect(stuck('chamber', 4, 0.1)).toEqual([]);
    expect(stuck('chamber', 5, 0.1)).toEqual([['stuck', 20, 80]]);
    expect(stuck('chamber', 12, 0.5)).toEqual([]);
    expect(stuck('chamber', 13, 0.5)).toEqual([['stuck', 20, 176]]);
    expect(stuck('store', 24, 0.1)).toEqual([]);
    expect(stuck('store', 25, 0.1)).toEqual([['stuck', 20, 320]]);
  });

  it('of a cut thermistor is found by its fall at once to −40 °C, for as long as it lasts', () => {
    expect(kinds([[0, 50], [5, -40], [10, -40], [30, -40], [35, 51], [40, 52]])).toEqual([['open-circuit', 1, 3]]);
    expect(kinds([[0, -9], [5, -40], [10, -8]], { role: 'store' })).toEqual([['open-circuit', 1, 1]]);
    expect(kinds([[0, -12], [5, -40], [10, -40]], { role: 'store' })).toEqual([]);
    expect(kinds([[0, 5], [11, -40], [20, -40]], { role: 'store' })).toEqual([]);
  });

  it('of a one-wire sensor is found by 85 °C as the first value, also after a pause', () => {
    expect(kinds([[0, 85], [1, 20], [2, 20]])).toEqual([['open-circuit', 0, 0]]);
    expect(kinds([[0, 20], [1, 20], [30, 85], [31, 21], [32, 21]])).toEqual([['open-circuit', 2, 2]]);
    expect(kinds([[0, 85], [1, 84], [2, 83]], { role: 'chamber' })).toEqual([]);
    expect(kinds([[0, 85]])).toEqual([]);
  });
});

describe('a clock', () => {
  const hour = (from: number, count: number): Log => Array.from({ length: count }, (_, index) => [from + index * 10, 60 + index * 0.1]);

  it('that goes back an hour is told from one that is set back, to the reading past where it was', () => {
    const list = doubts(readings([...hour(0, 12), ...hour(60, 12)]));
    expect(list.map(({ kind, fromIndex, toIndex, fromMs, toMs }) => [kind, fromIndex, toIndex, fromMs / MINUTE_MS, toMs / MINUTE_MS])).toEqual([['clock', 12, 17, 60, 110]]);
    expect(list[0]?.reason).toBe('After minute 110 the record goes on at minute 60, 50 min earlier: an hour comes twice, as when clocks go back.');
    expect(doubts(readings([...hour(0, 12), ...hour(5, 30)]))[0]?.reason).toContain('105 min earlier: its clock may have been set back');
    expect(kinds([...hour(0, 12), ...hour(60, 3)])).toEqual([['clock', 12, 14]]);
  });

  it('that runs on is not in doubt for two readings at one instant', () => {
    expect(kinds([[0, 60], [0, 60.1], [1, 60.2]])).toEqual([]);
  });

  it('that is ahead shows readings still to come, typed ones too', () => {
    for (const how of ['logged', 'typed'] as const) {
      expect(kinds([[0, 60], [10, 60.1], [20, 60.2]], { how, nowMs: 8 * MINUTE_MS })).toEqual([['clock', 2, 2]]);
      expect(kinds([[0, 60], [10, 60.1]], { how, nowMs: 8 * MINUTE_MS })).toEqual([]);
    }
  });

  it('that is off or drifts by more than 2 min where it was looked at is in doubt for the whole record', () => {
    const off = (...pairs: [number, number][]) => doubts(readings(hour(0, 3)), { clockSightings: pairs.map(([device, kitchen]) => ({ deviceMs: device * MINUTE_MS, kitchenMs: kitchen * MINUTE_MS })) });
    expect(off([10, 8])).toEqual([]);
    expect(off([11, 8])).toMatchObject([{ kind: 'clock', fromIndex: 0, toIndex: 2, reason: 'Its clock was 3 min fast when it was looked at.' }]);
    expect(off([0, 4])[0]?.reason).toBe('Its clock was 4 min slow when it was looked at.');
    expect(off([1000, 1003], [10, 10])[0]?.reason).toBe('Its clock drifts: between two looks at it, it ran 3 min slow.');
    expect(off([10, 10], [1002, 1000])).toEqual([]);
    expect(doubts([], { clockSightings: [{ deviceMs: 0, kitchenMs: 9e6 }] })).toEqual([]);
  });
});

describe('limits of doubt', () => {
  it('a spike needs more than 5 °C in fish, steps of 6 min at most, and a way back', () => {
    expect(kinds([[0, 60], [5, 66], [10, 60]])).toEqual([['spike', 1, 1]]);
    expect(kinds([[0, 60], [5, 65], [10, 60]])).toEqual([]);
    expect(kinds([[0, 60], [7, 70], [14, 60]])).toEqual([]);
    expect(kinds([[0, 60], [6, 70], [12, 60]])).toEqual([['spike', 1, 1]]);
    expect(kinds([[0, 60], [5, 70], [10, 67]])).toEqual([]);
    expect(kinds([[0, 60], [5, 70], [10, 71], [15, 70], [20, 60]])).toEqual([]);
    expect(kinds([[0, 60], [5, 70]])).toEqual([]);
    expect(kinds([[0, 100], [2, 60], [4, 100]], { role: 'chamber' })).toEqual([]);
    expect(kinds([[0, 100], [2, 160], [4, 100]], { role: 'chamber' })).toEqual([['spike', 1, 1]]);
  });

  it('a pulled probe must come back within the hour, as fast as it went', () => {
    const away = (minutes: number): Log => [[0, 60], [1, 60], [2, 40], ...Array.from({ length: minutes }, (_, index): [number, number] => [3 + index, 30 + (index % 2)]), [3 + minutes, 58], [4 + minutes, 60]];
    expect(kinds(away(20))).toEqual([['pulled-probe', 2, 22]]);
    expect(kinds(away(70))).toEqual([]);
    expect(kinds(away(20), { role: 'chamber' })).toEqual([]);
    expect(kinds(away(20), { how: 'typed' })).toEqual([]);
    const slowBack: Log = [[0, 60], [1, 40], ...Array.from({ length: 30 }, (_, index): [number, number] => [2 + index, 30 + index])];
    expect(kinds(slowBack)).toEqual([]);
  });
});
