import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TRADE_FORMS } from '../../app/brine/forms.ts';
import { emptyStrength, workOut, type StrengthDraft } from '../../renderer/places/brine-bench/strength-draft.ts';

const at = (change: Partial<StrengthDraft>, unit: 'F' | 'C' = 'F') => workOut({ ...emptyStrength(unit), ...change }, unit);

function found(change: Partial<StrengthDraft>, unit: 'F' | 'C' = 'F') {
  const answer = at(change, unit);
  if (answer?.ok !== true) throw new Error(`not found: ${JSON.stringify(answer)}`);
  return answer.value;
}

describe('the strength tool', () => {
  it('waits while a field is empty', () => {
    expect(at({})).toBeNull();
    expect(at({ figure: '40', temperature: '' })).toBeNull();
  });
  it('has 26.395 % at 100 °SAL and half of it at 50', () => {
    expect(found({ figure: '100', temperature: '60' }).percent).toBeCloseTo(26.395, 6);
    expect(found({ figure: '50' }).percent).toBeCloseTo(13.1975, 6);
  });
  it('gives back in each form what was given in it', () => {
    fc.assert(fc.property(fc.constantFrom(...TRADE_FORMS), fc.double({ min: 0.5, max: 24, noNaN: true }), (form, percent) => {
      const given = found({ form: 'percentByWeight', figure: String(percent) }).forms[form];
      expect(found({ form, figure: String(given) }).percent).toBeCloseTo(percent, 6);
    }));
  });
  it('reads a float back to the strength whose float it foretells, warm or cold, with or without sugar', () => {
    fc.assert(fc.property(fc.integer({ min: 2, max: 20 }), fc.integer({ min: 0, max: 12 }), fc.integer({ min: 33, max: 86 }), (percent, sugar, temperature) => {
      const { tub } = found({ form: 'percentByWeight', figure: String(percent), sugar: String(sugar), temperature: String(temperature) });
      if (tub.float.kind !== 'shows') return;
      const back = found({ by: 'reading', figure: String(tub.float.degrees), sugar: String(sugar), temperature: String(temperature) });
      expect(back.percent).toBeCloseTo(percent, 6);
    }));
  });
  it('takes the temperature in the kitchen’s degrees', () => {
    const [fahrenheit, celsius] = [found({ figure: '60', temperature: '50' }, 'F'), found({ figure: '60', temperature: '10' }, 'C')];
    expect(fahrenheit.tub.densityKgPerM3).toBeCloseTo(celsius.tub.densityKgPerM3, 6);
  });
  it('says whether the water holds the salt', () => {
    expect(found({ figure: '50' }).tub.holdsAll).toBe(true);
    expect(found({ figure: '100', temperature: '33' }).tub.holdsAll).toBe(false);
  });
  it.each([
    ['figure', { figure: 'strong' }], ['figure', { figure: '101' }], ['figure', { figure: '-1' }], ['figure', { by: 'reading', figure: '120' }], ['temperature', { figure: '40', temperature: '200' }],
    ['temperature', { figure: '40', temperature: 'cold' }], ['sugar', { figure: '40', sugar: '80' }], ['sugar', { figure: '40', sugar: 'some' }],
  ] as const)('names the %s in %j with a sentence', (field, change) => {
    const answer = at(change);
    expect(answer).toMatchObject({ ok: false, problem: { field } });
    expect(answer?.ok === false ? answer.problem.message : '').toMatch(/\.$/);
  });
});
