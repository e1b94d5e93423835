/** Worked brines: published ones with their source, the others computed by a second hand. */
import { describe, expect, test } from 'vitest';
import {
  brinedFish, brineFractionFor, dryCureFor, dryCureFraction, equilibriumFraction, finishedFraction, saltToStrengthen, waterToWeaken, type RawFish,
} from '../../app/brine/balance.ts';
import { brineCard } from '../../app/brine/card.ts';
import { mixtureLitres } from '../../app/brine/density.ts';
import { householdMeasure } from '../../app/brine/household.ts';
import { mixtureOf } from '../../app/brine/ingredients.ts';
import { brineStrength, percentOfSalometer, strengthOfPercent } from '../../app/brine/strength.ts';
import { scaleRecipe } from '../../app/brine/recipe.ts';
import { waterPhaseFraction, waterPhasePercent } from '../../app/brine/water-phase.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const SALT_AND_WATER = { name: 'Plain', ingredients: [{ id: 'water', parts: 1 }, { id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } };

describe('published brines', () => {
  test('60 °SAL in 68 litres of water takes 12.78 kg of salt, in 15 US gallons 23.51 lb', () => {
    // Fish Safety Notes (Canada), “Preparing a Saltbrine” (read): 187.8 g/L × 68 L = 12.8 kg, 1.882 lb × 15 imperial gallons = 28.23 lb.
    const strength = brineStrength('salometerDegrees', 60);
    if (!strength.ok) throw new Error(strength.problem.message);
    expect(strength.value.gramsPerLitreWater).toBeCloseTo(188, 1);
    expect((strength.value.gramsPerLitreWater * 68) / 1000).toBeCloseTo(12.78, 2);
    expect((strength.value.gramsPerLitreWater * 68) / 1000).toBeCloseTo(12.8, 1);
    expect(strength.value.poundsPerUsGallonWater * 15).toBeCloseTo(23.51, 2);
    expect(Math.abs(strength.value.poundsPerUsGallonWater * 1.20095 * 15 - 28.23)).toBeLessThan(0.02);
  });

  test.each([[40, 0.983], [50, 1.266]])('%d °SAL is %d lb of salt per US gallon of water', (degrees, pounds) => {
    // “Salometer arithmetic” (wedlinydomowe.pl, read), with 8.33 lb of water to the gallon.
    expect(strengthOfPercent(percentOfSalometer(degrees)).poundsPerUsGallonWater).toBeCloseTo(pounds, 3);
  });

  test('raising 100 litres of 70 °SAL to 80 °SAL takes 3.8 kg of salt', () => {
    // Seafish (UK), Seafood Academy, “Salting or brining of the fish” (method read; from its table 3.79 kg).
    const byTable = (92.6 * (267.69 - 226.78)) / 1000;
    expect(byTable).toBeCloseTo(3.79, 2);
    expect(saltToStrengthen(113.6, percentOfSalometer(70) / 100, percentOfSalometer(80) / 100)).toBeCloseTo(3.8, 2);
  });

  test('lowering 100 litres of 90 °SAL to 80 °SAL takes 14.7 kg of water', () => {
    // The same (method read): 28.01 kg of salt in 117.91 kg of brine.
    expect(waterToWeaken(117.91, percentOfSalometer(90) / 100, percentOfSalometer(80) / 100)).toBeCloseTo(14.7, 1);
  });

  test.each([[3, 60, 4.8], [3, 50, 5.7]])('fish of %d per cent salt and %d per cent moisture has %d per cent water-phase salt', (salt, moisture, printed) => {
    // An older smoking guide copied on a scraped page (read).
    const percent = waterPhasePercent(salt, moisture);
    expect(percent.ok && percent.value).toBeCloseTo(printed, 1);
  });

  test('dried from 60 to 50 % moisture that fish keeps its salt and comes to 6.98 %, so the second line is no mass balance', () => {
    expect(100 * (finishedFraction({ grams: 100, saltGrams: 3, waterGrams: 60 }, 0.8) ?? NaN)).toBeCloseTo(6.98, 2);
  });
});

