/** Worked brines, cures and mends, through the same functions that the bench uses. Published ones name their source. */
import { describe, expect, test } from 'vitest';
import { blendedFraction } from '../../app/brine/balance.ts';
import { countsByCrystal, crystalSpread, gramsOfMeasure } from '../../app/brine/crystals.ts';
import { scaleDryCure, type DryCureOrder, type ScaledDryCure } from '../../app/brine/dry-cure.ts';
import { tradeStrength, tradeStrengthOfPercent, type TradeForm } from '../../app/brine/forms.ts';
import { mixtureOf, type WeighedIngredient } from '../../app/brine/ingredients.ts';
import { mendBrine, type Trouble } from '../../app/brine/mend.ts';
import type { MendPlan, TubNow } from '../../app/brine/mend-plan.ts';
import { packageComposition } from '../../app/brine/package-label.ts';
import { percentOfSalometer, salometerOfPercent } from '../../app/brine/strength.ts';
import { waterPhaseFraction } from '../../app/brine/water-phase.ts';
import type { Outcome } from '../../app/measures/outcome.ts';
import { ingredient, INGREDIENTS } from '../fixtures/brine-catalogue.ts';

const GRAMS_PER_OUNCE = 28.349523125;
const GRAMS_PER_POUND = 453.59237;

function valueOf<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

function weigh(grams: Readonly<Record<string, number>>): WeighedIngredient[] {
  return Object.entries(grams).map(([id, weight]) => ({ ingredient: ingredient(id), grams: weight }));
}

function inForm(form: TradeForm, value: number, wanted: TradeForm): number {
  return valueOf(tradeStrength(form, value))[wanted];
}

describe('mending, by the trade’s method: Seafish (UK), Seafood Academy, “Salting or brining of the fish” (method read)', () => {
  /** 100 litres as that table has them: density at 20 °C. */
  function tubOf(degrees: number, kilograms: number): TubNow {
    const grams = kilograms * 1000;
    const saltGrams = (grams * percentOfSalometer(degrees)) / 100;
    return { lines: weigh({ water: grams - saltGrams, salt: saltGrams }), saltIngredientId: 'salt', filletGrams: 0, celsius: 20 };
  }
  function mended(tub: TubNow, trouble: Trouble): MendPlan {
    return valueOf(mendBrine(tub, trouble, INGREDIENTS, () => undefined));
  }

  test('100 litres of 70 °SAL raised to 80 °SAL take 3.80 kg of salt; the table itself gives 3.79', () => {
    const plan = mended(tubOf(70, 113.6), { kind: 'too-weak', measured: { by: 'percent', percent: percentOfSalometer(70) }, wantedPercent: percentOfSalometer(80) });
    expect(plan.steps).toEqual([{ what: 'add', ingredientId: 'salt', grams: expect.closeTo(3800, -1) }]);
    expect(plan.after.salometerDegrees).toBeCloseTo(80, 3);
    expect((92.6 * (267.69 - 226.78)) / 1000).toBeCloseTo(3.79, 2);
  });

  test('100 litres of 90 °SAL lowered to 80 °SAL take 14.7 kg of water', () => {
    const plan = mended(tubOf(90, 117.91), { kind: 'too-strong', measured: { by: 'percent', percent: percentOfSalometer(90) }, wantedPercent: percentOfSalometer(80) });
    const [step] = plan.steps;
    expect(step).toMatchObject({ what: 'add', ingredientId: 'water' });
    expect(step?.what === 'add' && step.grams / 1000).toBeCloseTo(14.7, 1);
    expect(28.01 / 0.26769 - 89.9).toBeCloseTo(14.7, 1);
  });

  test('two brines of one weight, 70 and 90 °SAL, make 80 °SAL (computed)', () => {
    expect(blendedFraction(1, 0.7, 1, 0.9)).toBeCloseTo(0.8, 12);
  });
});

