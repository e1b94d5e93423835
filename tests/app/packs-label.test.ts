import { describe, expect, it } from 'vitest';
import { composeLabel } from '../../app/packs/compose-label.ts';
import type { LabelIngredient, LabelInput, LabelPreview } from '../../app/packs/label-types.ts';

const FISH: LabelIngredient = { name: 'Lake trout', grams: 4000, allergens: ['fish: Lake Trout'] };
const LABEL: LabelInput = {
  kitchen: { name: 'Tamarack Narrows Lodge', address: '4 Narrows Rd', city: 'Pike Bay', region: 'MN', postalCode: '56600' },
  identity: { process: 'hot', marketName: 'Lake Trout' },
  netGrams: 240,
  ingredients: [FISH, { name: 'salt', grams: 100 }],
  dates: { packedOn: '2026-07-14' },
  lot: 'CO26195AE',
  pack: 'vacuum',
  store: 'frozen',
  jurisdiction: 'us-federal',
  nutritionGround: 'very-small',
};

function compose(change: Partial<LabelInput>): LabelPreview {
  const composed = composeLabel({ ...LABEL, ...change });
  if (!composed.ok) throw new Error(composed.problem.message);
  return composed.value;
}

function textsOf(change: Partial<LabelInput>, element: string): string[] {
  return compose(change).blocks.filter((block) => block.element === element).map(({ text }) => text);
}

function fieldAtFault(change: Partial<LabelInput>): string | undefined {
  const composed = composeLabel({ ...LABEL, ...change });
  return composed.ok ? 'accepted' : composed.problem.field;
}

describe('the text of a label', () => {
  it('prints markup and other scripts as they were typed, whole', () => {
    const long = `${'Lachs <b>&amp;</b> 鮭 '.repeat(60)}end`;
    expect(textsOf({ ingredients: [FISH, { name: long, grams: 3, allergens: [] }] }, 'L04')[0]).toBe(`Ingredients: Lake trout, ${long}.`);
    expect(textsOf({ identity: { process: 'hot', marketName: 'سلمون' } }, 'L01')).toEqual(['SMOKED سلمون']);
  });

  it('drops spaces at both ends and nothing between', () => {
    expect(textsOf({ identity: { process: 'cold', marketName: '  Lake  Trout ' } }, 'L01')).toEqual(['COLD SMOKED LAKE  TROUT']);
  });

  it.each([
    ['identity.marketName', { identity: { process: 'hot', marketName: 'Lake\u0000Trout' } }],
    ['kitchen.name', { kitchen: { ...LABEL.kitchen, name: 'Lodge\nInn' } }],
    ['ingredients.1.name', { ingredients: [FISH, { name: 'sa\u0007lt', grams: 1 }] }],
    ['ingredients.0.allergens.0', { ingredients: [{ ...FISH, allergens: ['fish\t'.concat('x')] }] }],
    ['owner.name', { owner: { name: 'A\u202EB' } }],
  ] satisfies [string, Partial<LabelInput>][])('refuses a character that can’t be printed in %s', (field, change) => {
    expect(fieldAtFault(change)).toBe(field);
  });

  it.each([
    ['identity.marketName', { identity: { process: 'hot', marketName: '  ' } }],
    ['identity.marketName', { identity: { process: 'hot', marketName: 'unknown fish' } }],
    ['lot', { lot: 'CO26195AF' }],
    ['lot', { lot: '' }],
    ['netGrams', { netGrams: 0 }],
    ['netGrams', { netGrams: -5 }],
    ['netGrams', { netGrams: 10_000_000 }],
    ['netGrams', { netGrams: Number.NaN }],
    ['netGrams', { netGrams: 4 }],
    ['gtin', { gtin: '09520123456789' }],
    ['dates.packedOn', { dates: { packedOn: '2026-02-29' } }],
    ['dates.packedOn', { dates: { packedOn: '14.7.2026' } }],
    ['dates.smokedOn', { dates: { packedOn: '2026-07-14', smokedOn: '2026-07-15' } }],
    ['dates.useBy', { dates: { packedOn: '2026-07-14', useBy: '2026-07-14' } }],
    ['dates.bestBy', { dates: { packedOn: '2026-07-14', bestBy: '2026-07-01' } }],
    ['ingredients.0.grams', { ingredients: [{ ...FISH, grams: -1 }] }],
    ['ingredients.0.name', { ingredients: [{ name: ' ', grams: 1 }] }],
    ['owner.caughtOn', { owner: { name: 'A. Guest', caughtOn: '2026-07-15' } }],
    ['owner.caughtOn', { owner: { name: 'A. Guest', caughtOn: '2026-07-12/2026-07-11' } }],
    ['owner.pieces', { owner: { name: 'A. Guest', pieces: 0 } }],
  ] satisfies [string, Partial<LabelInput>][])('names %s when it can’t be right', (field, change) => {
    expect(fieldAtFault(change)).toBe(field);
  });

  it('prints a pack’s own number behind the lot and in the symbol', () => {
    expect(textsOf({ lot: 'co26195ae-007' }, 'L09')[0]).toBe('Lot CO26195AE-007');
    expect(compose({ lot: 'co26195ae-007' }).code.content).toBe('CO26195AE-007');
    expect(compose({ lot: 'CO26195AE-007', gtin: '09520123456788' }).code.content).toBe('(01)09520123456788(3103)000240(13)260714(10)CO26195AE(21)007');
  });

  it('gives every block a source with its mark', () => {
    for (const jurisdiction of ['us-federal', 'us-ak', 'us-ca', 'us-mi', 'us-ny', 'us-wi', 'ca-on'] as const) {
      for (const { source } of compose({ jurisdiction, owner: { name: 'A. Guest' } }).blocks) {
        expect(source).toMatch(/\((read|read, .+|read in part|second-hand|from memory|computed)\)|common practice/);
      }
    }
  });
});

