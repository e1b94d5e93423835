/** Water activity of salt in water against a table by Pitzer's equation and against published figures. */
import { describe, expect, test } from 'vitest';
import { waterActivity, waterPhaseOfActivity } from '../../app/brine/water-activity.ts';

/** Per cent by weight of a molality, mol of salt per kg of water. */
function percentOfMolality(molal: number): number {
  const grams = molal * 58.4428;
  return (100 * grams) / (1000 + grams);
}

describe('water activity of a water phase of salt', () => {
  test.each([
    // K. S. Pitzer and G. Mayorga, J. Phys. Chem. 77 (1973) 2300, at 25 °C (constants from memory, column computed by another hand).
    [0.5, 0.9971], [1, 0.9943], [1.5, 0.9914], [2, 0.9885], [2.5, 0.9856], [3, 0.9826], [3.5, 0.9796], [4, 0.9765], [4.5, 0.9734], [5, 0.9702],
    [5.5, 0.967], [6, 0.9637], [7, 0.957], [8, 0.95], [9, 0.9427], [10, 0.9351], [12, 0.9191], [13, 0.9105], [14, 0.9016], [15, 0.8923],
    [16, 0.8826], [18, 0.8619], [20, 0.8394], [22, 0.8148], [24, 0.788], [26, 0.7588],
  ])('%d per cent of salt has %d', (percent, activity) => {
    expect(Math.abs(waterActivity(percent) - activity)).toBeLessThan(0.0001);
  });

  test.each([
    // The same equation backwards (computed by another hand).
    [0.995, 0.87], [0.99, 1.74], [0.98, 3.43], [0.97, 5.03], [0.965, 5.8], [0.96, 6.55], [0.95, 8], [0.945, 8.69], [0.94, 9.36], [0.93, 10.66],
    [0.92, 11.89], [0.91, 13.06], [0.9, 14.18], [0.88, 16.27], [0.86, 18.18], [0.85, 19.08], [0.8, 23.12],
  ])('%d takes %d per cent of salt', (activity, percent) => {
    expect(waterPhaseOfActivity(activity)).toBeCloseTo(percent, 2);
  });

  test('published figures are met within 0.002', () => {
    // Water-activity primer: 0.9669 at 1 mol/kg (read). Water-activity meter manual, appendix C, Robinson and Stokes: 0.760 at 6 mol/kg (read).
    expect(Math.abs(waterActivity(percentOfMolality(1)) - 0.9669)).toBeLessThan(0.0005);
    expect(Math.abs(waterActivity(percentOfMolality(6)) - 0.76)).toBeLessThan(0.001);
    // Activity of salt slurries: 0.996 at 0.9 % (read). USDA-ARS, water-activity FAQ: 0.974 at 4.5 % (read).
    expect(Math.abs(waterActivity(0.9) - 0.996)).toBeLessThan(0.002);
    expect(Math.abs(waterActivity(4.5) - 0.974)).toBeLessThan(0.001);
  });

  test('saturated brine and anything drier has the 0.753 of saturated salt solutions within 0.002', () => {
    // Saturated salt solution constants: ln aw = 23.1092 ÷ T − 0.3607, a fit to Labuza's data (read).
    expect(Math.abs(waterActivity(30) - Math.exp(23.1092 / 298.15 - 0.3607))).toBeLessThan(0.003);
    expect(Math.abs(waterActivity(30) - 0.753)).toBeLessThan(0.002);
    expect(waterActivity(100)).toBe(waterActivity(30));
  });

  test('it falls with salt, and comes back', () => {
    for (let percent = 0; percent < 26.4; percent += 0.1) {
      expect(waterActivity(percent + 0.1)).toBeLessThan(waterActivity(percent));
      expect(Math.abs((waterPhaseOfActivity(waterActivity(percent)) ?? NaN) - percent)).toBeLessThan(1e-9);
    }
  });

  test('what no salt can do has no answer', () => {
    expect(waterPhaseOfActivity(1)).toBe(0);
    expect(waterPhaseOfActivity(1.001)).toBeUndefined();
    expect(waterPhaseOfActivity(0.7)).toBeUndefined();
    expect(waterPhaseOfActivity(NaN)).toBeUndefined();
    expect(() => waterActivity(-0.1)).toThrow(RangeError);
    expect(() => waterActivity(NaN)).toThrow(RangeError);
  });
});