describe('published brines', () => {
  test('8.5 oz of salt to a US quart of water is 77 °SAL and not the 80 that it says; 80 is 8.93 oz', () => {
    // Whelan, smoking small trout (extract on recipesource.com, rec0165; read): “80° SAL”, 8.5 oz salt per US quart of water.
    const gramsPerLitre = (8.5 * GRAMS_PER_OUNCE) / 0.946352946;
    // The quart's water is taken as 945 g, that of 60 °F.
    const percent = inForm('gramsPerLitreWater', gramsPerLitre, 'percentByWeight');
    expect(percent).toBeCloseTo(20.31, 1);
    expect(salometerOfPercent(percent)).toBeCloseTo(77, 1);
    const ouncesPerQuart = (inForm('salometerDegrees', 80, 'gramsPerLitreWater') * 0.946352946) / GRAMS_PER_OUNCE;
    expect(ouncesPerQuart).toBeCloseTo(8.93, 1);
    expect(ouncesPerQuart).toBeGreaterThan(8.5 * 1.04);
  });

  test.each([
    [1, 1 + 1 / 3, 1.35], [2, 2 + 2 / 3, 2.72], [3, 4, 4.12], [4, 5 + 1 / 3, 5.55], [5, 6 + 2 / 3, 7.01], [10, 14.25, 14.8], [15, 22 + 2 / 3, 23.5],
  ])('an old kitchen rule has %d per cent as %d oz of salt to a US gallon of water, which is %d oz, low at the strong end', (percent, ruled, exact) => {
    // F. W. Rockwell, Save It For Winter, “Directions for making brine” (read).
    const ounces = (tradeStrengthOfPercent(percent).poundsPerUsGallonWater * GRAMS_PER_POUND) / GRAMS_PER_OUNCE;
    expect(Math.abs(ounces - exact)).toBeLessThanOrEqual(0.05);
    expect(ounces).toBeGreaterThan(ruled);
    expect(ounces / ruled).toBeLessThan(1.06);
  });

  test('a gallon figure may be imperial: 1.882 lb at 60 °SAL is 1.568 lb to the US gallon', () => {
    // Fish Safety Notes (Canada), “Preparing a Saltbrine” (read); 1 imperial gallon is 1.20095 US gallons.
    expect(inForm('salometerDegrees', 60, 'poundsPerUsGallonWater')).toBeCloseTo(1.567, 3);
    expect(inForm('poundsPerUsGallonWater', 1.882 / 1.20095, 'salometerDegrees')).toBeCloseTo(60, 1);
    // Taken for US gallons it would be nearly ten degrees more.
    expect(inForm('poundsPerUsGallonWater', 1.882, 'salometerDegrees')).toBeGreaterThan(69);
  });

  test('2.986 lb to the gallon of water and 2.647 to the gallon of brine are one brine: saturated', () => {
    // US trade table, last row (from memory).
    const saturated = tradeStrengthOfPercent(26.395);
    expect(saturated.poundsPerUsGallonWater).toBeCloseTo(2.986, 3);
    expect(saturated.poundsPerUsGallonBrine).toBeCloseTo(2.647, 3);
    expect(inForm('poundsPerUsGallonBrine', 2.4, 'salometerDegrees')).toBeGreaterThan(inForm('poundsPerUsGallonWater', 2.4, 'salometerDegrees'));
  });

  test.each([[10, 26.4, 26.9], [80, 211.2, 244.7]])('%d brineometer degrees are printed as %d g per litre, which are grams per kilogram; a litre has %d', (degrees, printed, perLitre) => {
    // Torry Advisory Note 82 (revised), table of brine strengths (read), which calls its unit g/litre.
    const strength = valueOf(tradeStrength('salometerDegrees', degrees));
    expect(Math.abs(strength.percentByWeight * 10 - printed)).toBeLessThan(0.1);
    expect(strength.gramsPerLitreBrine).toBeCloseTo(perLitre, 1);
    expect(strength.gramsPerLitreBrine).toBeGreaterThan(printed);
  });

  test.each([[1.08, 8.79, 33.3], [1.17, 8.9, 33.7]])('a gallon with a cup of salt and a quart of soy sauce at %d g/ml: %d per cent of its water phase, %d °SAL (computed)', (density, percent, degrees) => {
    const gallonMl = 3785.411784;
    function waterPhaseWith(saltId: string): number {
      // A US gallon of water at 60 °F; the sauce by its own weight.
      const mixture = mixtureOf(weigh({ water: gallonMl * 0.999, [saltId]: 292, 'soy-sauce': (gallonMl / 4) * density }));
      return 100 * waterPhaseFraction(mixture.saltGrams, mixture.waterGrams);
    }
    expect(Math.abs(waterPhaseWith('salt') - percent)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(salometerOfPercent(waterPhaseWith('salt')) - degrees)).toBeLessThanOrEqual(0.1);
    // That counts table salt as all salt; USDA's has 98.5 %, which is a tenth less here.
    expect(percent - waterPhaseWith('table-salt')).toBeCloseTo(0.1, 1);
  });
});

