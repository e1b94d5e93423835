/**
 * Worked cases of labels, weights and codes that the other files of this folder don't have. Computed from the rules named; figures
 * marked as in the files they check.
 */
import { describe, expect, it } from 'vitest';
import fish from '../../assets/fish/fish.json' with { type: 'json' };
import { composeLabel } from '../../app/packs/compose-label.ts';
import { addDays, dayOfYear, dayText, readDay } from '../../app/packs/dates.ts';
import type { LabelInput, LabelPreview } from '../../app/packs/label-types.ts';
import { readLotCode } from '../../app/packs/lot-code.ts';
import { allowableVariationGrams, checkLotWeights, isFineEnough } from '../../app/packs/net-lot.ts';
import { gs1CheckDigit, readGtin } from '../../app/packs/pack-code.ts';
import { DOTS_PER_MM_203, chooseModule } from '../../app/packs/symbol-size.ts';
import { highestLiftMm, panelFromInches } from '../../app/packs/type-height.ts';

const LABEL: LabelInput = {
  kitchen: { name: 'Example Lodge LLC', address: '1 River Rd', city: 'Anytown', region: 'AK', postalCode: '99999' },
  identity: { process: 'hot', marketName: 'Coho Salmon' },
  netGrams: 340,
  ingredients: [{ name: 'Coho salmon', grams: 10_000 }, { name: 'salt', grams: 300 }],
  dates: { packedOn: '2026-07-14', bestBy: '2026-10-12' },
  lot: 'CO26195AE', pack: 'vacuum', store: 'frozen', jurisdiction: 'us-federal', nutritionGround: 'very-small',
};

function compose(change: Partial<LabelInput>): LabelPreview {
  const composed = composeLabel({ ...LABEL, ...change }, fish.species);
  if (!composed.ok) throw new Error(composed.problem.message);
  return composed.value;
}

function later(day: string, days: number): string {
  const read = readDay(day);
  if (!read.ok) throw new Error(read.problem.message);
  return dayText(addDays(read.value, days));
}