describe('brines worked out by a second hand (computed)', () => {
  test('6.4 lb of fillets, 2 to 1, 8.0 %: 464 g of salt, 5.342 kg of water, 30.3 °SAL, 5.47 L at 38 °F', () => {
    const scaled = scaleRecipe({ recipe: SALT_AND_WATER, filletGrams: 6.4 * 453.59237, ratio: 2, target: { form: 'brinePercent', percent: 8 }, scaleStepGrams: 1 }, INGREDIENTS);
    if (!scaled.ok) throw new Error(scaled.problem.message);
    const [water, salt] = scaled.value.lines;
    expect(salt?.grams).toBe(464);
    expect(Math.abs((salt?.grams ?? NaN) / 28.349523125 - 16.38)).toBeLessThanOrEqual(0.02);
    expect((water?.grams ?? NaN) / 1000).toBeCloseTo(5.342, 3);
    expect(scaled.value.salometerDegrees).toBeCloseTo(30.3, 1);
    expect(mixtureLitres(scaled.value.mixture, 10 / 3)).toBeCloseTo(5.47, 2);
    const card = brineCard({ recipe: SALT_AND_WATER, filletGrams: 6.4 * 453.59237, ratio: 2, target: { form: 'brinePercent', percent: 8 }, pour: 'us-quarts' }, INGREDIENTS);
    expect(card.ok && card.value.lines[0]?.household).toMatchObject({ kind: 'us-quarts', quarts: expect.closeTo(1.411 * 4, 2) });
  });

  test.each([['fine-table', 292, 1.59], ['dense-flake', 248, 1.87], ['light-flake', 140, 3.32]])('464 g of %s salt at %d g a cup is %d cups, to a tablespoon', (formId, gramsPerCup, cups) => {
    const measure = householdMeasure(ingredient('salt'), 464, 'litres', 4, formId);
    if (measure?.kind !== 'spoons') throw new Error('no spoons');
    expect(464 / gramsPerCup).toBeCloseTo(cups, 1);
    expect(Math.abs(measure.quarterCups / 4 + measure.tablespoons / 16 - 464 / gramsPerCup)).toBeLessThanOrEqual(1 / 32);
    expect(measure.quarterTeaspoons).toBe(0);
  });

  const lean = { moistureFraction: 0.7, saltFraction: 0 };
  test.each([[1, 5.1], [2, 4.05], [3, 3.7], [1e9, 3]])('for 3.0 per cent water-phase salt at equilibrium a ratio of %d asks for a brine of %d per cent', (ratio, percent) => {
    const fraction = brineFractionFor(lean, 0.03, ratio);
    expect(100 * fraction).toBeCloseTo(percent, 2);
    expect(equilibriumFraction({ grams: 1, ...lean }, { saltGrams: ratio * fraction, waterGrams: ratio * (1 - fraction) })).toBeCloseTo(0.03, 9);
  });

  const whitefish: RawFish = { grams: 1000, moistureFraction: 0.73, saltFraction: 0.0016 };
  const tenPercent = { saltGrams: 200, waterGrams: 1800 };
  test('1 kg of whitefish in 2 kg of 10 % brine comes to 7.38 %, 58.2 g of salt and 1.0566 kg', () => {
    const brined = brinedFish(whitefish, tenPercent);
    expect(100 * equilibriumFraction(whitefish, tenPercent)).toBeCloseTo(7.38, 2);
    expect(brined.saltGrams).toBeCloseTo(58.2, 1);
    expect(brined.grams / 1000).toBeCloseTo(1.0566, 4);
    expect((100 * brined.saltGrams) / brined.grams).toBeCloseTo(5.51, 2);
  });

  test('stopped at 0.40 of the way it holds 24.2 g of salt, 3.21 % of its water phase', () => {
    const brined = brinedFish(whitefish, tenPercent, 0.4);
    expect(brined.saltGrams).toBeCloseTo(24.2, 1);
    expect(100 * waterPhaseFraction(brined.saltGrams, brined.waterGrams)).toBeCloseTo(3.21, 2);
  });

  test.each([[70, 4.33, 4.84], [146, 7.22, 8.04]])('%d g of salt with soy sauce and brown sugar: %d per cent of the brine, %d per cent of its water phase', (saltGrams, whole, waterPhase) => {
    const weighed = [['water', 1892.7], ['table-salt', saltGrams], ['soy-sauce', 255], ['brown-sugar', 220]] as const;
    const mixture = mixtureOf(weighed.map(([id, grams]) => ({ ingredient: ingredient(id), grams })));
    const total = weighed.reduce((sum, [, grams]) => sum + grams, 0);
    // Within the tap water's 0.1 % of minerals and the purity of the salt.
    expect(Math.abs((100 * mixture.saltGrams) / total - whole)).toBeLessThanOrEqual(0.1);
    expect(Math.abs(100 * waterPhaseFraction(mixture.saltGrams, mixture.waterGrams) - waterPhase)).toBeLessThanOrEqual(0.1);
    expect((100 * mixture.sugarGrams) / (mixture.sugarGrams + mixture.waterGrams)).toBeCloseTo(9.37, 1);
  });

  test('a brined fillet of 72.0 % moisture and 2.2 % salt that loses 18 % comes to 3.91 % from 2.96 %', () => {
    const brined = { grams: 100, saltGrams: 2.2, waterGrams: 72 };
    expect(100 * (finishedFraction(brined, 1) ?? NaN)).toBeCloseTo(2.96, 2);
    expect(100 * (finishedFraction(brined, 0.82) ?? NaN)).toBeCloseTo(3.91, 2);
  });

  test.each([[18, 1.96], [12, 2.18], [25, 1.7]])('for 3.5 per cent finished from 72 per cent moisture a loss of %d per cent asks for %d per cent salt when brined', (loss, salt) => {
    // Printed to two decimals, so the finished figure is right to one and a bit.
    expect(Math.abs(100 * (finishedFraction({ grams: 100, saltGrams: salt, waterGrams: 72 }, 1 - loss / 100) ?? NaN) - 3.5)).toBeLessThan(0.02);
  });

  test('a dry cure of 2.5 % comes to 3.66 %; 3.5 % takes 2.38 %', () => {
    const fish = { moistureFraction: 0.7, saltFraction: 0.0016 };
    expect(100 * dryCureFraction(fish, 0.025)).toBeCloseTo(3.66, 2);
    expect(100 * dryCureFor(fish, 0.035)).toBeCloseTo(2.38, 2);
  });

  test('no-water sweet slurry: 12.0 % salt of the whole but 34.2 % of its water phase', () => {
    const weighed = [['brown-sugar', 330], ['table-salt', 62], ['soy-sauce', 85], ['worcestershire-sauce', 69], ['maple-syrup', 83]] as const;
    const mixture = mixtureOf(weighed.map(([id, grams]) => ({ ingredient: ingredient(id), grams })));
    expect(Math.abs((100 * mixture.saltGrams) / 629 - 12)).toBeLessThanOrEqual(0.2);
    expect(Math.abs(100 * waterPhaseFraction(mixture.saltGrams, mixture.waterGrams) - 34.2)).toBeLessThanOrEqual(0.3);
    const slurried = equilibriumFraction({ grams: 2000, moistureFraction: 0.7, saltFraction: 0.0016 }, mixture);
    expect(Math.abs(100 * slurried - 4.86)).toBeLessThanOrEqual(0.06);
  });
});