describe('salt by the cup', () => {
  const salt = ingredient('salt');

  test('464 g are 1.59 cups of fine table salt, 1.87 of dense flake, 3.32 of light flake: 2.1 times as many (computed)', () => {
    const counts = new Map(countsByCrystal(salt, 464, 'cup').map(({ formId, count }) => [formId, count]));
    expect(counts.get('fine-table')).toBeCloseTo(1.59, 2);
    expect(counts.get('dense-flake')).toBeCloseTo(1.87, 2);
    // 464 ÷ 140 is 3.314; the note it comes from rounds up.
    expect(Math.abs((counts.get('light-flake') ?? NaN) - 3.32)).toBeLessThanOrEqual(0.006);
    expect((counts.get('light-flake') ?? NaN) / (counts.get('fine-table') ?? NaN)).toBeCloseTo(2.1, 1);
  });

  test('a cup of salt weighs 115 to 304 g, a factor of 2.6', () => {
    // Quarter-cup weights of seven salts (DadCooksDinner, 2012; read): 33.2 g of large flake, 76.0 g of fine; kitchen tables round the light end to 115 (read).
    expect(crystalSpread(salt, 'cup')).toMatchObject({ lightestGrams: 115, heaviestGrams: 304 });
    expect(crystalSpread(salt, 'cup')?.factor).toBeCloseTo(2.6, 1);
  });

  test.each([['fine-table', 76], ['pickling', 74], ['coarse-sea', 66.8], ['fine-sea', 64.8], ['dense-flake', 62], ['light-flake', 45.2], ['large-flake', 33.2]])('a weighed quarter cup of %s, %d g, lies in its range', (formId, weighed) => {
    // DadCooksDinner, “Salt by weight: quarter-cup weights of seven salts” (2012; read).
    const { lowGrams, highGrams } = valueOf(gramsOfMeasure(salt, { formId, unit: 'cup', count: 0.25 }));
    expect(weighed).toBeGreaterThanOrEqual(lowGrams - 0.25);
    expect(weighed).toBeLessThanOrEqual(highGrams + 0.25);
  });
});

