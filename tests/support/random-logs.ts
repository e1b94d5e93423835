/** Random records for property tests: readings near the limits that matter, with gaps, repeats and several pieces. */
import fc from 'fast-check';
import type { Points } from './judged-log.ts';

/** Whole minutes and tenths of a degree around the values given. */
export function points(aroundF: readonly number[], longest = 40): fc.Arbitrary<Points> {
  const value = fc.oneof(...aroundF.map((middle) => fc.integer({ min: -30, max: 30 }).map((tenths) => Math.round(middle * 10 + tenths) / 10)));
  const step = fc.oneof({ weight: 6, arbitrary: fc.constant(5) }, { weight: 2, arbitrary: fc.integer({ min: 0, max: 12 }) }, { weight: 1, arbitrary: fc.integer({ min: 13, max: 180 }) });
  return fc.array(fc.tuple(step, value), { minLength: 1, maxLength: longest }).map((rows) => {
    let minute = 0;
    return rows.map(([by, degrees]): [number, number] => [(minute += by), degrees]);
  });
}

/** A log with longer stretches in: mostly at one level, with some readings below. */
export const heatLog = fc.oneof(points([146]), points([146, 146, 146, 143]), points([146, 120, 145]));
/** Around the cooling targets, mostly falling. */
export const coolingLog = points([146, 135, 100, 70, 55, 41, 39], 25).chain((log) => fc.boolean().map((sorted): Points => {
  const values = log.map(([, value]) => value).sort((left, right) => right - left);
  return sorted ? log.map(([minute], index): [number, number] => [minute, values[index] ?? 39]) : log;
}));
export const chamberLog = points([85, 88, 89.9]);
export const freezerLog = points([-5, -4, -8], 30).map((log): Points => log.map(([minute, value]) => [minute * 60, value]));

/** The same members in another order. */
export function shuffled<T>(items: readonly T[]): fc.Arbitrary<T[]> {
  return fc.shuffledSubarray([...items], { minLength: items.length, maxLength: items.length });
}
