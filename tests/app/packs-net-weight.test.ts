import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { declareNetWeight } from '../../app/packs/net-weight.ts';

const milligrams = fc.integer({ min: 4_536, max: 20_000_000 });
/** One pound is 45,359,237 of these, one ounce 2,834,952.3125: exact in whole numbers from here on. */
const PARTS_PER_MILLIGRAM = 100n;

function declared(thousandths: number, weighing: 'random' | 'fixed'): { text: string; printedGrams: number } {
  const net = declareNetWeight(thousandths / 1000, weighing);
  if (!net.ok) throw new Error(net.problem.message);
  return net.value;
}

describe('the net weight printed', () => {
  it('never says more than is in a random-weight pack, and gives away less than one step', () => {
    fc.assert(fc.property(milligrams, (thousandths) => {
      const match = /^NET WT (\d+)\.(\d{2}) lb \((\d+) g\)$/.exec(declared(thousandths, 'random').text);
      const hundredthPounds = BigInt(`${match?.[1]}${match?.[2]}`);
      const net = BigInt(thousandths) * PARTS_PER_MILLIGRAM * 100n;
      expect(hundredthPounds * 45_359_237n <= net).toBe(true);
      expect((hundredthPounds + 1n) * 45_359_237n > net).toBe(true);
      expect(BigInt(match?.[3] ?? '')).toBe(BigInt(thousandths) / 1000n);
    }), { numRuns: 2000 });
  });

  it('never says more than is in a fixed-weight pack, in ounces, pounds or grams', () => {
    fc.assert(fc.property(milligrams, (thousandths) => {
      const { text, printedGrams } = declared(thousandths, 'fixed');
      const tenths = (figure: string | undefined): bigint => BigInt(Math.round(Number(figure ?? '0') * 10));
      const ounces = /^NET WT ([\d.]+) OZ/.exec(text)?.[1];
      const pounds = /(\d+) LB(?: ([\d.]+) OZ)?/.exec(text);
      const inPounds = pounds === null ? undefined : tenths(pounds[1]) * 16n + tenths(pounds[2]);
      const tenthOunces = ounces === undefined ? (inPounds ?? -1n) : tenths(ounces);
      if (inPounds !== undefined) expect(inPounds).toBe(tenthOunces);
      // 0.1 oz = 2.8349523125 g; both sides in 1e-10 g.
      expect(tenthOunces * 28_349_523_125n <= BigInt(thousandths) * 10_000_000n).toBe(true);
      expect((tenthOunces + 1n) * 28_349_523_125n > BigInt(thousandths) * 10_000_000n).toBe(true);
      expect(printedGrams * 1000).toBeLessThanOrEqual(thousandths);
    }), { numRuns: 2000 });
  });

  it('holds exactly one pound to be one pound, though floats can’t hold its weight', () => {
    expect(declareNetWeight(453.59237, 'random')).toMatchObject({ ok: true, value: { text: 'NET WT 1.00 lb (453 g)' } });
    expect(declareNetWeight(453.592369999, 'random')).toMatchObject({ ok: true, value: { text: 'NET WT 0.99 lb (453 g)' } });
    expect(declareNetWeight(340.1942775, 'fixed')).toMatchObject({ ok: true, value: { text: 'NET WT 12 OZ (340 g)' } });
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1_000_000, 10_000_000, 4.5, 1e-7])('refuses %s g and names the field', (grams) => {
    expect(declareNetWeight(grams, 'random')).toMatchObject({ ok: false, problem: { field: 'netGrams' } });
  });
});
