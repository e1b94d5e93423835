import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rank } from '../../app/limits/verdict.ts';
import { judgeLog, type LogInput, type Points } from '../support/judged-log.ts';
import { chamberLog, coolingLog, freezerLog, heatLog, shuffled } from '../support/random-logs.ts';

/** The mutation run draws fewer, because it draws them for every mutant. */
const RUNS = { numRuns: Number(process.env['PROOF_RECORDS'] ?? 300) };
const figures = (input: LogInput) => judgeLog(input).checks.map(({ reason: _reason, spans: _spans, ...rest }) => rest);
const one = (checkId: string, points: Points, more: Partial<LogInput> = {}): LogInput => {
  const role = checkId.startsWith('COLD') ? 'chamber' : checkId.startsWith('PARA') ? 'store' : 'piece';
  return { process: checkId.startsWith('COLD') ? 'cold' : 'hot', readings: { unit: 'F', places: [{ name: 'A', role, points }] }, checkIds: [checkId], ...more };
};
const verdict = (input: LogInput) => judgeLog(input).verdict;
/** Every kind of check that reads temperatures, with a log that comes near its limits. */
const anyCheck = fc.oneof(
  heatLog.map((points): [string, Points] => ['HOT-145-30', points]),
  coolingLog.chain((points) => fc.constantFrom('COOL-FC', 'COOL-AFDO', 'COOL-FDA12').map((id): [string, Points] => [id, points])),
  chamberLog.map((points): [string, Points] => ['COLD-90-20', points]),
  freezerLog.map((points): [string, Points] => ['PARA-FREEZE-A', points]),
);

describe('a verdict', () => {
  it('never depends on the order of readings or pieces', () => {
    fc.assert(fc.property(
      fc.array(fc.oneof(heatLog, coolingLog), { minLength: 1, maxLength: 4 }).chain((logs) => {
        const places = logs.map((points, index) => ({ name: `P${index}`, role: 'piece' as const, points }));
        return fc.tuple(fc.constant(places), shuffled(places).chain((mixed) => fc.tuple(...mixed.map((place) => shuffled(place.points).map((points) => ({ ...place, points }))))));
      }),
      ([places, mixed]) => {
        const request = (list: typeof places): LogInput => ({ process: 'hot', readings: { unit: 'F', places: list } });
        expect(judgeLog(request(mixed))).toEqual(judgeLog(request(places)));
        const alone = (list: typeof places): LogInput => ({ ...request(list), checkIds: ['HOT-145-30', 'HOT-PROBES-3', 'COOL-FC', 'RAW-38'] });
        expect(judgeLog(alone(mixed))).toEqual(judgeLog(alone(places)));
      },
    ), RUNS);
  });

  it('never depends on when the record began', () => {
    fc.assert(fc.property(anyCheck, fc.integer({ min: -100_000, max: 1_000_000 }), fc.boolean(), ([checkId, points], shift, open) => {
      const moved = points.map(([minute, value]): [number, number] => [minute + shift, value]);
      const end = points.at(-1)?.[0] ?? 0;
      expect(figures(one(checkId, moved, { open, marks: { inMinute: shift, endOfSmokingMinute: 3 + shift, outMinute: end + 7 + shift } })))
        .toEqual(figures(one(checkId, points, { open, marks: { inMinute: 0, endOfSmokingMinute: 3, outMinute: end + 7 } })));
    }), RUNS);
  });

  it('is the same for the same temperatures in °C and °F', () => {
    fc.assert(fc.property(anyCheck, fc.integer({ min: 0, max: 2000 }), ([checkId, points], milliError) => {
      // Thousandths of a degree Celsius are exact in Fahrenheit with four decimals.
      const milli = points.map(([minute, value]): [number, number] => [minute, Math.round(((value - 32) / 1.8) * 1000)]);
      const celsius = milli.map(([minute, thousandths]): [number, number] => [minute, Number(`${thousandths}e-3`)]);
      const fahrenheit = milli.map(([minute, thousandths]): [number, number] => [minute, Number(`${thousandths * 18 + 320_000}e-4`)]);
      const inUnit = (unit: 'F' | 'C', list: Points, instrumentError: number): LogInput => {
        const request = one(checkId, list, { instrumentError });
        return { ...request, readings: { unit, places: request.readings.places } };
      };
      expect(figures(inUnit('C', celsius, Number(`${milliError}e-3`)))).toEqual(figures(inUnit('F', fahrenheit, Number(`${milliError * 18}e-4`))));
    }), RUNS);
  });

  it('can’t turn from a miss to anything else when a running record is closed', () => {
    fc.assert(fc.property(anyCheck, ([checkId, points]) => {
      const open = verdict(one(checkId, points, { open: true }));
      const closed = verdict(one(checkId, points));
      if (open === 'misses') expect(closed).toBe('misses');
      if (closed === 'meets') expect(['open', 'meets']).toContain(open);
    }), RUNS);
  });
});