describe('dry cures', () => {
  const ONLY_SALT = { name: 'Salt', ingredients: [{ id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } };
  function cured(order: Partial<DryCureOrder>): ScaledDryCure {
    return valueOf(scaleDryCure({
      recipe: ONLY_SALT, filletGrams: 1000, fish: { moisturePercent: 70, saltPercent: 0.16 }, scaleStepGrams: 0.01, target: { form: 'curePerFishPercent', percent: 2.5 }, ...order,
    }, INGREDIENTS));
  }

  test('25 g of salt to a kilogram come to 3.66 %; 3.5 % takes 23.8 g (computed)', () => {
    expect(cured({}).equilibriumWaterPhasePercent).toBeCloseTo(3.66, 2);
    expect(cured({}).saltGramsPerKilogramFish).toBe(25);
    const cure = cured({ target: { form: 'fishEquilibriumWaterPhasePercent', percent: 3.5 } });
    expect(cure.curePerFishPercent).toBeCloseTo(2.38, 2);
  });

  test('a sweet slurry without water: 629 g, 12.0 % salt, 34.2 % of its own water phase, 4.86 % in 2 kg of fish (computed)', () => {
    const parts = { 'brown-sugar': 330, 'table-salt': 62, 'soy-sauce': 85, 'worcestershire-sauce': 69, 'maple-syrup': 83 };
    const recipe = { name: 'Slurry', ingredients: Object.entries(parts).map(([id, weight]) => ({ id, parts: weight })), salt: { ingredientId: 'table-salt' } };
    const cure = cured({ recipe, filletGrams: 2000, scaleStepGrams: 1, target: { form: 'curePerFishPercent', percent: 31.45 } });
    expect(cure.totalGrams).toBe(629);
    expect(cure.lines.map((line) => line.grams)).toEqual(Object.values(parts));
    // The catalogue's soy sauce and table salt are a little less salty than the note's rounded ones.
    expect(Math.abs(cure.percentByWeight - 12)).toBeLessThanOrEqual(0.2);
    expect(Math.abs(cure.waterPhasePercent - 34.2)).toBeLessThanOrEqual(0.3);
    expect(Math.abs(cure.equilibriumWaterPhasePercent - 4.86)).toBeLessThanOrEqual(0.06);
    expect(cure.saltLeftOver).toBe(false);
  });

  test('30 g of salt to a kilogram, as on hand-salted smoked salmon, is a usual equilibrium cure', () => {
    // Foods 2020, 9(8):1048, Table 2 (read): 30 g/kg. With 65 % moisture it comes to 4.6 %.
    const cure = cured({ fish: { moisturePercent: 65, saltPercent: 0.11 }, target: { form: 'curePerFishPercent', percent: 3 } });
    expect(cure.equilibriumWaterPhasePercent).toBeCloseTo((100 * 0.0311) / (0.0311 + 0.65), 6);
    expect(cure.equilibriumWaterPhasePercent).toBeGreaterThan(4.5);
    expect(cure.equilibriumWaterPhasePercent).toBeLessThan(4.7);
  });

  test('200 g of salt and 88 g of sugar to a kilogram is an excess cure: at its end over 20 %, so time must stop it', () => {
    // Cold-smoked salmon with weights (wilfriedscooking.com; read): 16 h for a side of 2.3 in, weight loss 14 %.
    const recipe = { name: 'Excess', ingredients: [{ id: 'salt', parts: 200 }, { id: 'white-sugar', parts: 88 }], salt: { ingredientId: 'salt' } };
    const cure = cured({ recipe, target: { form: 'curePerFishPercent', percent: 28.8 } });
    expect(cure.saltGramsPerKilogramFish).toBeCloseTo(200, 1);
    expect(cure.equilibriumWaterPhasePercent).toBeGreaterThan(20);
  });
});

describe('sodium on a package: Salt Institute, “Chemical and physical properties of salt” (read), NaCl = Na × 2.5421', () => {
  test.each([
    ['table salt', 38_758, 98.527], ['soy sauce', 5493, 13.964], ['tamari', 5586, 14.2], ['teriyaki sauce', 3833, 9.744], ['fish sauce', 7851, 19.958], ['yellow mustard', 1104, 2.806],
  ])('100 g of %s with %d mg of sodium have %d per cent salt', (_name, sodiumMilligrams, percent) => {
    // Sodium: US Department of Agriculture, National Nutrient Database for Standard Reference 27 (read).
    expect(valueOf(packageComposition({ servingGrams: 100, sodiumMilligrams })).saltPercent).toBeCloseTo(percent, 2);
  });
});