describe('what a lot of packs must hold (NIST Handbook 133, read in part)', () => {
  const NETS = [345, 338, 341, 340, 342, 339, 343, 340, 341, 342, 340, 341];

  it('twelve packs of 340 g whose mean is 1 g over pass', () => {
    const lot = checkLotWeights(340, NETS);
    expect(lot).toMatchObject({ ok: true, value: { meanErrorGrams: 1, tooShort: 0, passes: true } });
    expect(lot.ok && lot.value.deviationGrams).toBeCloseTo(1.859, 3);
    expect(lot.ok && lot.value.marginGrams).toBeCloseTo(2.18, 2);
  });

  it('the same 3 g lighter fail by their average, and one pack 17 g short fails by itself', () => {
    const lot = checkLotWeights(340, NETS.map((grams) => grams - 3));
    expect(lot.ok && lot.value).toMatchObject({ meanErrorGrams: -2, passes: false });
    expect(lot.ok && lot.value.marginGrams).toBeCloseTo(-0.82, 2);
    expect(checkLotWeights(340, [...NETS.slice(1), 323])).toMatchObject({ ok: true, value: { tooShort: 1, passes: false } });
    expect(checkLotWeights(340, NETS.slice(0, 1)).ok).toBe(false);
  });

  it.each([[113, 7.2], [340, 16.3], [454, 19.9], [30, 3], [36, 3.6], [36.1, 3.6], [117, 7.2], [117.1, 9]])('lets a pack of %s g be short by %s g', (declared, grams) => {
    expect(allowableVariationGrams(declared)).toEqual({ ok: true, value: grams });
  });

  it('has the variations of Table 2-5 in pounds (from memory; 0.18 to 0.26 lb read), each to its own end in grams', () => {
    const rows = [
      [0.12, 0.008], [0.18, 0.012], [0.26, 0.016], [0.34, 0.02], [0.46, 0.024], [0.58, 0.028], [0.7, 0.032], [0.84, 0.036], [0.94, 0.04], [1.08, 0.044], [1.26, 0.048], [1.4, 0.052], [1.54, 0.056],
      [1.7, 0.06], [1.88, 0.064], [2.14, 0.07], [2.48, 0.078], [2.76, 0.086], [3.2, 0.094], [3.9, 0.11], [4.7, 0.12], [5.8, 0.14], [6.8, 0.15], [7.9, 0.17], [9.4, 0.19], [11.7, 0.22],
    ] as const;
    for (const [place, [pounds, variation]] of rows.entries()) {
      // The table's grams are its pounds cut to whole grams of three digits, and to a tenth of a gram.
      const grams = pounds * 453.59237;
      const end = grams < 1000 ? Math.floor(grams) : Math.floor(grams / 10) * 10;
      const at = allowableVariationGrams(end);
      expect(at.ok && Math.abs(at.value - variation * 453.59237), `${pounds} lb`).toBeLessThan(0.1);
      const beyond = allowableVariationGrams(end + 0.1);
      if (place < rows.length - 1) expect(beyond.ok && at.ok && beyond.value > at.value, `over ${pounds} lb`).toBe(true);
      else expect(beyond.ok).toBe(false);
    }
  });

  it('has the sample factors of Table 2-1 (from memory) as Student’s t at 0.975 over the root of the sample (computed)', () => {
    const students = [[2, 12.706], [3, 4.303], [4, 3.182], [5, 2.776], [6, 2.571], [7, 2.447], [8, 2.365], [9, 2.306], [10, 2.262], [11, 2.228], [12, 2.201], [24, 2.069], [48, 2.012]] as const;
    for (const [count, t] of students) {
      const lot = checkLotWeights(340, Array.from({ length: count }, (_, index) => 340 + index));
      if (!lot.ok) throw new Error(lot.problem.message);
      expect((lot.value.marginGrams - lot.value.meanErrorGrams) / lot.value.deviationGrams, `${count} packs`).toBeCloseTo(t / Math.sqrt(count), 2);
    }
    const oneShort = (count: number) => checkLotWeights(340, Array.from({ length: count }, (_, index) => (index === 0 ? 320 : 345)));
    expect([oneShort(24), oneShort(48)]).toMatchObject([{ value: { tooShort: 1, passes: false } }, { value: { tooShort: 1, passes: true } }]);
  });

  it('wants steps of 2 g of the scale for 340 g packs, and refuses 5 g', () => {
    expect(isFineEnough(2, 340)).toEqual({ ok: true, value: true });
    expect(isFineEnough(2.8, 340)).toEqual({ ok: true, value: false });
    expect(isFineEnough(5, 340)).toEqual({ ok: true, value: false });
    expect(allowableVariationGrams(6000).ok).toBe(false);
  });
});

describe('lot codes and numbers', () => {
  it('refuse a zero for an O and two characters changed round, and take small letters', () => {
    expect(readLotCode('C026195AE').ok).toBe(false);
    expect(readLotCode('CO26159AE').ok).toBe(false);
    expect(readLotCode('co26195ae')).toMatchObject({ ok: true, value: { code: 'CO26195AE' } });
  });

  it.each([
    ['0952012345678', '8'], ['952012345678', '8'], ['1952012345678', '5'], ['1234567890123', '1'], ['0234567', '3'], ['41600033610', '8'],
    ['12345678901234567', '5'], ['629104150021', '3'], ['37610425002123456', '9'], ['09520123456789123', '5'],
  ])('%s has the check digit %s', (digits, check) => {
    expect(gs1CheckDigit(digits)).toBe(check);
  });

  it('a number of 13 digits is one of 14 with a zero before it', () => {
    expect(readGtin('9520123456788')).toEqual({ ok: true, value: '09520123456788' });
  });
});

describe('element strings', () => {
  it('carry number, weight, days and lot of a frozen pack, nothing between them', () => {
    expect(compose({ gtin: '9520123456788' }).code).toEqual({ symbology: 'gs1datamatrix', content: '(01)09520123456788(3103)000340(13)260714(15)261012(10)CO26195AE' });
    expect(compose({ gtin: '9520123456788', lot: 'CO26195AE-007' }).code.content).toMatch(/\(10\)CO26195AE\(21\)007$/);
  });

  it('leave out a use-by day that isn’t printed', () => {
    const chilled = compose({ gtin: '9520123456788', store: 'refrigerated', dates: { packedOn: '2026-07-14', useBy: '2026-07-27' } });
    expect(chilled.code.content).not.toContain('(17)');
    const air = compose({ gtin: '9520123456788', store: 'refrigerated', pack: 'air', dates: { packedOn: '2026-07-14', useBy: '2026-07-27' } });
    expect(air.code.content).toContain('(17)260727');
  });
});

