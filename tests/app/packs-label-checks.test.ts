import { describe, expect, it } from 'vitest';
import { composeLabel } from '../../app/packs/compose-label.ts';
import { drawnGaps, labelChecks, type LabelFacts } from '../../app/packs/label-checks.ts';
import { placeLabel, tooLargeForPouch } from '../../app/packs/label-content.ts';
import { readMark } from '../../app/packs/label-mark.ts';
import type { LabelInput } from '../../app/packs/label-types.ts';

const STOCK = { id: '4x3in', name: '4 × 3 in', widthMm: 101.6, heightMm: 76.2 };
const LABEL: LabelInput = {
  kitchen: { name: 'Tamarack Narrows Lodge', address: '4 Narrows Rd', city: 'Pike Bay', region: 'MN', postalCode: '56600' },
  identity: { process: 'hot', marketName: 'Lake Trout', form: 'fillet portion' },
  netGrams: 240, ingredients: [{ name: 'Lake trout', grams: 4000 }, { name: 'salt', grams: 100 }],
  dates: { packedOn: '2026-07-14' }, lot: 'CO26195AE', pack: 'vacuum', store: 'frozen', jurisdiction: 'us-federal', nutritionGround: 'very-small',
};

function facts(change: Partial<LabelInput> = {}, more: Partial<LabelFacts> = {}): LabelFacts {
  const composed = composeLabel({ ...LABEL, ...change });
  if (!composed.ok) throw new Error(composed.problem.message);
  const placed = placeLabel(composed.value, { jurisdiction: 'us-federal', stock: STOCK, pouch: { widthMm: 152.4, heightMm: 203.2 }, dotsPerMm: 8 });
  return { ...placed, nutritionGround: LABEL.nutritionGround, fishHidden: true, isPouchKnown: true, ...more };
}

function statesOf(of: LabelFacts): Record<string, string> {
  return Object.fromEntries(labelChecks(of).map(({ element, state }) => [element, state]));
}