describe('what a label is missing', () => {
  it('asks for each part of the address that is empty, and says where to enter it', () => {
    const kitchen = { name: '', address: '', city: '', region: '', postalCode: '' };
    const { missing } = compose({ kitchen });
    expect(missing.map(({ element }) => element)).toEqual(['L06', 'L06', 'L06', 'L06', 'L06']);
    expect(missing.every(({ why }) => why.endsWith('Enter it in the office, under kitchen.'))).toBe(true);
  });

  it('asks for a licence number for the record of a guest’s fish, and prints the label without it', () => {
    const custom = compose({ owner: { name: 'A. Guest' } });
    expect(custom.missing.map(({ element }) => element)).toEqual(['L15']);
    expect(custom.blocks.map(({ text }) => text)).toContain('Owner: A. Guest');
  });

  it('says when the lot was smoked on another day than the label claims, or after it was packed', () => {
    const other = compose({ dates: { packedOn: '2026-07-14', smokedOn: '2026-07-13' } });
    expect(other.missing).toEqual([{ element: 'L09', why: expect.stringContaining('Lot CO26195AE was smoked on 14 JUL 2026, the label says 13 JUL 2026') }]);
    expect(compose({ dates: { packedOn: '2026-07-20', smokedOn: '2026-07-17' } }).missing.map(({ element }) => element)).toEqual(['L09']);
    expect(compose({ dates: { packedOn: '2026-07-13' } }).missing).toEqual([{ element: 'L09', why: expect.stringContaining('after the day it was packed') }]);
  });

  it('takes a load that ended after midnight as its lot’s own', () => {
    expect(compose({ dates: { packedOn: '2026-07-16', smokedOn: '2026-07-15' } }).missing).toEqual([]);
  });

  it('asks for an ingredient list, and for the fish in it', () => {
    expect(compose({ ingredients: [] }).missing.map(({ element }) => element)).toEqual(['L04']);
    expect(textsOf({ ingredients: [] }, 'L05')).toEqual(['Contains: Lake Trout.']);
    expect(compose({ ingredients: [{ name: 'salt', grams: 5 }] }).missing).toEqual([{ element: 'L04', why: expect.stringContaining('does not name the fish') }]);
  });

  it('passes on a market name that is not known, and says so', () => {
    const species = [{ marketName: 'Lake Trout', alsoMarketNames: ['Trout'], vernacularNames: ['mackinaw'] }];
    const known = composeLabel(LABEL, species);
    expect(known.ok && known.value.missing).toEqual([]);
    const other = composeLabel({ ...LABEL, identity: { process: 'hot', marketName: 'Bluefish' }, ingredients: [{ name: 'Bluefish', grams: 9 }] }, species);
    expect(other.ok && other.value.missing).toEqual([{ element: 'L01', why: expect.stringContaining('“Bluefish” is not among the market names') }]);
    const trade = composeLabel({ ...LABEL, identity: { process: 'hot', marketName: 'Mackinaw' } }, species);
    expect(!trade.ok && trade.problem).toMatchObject({ field: 'identity.marketName', remedy: 'Use Lake Trout.' });
  });
});