describe('days', () => {
  it('of chilled and frozen packs are counted on the calendar', () => {
    expect(later('2026-07-13', 14)).toBe('2026-07-27');
    expect(later('2026-07-14', 90)).toBe('2026-10-12');
    expect(later('2026-07-14', 180)).toBe('2027-01-10');
    const bestBy = readDay('2026-10-12');
    expect(bestBy.ok && dayOfYear(bestBy.value)).toBe(285);
  });
});

describe('whole labels', () => {
  it('of nine workers’ packs need no Nutrition Facts until they make a claim (21 CFR 101.9(j)(18), read)', () => {
    expect(compose({}).missing).toEqual([]);
    expect(compose({ identity: { process: 'hot', marketName: 'Coho Salmon', form: 'fillet, high in omega-3' } }).missing.map(({ element }) => element)).toEqual(['L07']);
  });

  it('in California say that a guest’s fish is not to be sold, in letters of 9.5 mm', () => {
    const { nutritionGround: _ground, ...rest } = LABEL;
    const custom = composeLabel({ ...rest, jurisdiction: 'us-ca', owner: { name: 'A. Guest', licence: '1' } }, fish.species);
    expect(custom.ok && custom.value.blocks[0]?.text).toContain('NOT TO BE SOLD');
    expect(custom.ok && custom.value.blocks[0]?.text).toContain('NOT FOR SALE');
  });

  it('have nitrite only where the fish may hold it (21 CFR 172.175, read)', () => {
    const cured = [...LABEL.ingredients, { name: 'curing salt', grams: 5, subIngredients: ['salt', 'sodium nitrite'], allergens: [] }];
    expect(compose({ ingredients: cured }).missing).toEqual([]);
    expect(compose({ ingredients: cured }).blocks.find(({ element }) => element === 'L04')?.text).toContain('sodium nitrite (preservative)');
    const trout = compose({ identity: { process: 'hot', marketName: 'Lake Trout' }, ingredients: cured.with(0, { name: 'Lake trout', grams: 10_000 }) });
    expect(trout.missing).toEqual([{ element: 'L10', why: expect.stringContaining('Lake Trout is not among the fish that may hold it') }]);
  });

  it('say of an ingredient without a weight that its place isn’t known, and print it all the same', () => {
    const listed = compose({ ingredients: [...LABEL.ingredients, { name: 'black pepper', grams: 0 }] });
    expect(listed.missing).toEqual([{ element: 'L04', why: expect.stringContaining('“black pepper” has no weight') }]);
    expect(listed.blocks.find(({ element }) => element === 'L04')?.text).toBe('Ingredients: Coho salmon, salt, black pepper.');
  });

  it('repeat the frozen words in French where Canada’s are wanted, once', () => {
    const french = compose({ secondLanguage: 'fr' }).blocks.filter(({ text }) => text.includes('Garder congelé'));
    expect(french.map(({ text }) => text)).toEqual(['Garder congelé jusqu\u2019à utilisation']);
    expect(compose({ secondLanguage: 'fr', jurisdiction: 'ca-on' }).blocks.filter(({ text }) => text.includes('Garder congelé'))).toHaveLength(1);
    expect(compose({ secondLanguage: 'fr', store: 'refrigerated' }).blocks.some(({ text }) => text.includes('Garder'))).toBe(false);
  });
});

describe('placing', () => {
  it('on an 8 in pouch the net weight may begin 2.40 in above its foot', () => {
    expect(highestLiftMm(panelFromInches(6, 8), 2.4 * 25.4)).toBe(0);
    expect(highestLiftMm(panelFromInches(6, 8), 25.4)).toBeCloseTo(1.4 * 25.4, 3);
    expect(highestLiftMm(panelFromInches(6, 8), 2.5 * 25.4)).toBeLessThan(0);
    expect(highestLiftMm(panelFromInches(2, 2.5), 30)).toBeNull();
  });

  it('a module of 0.45 mm is four dots of 1/8 mm, and 22 of them with a quiet module each side 12.0 mm', () => {
    const { dots, moduleMm } = chooseModule(0.45, DOTS_PER_MM_203);
    expect(dots).toBe(4);
    expect((22 + 2) * moduleMm).toBe(12);
  });
});
