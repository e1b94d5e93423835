/**
 * Net weight declarations. Forms: 21 CFR 101.7(j), (k), (m) and FPLA 15 U.S.C. 1453(a)(3)(A)(ii) (from memory);
 * never overstated: NIST metric labeling fact sheet (read). Figures computed from 1 lb = 453.59237 g, 1 oz = 28.349523125 g (exact).
 */
import { describe, expect, it } from 'vitest';
import { checkDualDeclaration, declareFixedOunces, netWeightText } from '../../app/packs/net-weight.ts';

function textOf(grams: number, weighing: 'random' | 'fixed'): string {
  const text = netWeightText(grams, weighing);
  return text.ok ? text.value : text.problem.message;
}

describe('a net weight rounded down', () => {
  it.each([
    [100, '0.22', 'NET WT 3.5 OZ (99 g)'],
    [113, '0.24', 'NET WT 3.9 OZ (110 g)'],
    [170, '0.37', 'NET WT 5.9 OZ (167 g)'],
    [200, '0.44', 'NET WT 7 OZ (198 g)'],
    [226, '0.49', 'NET WT 7.9 OZ (223 g)'],
    [227, '0.50', 'NET WT 8 OZ (226 g)'],
    [250, '0.55', 'NET WT 8.8 OZ (249 g)'],
    [300, '0.66', 'NET WT 10.5 OZ (297 g)'],
    [340, '0.74', 'NET WT 11.9 OZ (337 g)'],
    [341, '0.75', 'NET WT 12 OZ (340 g)'],
    [453, '0.99', 'NET WT 15.9 OZ (450 g)'],
    [454, '1.00', 'NET WT 16 OZ (1 LB) 453 g'],
    [500, '1.10', 'NET WT 17.6 OZ (1 LB 1.6 OZ) 498 g'],
    [567, '1.25', 'NET WT 20 OZ (1 LB 4 OZ) 566 g'],
    [680, '1.49', 'NET WT 23.9 OZ (1 LB 7.9 OZ) 677 g'],
    [907, '1.99', 'NET WT 31.9 OZ (1 LB 15.9 OZ) 904 g'],
    [1000, '2.20', 'NET WT 35.2 OZ (2 LB 3.2 OZ) 997 g'],
    [1361, '3.00', 'NET WT 48 OZ (3 LB) 1.36 kg'],
    [1815, '4.00', 'NET WT 4 LB (1.81 kg)'],
  ])('%i g is %s lb by random weight and “%s” as a fixed weight', (grams, pounds, fixed) => {
    expect(textOf(grams, 'random')).toBe(`NET WT ${pounds} lb (${grams} g)`);
    expect(textOf(grams, 'fixed')).toBe(fixed);
  });

  it.each([
    [4, '113 g'], [6, '170 g'], [8, '226 g'], [10, '283 g'], [12, '340 g'], [16, '453 g'],
    [20, '566 g'], [24, '680 g'], [32, '907 g'], [40, '1.13 kg'], [64, '1.81 kg'],
  ])('%i oz declared prints %s', (ounces, metric) => {
    const declared = declareFixedOunces(ounces);
    expect(declared.ok && declared.value.text).toMatch(new RegExp(`[ (]${metric}\\)?$`));
  });
});

describe('worked declarations', () => {
  it('358 g gross less 17 g tare is NET WT 0.75 lb (341 g)', () => {
    expect(textOf(358 - 17, 'random')).toBe('NET WT 0.75 lb (341 g)');
  });

  it('357 g gross less 17 g tare is NET WT 0.74 lb (340 g), for 0.75 would overstate', () => {
    expect(textOf(357 - 17, 'random')).toBe('NET WT 0.74 lb (340 g)');
  });

  it('12 oz fixed is NET WT 12 OZ (340 g) and needs 340.2 g in the pack', () => {
    const declared = declareFixedOunces(12);
    expect(declared).toMatchObject({ ok: true, value: { text: 'NET WT 12 OZ (340 g)', printedGrams: 340, leastNetGrams: 340.2 } });
    expect(textOf(340.2, 'fixed')).toBe('NET WT 12 OZ (340 g)');
  });

  it('8 oz fixed is NET WT 8 OZ (226 g), and 227 g overstates unless 227 g are in the pack', () => {
    expect(declareFixedOunces(8)).toMatchObject({ ok: true, value: { text: 'NET WT 8 OZ (226 g)' } });
    const over = checkDualDeclaration({ declaredOunces: 8, printedGrams: 227, netGrams: 226.8 });
    expect(!over.ok && over.problem.message).toBe('227 g overstates unless the net is at least 227 g.');
    expect(checkDualDeclaration({ declaredOunces: 8, printedGrams: 227, netGrams: 227 }).ok).toBe(true);
    expect(checkDualDeclaration({ declaredOunces: 8, printedGrams: 226, netGrams: 226.7 }).ok).toBe(false);
  });

  it('20 oz fixed is NET WT 20 OZ (1 LB 4 OZ) 566 g', () => {
    expect(declareFixedOunces(20)).toMatchObject({ ok: true, value: { text: 'NET WT 20 OZ (1 LB 4 OZ) 566 g' } });
  });

  it('5 lb fixed is NET WT 5 LB (2.26 kg)', () => {
    expect(declareFixedOunces(80)).toMatchObject({ ok: true, value: { text: 'NET WT 5 LB (2.26 kg)', printedGrams: 2260 } });
  });

  it('447 g of a guest’s fish is NET WT 0.98 lb (447 g)', () => {
    expect(textOf(447, 'random')).toBe('NET WT 0.98 lb (447 g)');
  });
});