describe('the fifteen elements of a label', () => {
  it('are each looked at, with a primary source and how it was had', () => {
    const checks = labelChecks(facts());
    expect(checks.map(({ element }) => element)).toEqual(Array.from({ length: 15 }, (_, index) => `L${String(index + 1).padStart(2, '0')}`));
    for (const { source, words, title } of checks) {
      expect(source).toMatch(/\((read|second-hand|from memory|computed|common practice)[^)]*\)/);
      expect(words, title).not.toBe('');
    }
  });

  it('of a pack for sale are met, but for what smoked fish, a plain list and bought fish don’t need', () => {
    const states = statesOf(facts());
    expect(Object.keys(states).filter((element) => states[element] === 'not-needed')).toEqual(['L10', 'L11', 'L15']);
    expect(Object.values(states)).not.toContain('missing');
  });

  it('of a guest’s own fish ask for no Nutrition Facts', () => {
    const states = statesOf(facts({ owner: { name: 'Ada Lind', licence: 'MN-1' }, nutritionGround: undefined }, { nutritionGround: undefined }));
    expect(states).toMatchObject({ L07: 'not-needed', L14: 'not-needed', L15: 'met' });
  });

  it('that lack something are missing with the sentence that says where it is entered', () => {
    const checks = labelChecks(facts({ kitchen: { ...LABEL.kitchen, city: '' }, nutritionGround: undefined }, { nutritionGround: undefined }));
    expect(checks.filter(({ state }) => state === 'missing').map(({ element, words }) => [element, words])).toEqual([
      ['L06', 'The city is empty. Enter it in the office, under kitchen.'], ['L07', expect.stringContaining('Nothing says on which ground')],
    ]);
  });

  it('want the form where the fish can’t be seen (21 CFR 101.3(c), from memory)', () => {
    const formless = { identity: { process: 'hot', marketName: 'Lake Trout' } } as const;
    expect(statesOf(facts(formless)).L02).toBe('missing');
    expect(statesOf(facts(formless, { fishHidden: false })).L02).toBe('not-needed');
  });

  it('want required words in English letters; names of firms and people may be in any (21 CFR 101.15(c), from memory)', () => {
    expect(drawnGaps(facts({ ingredients: [...LABEL.ingredients, { name: 'соль', grams: 3, allergens: [] }] })).map(({ element }) => element)).toEqual(['L13']);
    for (const identity of [{ marketName: 'Сиг' }, { marketName: 'Lake Trout', form: 'филе' }]) {
      expect(drawnGaps(facts({ identity: { process: 'hot', ...identity } })).map(({ element }) => element)).toContain('L13');
    }
    expect(drawnGaps(facts({ kitchen: { ...LABEL.kitchen, name: 'Тамарак Нэрроуз' } }))).toEqual([]);
    expect(drawnGaps(facts({ ingredients: [...LABEL.ingredients, { name: 'crème fraîche', grams: 3, allergens: ['milk'] }] }))).toEqual([]);
  });

  it.each([
    ['us-federal', 44, 'NOT FOR SALE'], ['us-federal', 44.2, undefined], ['us-ca', 50.4, 'NOT TO BE SOLD'], ['us-ca', 50.5, undefined], ['us-ak', 94.8, 'SPORT CAUGHT, NOT FOR RESALE'], ['us-ak', 95, undefined],
  ] as const)('of a guest’s own fish in %s want a label of %s mm to be wide enough for capitals of 3/8 in, at most three times as high as wide (21 CFR 101.7(h)(1), from memory): %s', (jurisdiction, widthMm, line) => {
    // The words are 6 mm less wide than the label: 12 letters × 9.525 mm ÷ 3 = 38.1 mm, 14 → 44.45 mm, 28 → 88.9 mm (computed).
    const gaps = drawnGaps(facts({ owner: { name: 'Ada Lind', licence: '1' }, jurisdiction }, { stock: { ...STOCK, widthMm } }));
    expect(gaps.map(({ element, why }) => [element, why.includes(`“${line}”`)])).toEqual(line === undefined ? [] : [['L12', true]]);
  });

  it('want nothing between list, allergens and firm, and no letter under 1/16 in', () => {
    const whole = facts();
    const list = whole.blocks.find(({ element }) => element === 'L04');
    if (list === undefined) throw new Error('no list');
    expect(drawnGaps({ ...whole, blocks: [list, ...whole.blocks.filter((block) => block !== list)] }).map(({ element }) => element)).toEqual(['L14']);
    expect(drawnGaps({ ...whole, blocks: whole.blocks.map((block) => (block === list ? { ...block, leastLetterMm: 1.5 } : block)) }).map(({ element }) => element)).toEqual(['L12']);
  });
});

describe('a label and its pouch', () => {
  it('say so where the label is larger', () => {
    expect(tooLargeForPouch({ stock: STOCK, pouch: { widthMm: 152, heightMm: 203 } })).toBeUndefined();
    expect(tooLargeForPouch({ stock: STOCK, pouch: { widthMm: 101.5, heightMm: 203 } })).toContain('larger than the side of the pouch');
    expect(tooLargeForPouch({ stock: STOCK, pouch: undefined })).toBeUndefined();
  });
});

describe('a mark', () => {
  const png = (width: number, height: number, size = 60): Uint8Array => {
    const bytes = new Uint8Array(size);
    bytes.set([137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13, 73, 72, 68, 82]);
    const view = new DataView(bytes.buffer);
    view.setUint32(16, width);
    view.setUint32(20, height);
    return bytes;
  };

  it('is a PNG of at most 100 kB, whose size its header tells', () => {
    expect(readMark(png(300, 120))).toEqual({ ok: true, value: { widthPixels: 300, heightPixels: 120 } });
    for (const [bytes, why] of [[png(1, 1, 100_001), 'has 101 kB'], [new Uint8Array(60), 'not a PNG'], [new Uint8Array(4), 'not a PNG'], [png(0, 5), '0 × 5 dots'], [png(9000, 5), '9000 × 5 dots']] as const) {
      expect(readMark(bytes)).toMatchObject({ ok: false, problem: { message: expect.stringContaining(why) } });
    }
  });
});
