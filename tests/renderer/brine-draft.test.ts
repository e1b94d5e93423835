import { describe, expect, it } from 'vitest';
import { emptyBrine, gapWords, readBrine, type BrineDraft } from '../../renderer/places/brine-bench/brine-draft.ts';
import { emptyMend, isNothingToDo, TROUBLE_KINDS, troubleOf } from '../../renderer/places/brine-bench/mend-draft.ts';
import { Trouble } from '../../app/contract/requests/tub.ts';
import { brineBenchRequests } from '../../app/contract/requests/brine-bench.ts';

const recipe = {
  id: 'plain', version: 1, name: 'Plain', cure: 'wet' as const, process: 'either' as const, ratio: 1, target: { brineSalometer: 60 }, saltIngredientId: 'salt',
  soakHours: 8, turnHours: [4], note: '', ingredients: [{ id: 'water', name: 'Water', parts: 20 }, { id: 'salt', name: 'Salt', parts: 1 }],
};
const filled: BrineDraft = { ...emptyBrine(), lotIds: ['lot'], weight: '12.4', thickest: '34' };
const read = (change: Partial<BrineDraft>, from = recipe) => readBrine({ ...filled, ...change }, from, 'lb');

describe('a new brine', () => {
  it('asks only for fish, weight, thickness and recipe in the usual case', () => {
    expect(read({})).toEqual({ gaps: [], input: { recipeId: 'plain', lotIds: ['lot'], fillets: { text: '12.4', unit: 'lb' }, thickestMm: 34, skin: 'on' } });
  });
  it('asks nothing while fish, weight or recipe is missing', () => {
    expect(read({ lotIds: [] }).input).toBeNull();
    expect(read({ weight: ' ' }).input).toBeNull();
    expect(readBrine(filled, null, 'kg').input).toBeNull();
  });
  it('sends every choice in the form that the contract takes', () => {
    const { input } = read({ thinnest: '12', sizeBy: 'tub', litres: '32', headroom: '15', goal: 'finishedWaterPhasePercent', goalFigure: '3.5', yieldText: '82', aim: 'low', saltFormId: 'dense-flake' });
    expect(input).toMatchObject({ thinnestMm: 12, size: { by: 'tub', litres: 32, headroomPercent: 15 }, target: { finishedWaterPhasePercent: 3.5, yieldPercent: 82 }, aimLowEnd: true, saltFormId: 'dense-flake' });
    expect(brineBenchRequests['brine.card'].input.safeParse(input).success).toBe(true);
  });
  it('gives the yield beside the recipe’s own goal, and with a finished goal inside it', () => {
    expect(read({ yieldText: '84' }).input).toMatchObject({ yieldPercent: 84 });
    expect(read({ goal: 'finishedWaterPhasePercent', goalFigure: '3.5', yieldText: '84' }).input).not.toHaveProperty('yieldPercent');
  });
  it('aims at the low end only for a finished goal and a known thickness', () => {
    expect(read({ aim: 'low' }).input).not.toHaveProperty('aimLowEnd');
    expect(read({ aim: 'low', thickest: '', goal: 'finishedWaterPhasePercent', goalFigure: '3.5', yieldText: '82' }).input).not.toHaveProperty('aimLowEnd');
  });
  it('waits for a chosen figure that is still empty, without a fault', () => {
    expect(read({ sizeBy: 'ratio' })).toEqual({ gaps: [], input: null });
    expect(read({ goal: 'brinePercent' })).toEqual({ gaps: [], input: null });
  });
  it.each([['ratio', { sizeBy: 'ratio', ratio: 'two' }], ['litres', { sizeBy: 'tub', litres: '3 l' }], ['headroom', { sizeBy: 'tub', litres: '3', headroom: 'x' }], ['goalFigure', { goal: 'brineSalometer', goalFigure: '4,5' }], ['yieldText', { yieldText: 'most' }]] as const)(
    'names a %s that is no number and asks nothing',
    (gap, change) => {
      expect(read(change)).toEqual({ gaps: [gap], input: null });
      expect(gapWords(gap)).toMatch(/number/);
    },
  );
  it.each(['0', '300', '-3', 'thick'])('shows the card without a thickness of “%s”, and says what is wrong with it', (thickest) => {
    const answer = read({ thickest });
    expect(answer.gaps).toEqual(['thickest']);
    expect(answer.input).not.toHaveProperty('thickestMm');
    expect(gapWords('thickest')).toMatch(/mm/);
  });
  it('asks a dry cure for no ratio or tub', () => {
    expect(readBrine({ ...filled, sizeBy: 'tub', litres: '' }, { ...recipe, cure: 'dry' }, 'lb').input).not.toHaveProperty('size');
  });
});

describe('a trouble with a brine', () => {
  const units = { temperatureUnit: 'F' as const, massUnit: 'kg' as const };
  const whole = { ...emptyMend(), degrees: '30', brine: '38', percent: '7', left: '6', ingredientId: 'salt', there: '200', meantFormId: 'a', usedFormId: 'b', tested: '4.4', wanted: '3.5' };
  it.each(TROUBLE_KINDS)('“%s” is asked in the form that the contract takes once its figures are there', (kind) => {
    expect(troubleOf(kind, emptyMend(), units)).toBeNull();
    expect(Trouble.safeParse(troubleOf(kind, whole, units)).success).toBe(true);
  });
  it('sends the brine that is left in the kitchen’s unit, a short ingredient in grams', () => {
    expect(troubleOf('spilled', whole, units)).toEqual({ kind: 'spilled', left: { text: '6', unit: 'kg' } });
    expect(troubleOf('ran-out', whole, units)).toMatchObject({ there: { text: '200', unit: 'g' }, insteadId: null });
  });
  it('sends a float with its temperature, or a test without', () => {
    expect(troubleOf('too-weak', { ...whole, brine: '' }, units)).toBeNull();
    expect(troubleOf('too-weak', { ...whole, brine: '', measuredBy: 'percent' }, units)).toEqual({ kind: 'too-weak', measured: { by: 'percent', percent: '7' } });
  });
});

describe('a plan that leaves all as it is', () => {
  const brine = { totalGrams: 1000, percentByWeight: 6, salometerDegrees: 22.7, waterPhasePercent: 6.2, floatShowsDegrees: 25 };
  const step = { text: 'Do nothing.', ingredientId: null, grams: null, hours: null };
  it('has nothing to keep as a mend', () => {
    expect(isNothingToDo({ steps: [step], before: brine, after: brine })).toBe(true);
  });
  it('is none where something is added, the brine changes, or the fish is freshened', () => {
    expect(isNothingToDo({ steps: [{ ...step, grams: 20 }], before: brine, after: brine })).toBe(false);
    expect(isNothingToDo({ steps: [step], before: brine, after: { ...brine, percentByWeight: 7 } })).toBe(false);
    expect(isNothingToDo({ steps: [{ ...step, hours: 2 }], before: brine, after: brine })).toBe(false);
  });
});