describe('less favourable evidence', () => {
  it('never improves a hold: a colder piece', () => {
    fc.assert(fc.property(heatLog, heatLog, fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 40, maxLength: 40 }), (first, second, drops) => {
      const both = (points: Points): LogInput => ({ process: 'hot', checkIds: ['HOT-145-30'], readings: { unit: 'F', places: [{ name: 'A', role: 'piece', points }, { name: 'B', role: 'piece', points: second }] } });
      const colder = first.map(([minute, value], index): [number, number] => [minute, Math.round(value * 10 - (drops[index] ?? 0)) / 10]);
      expect(rank(verdict(both(colder)))).toBeLessThanOrEqual(rank(verdict(both(first))));
    }), RUNS);
  });

  it('never improves a hold or a chamber: a stricter limit or a larger error', () => {
    fc.assert(fc.property(heatLog, chamberLog, fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 40 }), (heat, chamber, error, more) => {
      expect(rank(verdict(one('HOT-150-30-HOME', heat)))).toBeLessThanOrEqual(rank(verdict(one('HOT-145-30', heat))));
      expect(rank(verdict(one('HOT-63-30', heat)))).toBeLessThanOrEqual(rank(verdict(one('HOT-145-30', heat))));
      expect(rank(verdict(one('COLD-90-20', chamber)))).toBeLessThanOrEqual(rank(verdict(one('COLD-FDA-90', chamber))));
      for (const [checkId, log] of [['HOT-145-30', heat], ['COLD-90-20', chamber]] as const) {
        expect(rank(verdict(one(checkId, log, { instrumentError: (error + more) / 10 })))).toBeLessThanOrEqual(rank(verdict(one(checkId, log, { instrumentError: error / 10 }))));
      }
    }), RUNS);
  });

  it('never makes a check meet: a satisfying reading that is taken away', () => {
    const fixed: Partial<LogInput> = { nominalIntervalMinutes: 5, maxGapMinutes: 10 };
    const kinds = fc.oneof(
      fc.tuple(fc.constant('HOT-145-30'), heatLog, fc.constant((value: number) => value >= 145)),
      fc.tuple(fc.constant('COLD-90-20'), chamberLog, fc.constant((value: number) => value <= 90)),
      fc.tuple(fc.constant('PARA-FREEZE-A'), freezerLog, fc.constant((value: number) => value <= -4)),
    );
    fc.assert(fc.property(kinds, fc.nat(), ([checkId, points, satisfies], pick) => {
      const satisfying = points.filter(([, value]) => satisfies(value));
      const gone = satisfying[pick % Math.max(1, satisfying.length)];
      if (gone === undefined) return;
      const marks = { inMinute: 0, outMinute: points.at(-1)?.[0] ?? 0 };
      const before = verdict(one(checkId, points, { ...fixed, marks }));
      const after = verdict(one(checkId, points.filter((point) => point !== gone), { ...fixed, marks }));
      if (before !== 'meets') expect(after).not.toBe('meets');
    }), RUNS);
  });
});
