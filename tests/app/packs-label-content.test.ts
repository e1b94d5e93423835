import { describe, expect, it } from 'vitest';
import stocksData from '../../assets/stocks/label-stocks.json' with { type: 'json' };
import { LabelStocksFile } from '../../app/contract/assets-stocks.ts';
import { LabelContent } from '../../app/contract/requests/label-preview.ts';
import { composeLabel } from '../../app/packs/compose-label.ts';
import { placeLabel, type LabelPlacing } from '../../app/packs/label-content.ts';
import type { LabelInput } from '../../app/packs/label-types.ts';
import { DOTS_PER_MM_203, DOTS_PER_MM_300, chooseModule } from '../../app/packs/symbol-size.ts';

const STOCK = { id: '4x3in', name: '4 × 3 in', widthMm: 101.6, heightMm: 76.2 };
const PLACING: LabelPlacing = { jurisdiction: 'us-federal', stock: STOCK, pouch: { widthMm: 152.4, heightMm: 203.2 }, dotsPerMm: DOTS_PER_MM_203 };
const LABEL: LabelInput = {
  kitchen: { name: 'Tamarack Narrows Lodge', address: '4 Narrows Rd', city: 'Pike Bay', region: 'WI', postalCode: '54000' },
  identity: { process: 'hot', marketName: 'Lake Trout' },
  netGrams: 240,
  ingredients: [{ name: 'Lake trout', grams: 4000 }, { name: 'salt', grams: 100 }],
  dates: { packedOn: '2026-07-14' },
  lot: 'CO26195AE',
  pack: 'vacuum',
  store: 'frozen',
  jurisdiction: 'us-federal',
};

function place(change: Partial<LabelInput>, placing: Partial<LabelPlacing> = {}): LabelContent {
  const composed = composeLabel({ ...LABEL, ...change });
  if (!composed.ok) throw new Error(composed.problem.message);
  return LabelContent.parse(placeLabel(composed.value, { ...PLACING, ...placing }));
}

function letterOf(content: LabelContent, element: string): number | undefined {
  return content.blocks.find((block) => block.element === element)?.leastLetterMm;
}

describe('a label to be printed', () => {
  it('gives the net quantity the letters that the pouch asks for, whatever the stock', () => {
    expect(letterOf(place({}), 'L03')).toBe(4.7625);
    expect(letterOf(place({}, { pouch: { widthMm: 101.6, heightMm: 152.4 } }), 'L03')).toBe(3.175);
    expect(letterOf(place({}, { pouch: undefined }), 'L03')).toBe(4.7625);
    expect(place({}).netQuantityFootShare).toBe(0.3);
    expect(place({}, { pouch: { widthMm: 50.8, heightMm: 63.5 } }).netQuantityFootShare).toBeNull();
  });

  it('makes the identity bold and at least half as high as the largest print', () => {
    const identity = place({}).blocks.find((block) => block.element === 'L01');
    expect(identity).toMatchObject({ isBold: true, leastLetterMm: 2.38125, measuredBy: 'capital', panel: 'principal' });
  });

  it('makes Wisconsin’s words as large as the food’s name, and the list no smaller than 1/16 in', () => {
    const content = place({ jurisdiction: 'us-wi' }, { jurisdiction: 'us-wi' });
    const words = content.blocks.find(({ text }) => text.startsWith('PERISHABLE'));
    expect(words?.leastLetterMm).toBe(letterOf(content, 'L01'));
    expect(letterOf(content, 'L04')).toBe(1.5875);
    expect(letterOf(content, 'L05')).toBe(1.5875);
  });

  it('gives the front words of a guest’s pack capitals of 9.5 mm and frees its weight from the rules of sale', () => {
    const custom = place({ owner: { name: 'A. Guest', licence: '1' } });
    expect(custom.kind).toBe('custom');
    expect(custom.blocks[0]).toMatchObject({ text: 'SPORT-CAUGHT - NOT FOR SALE', leastLetterMm: 9.525, measuredBy: 'capital', isBold: true });
    expect(custom.netQuantityFootShare).toBeNull();
  });

  it('keeps every text of the label, in its order', () => {
    const composed = composeLabel(LABEL);
    expect(composed.ok && composed.value.blocks.map(({ text }) => text)).toEqual(place({}).blocks.map(({ text }) => text));
  });
});

describe('the module of a symbol', () => {
  it('is a whole number of dots, rounded up', () => {
    expect(chooseModule(0.45, DOTS_PER_MM_203)).toEqual({ dots: 4, moduleMm: 0.5 });
    expect(chooseModule(0.5, DOTS_PER_MM_203).dots).toBe(4);
    expect(chooseModule(0.1, DOTS_PER_MM_203).dots).toBe(3);
    expect(chooseModule(0.1, DOTS_PER_MM_300).dots).toBe(5);
    expect(chooseModule(0.5, DOTS_PER_MM_300)).toMatchObject({ dots: 6, moduleMm: expect.closeTo(0.508, 3) });
  });
});

describe('the label stocks', () => {
  it('are sizes in millimetres that agree with their names', () => {
    const { stocks } = LabelStocksFile.parse(stocksData);
    expect(stocks.length).toBeGreaterThan(10);
    for (const { name, widthMm, heightMm } of stocks) {
      const match = /^([\d¼.]+) × ([\d¼.]+) (in|mm)(?:, \d+ on an? \w+ sheet)?$/.exec(name);
      const unitMm = match?.[3] === 'in' ? 25.4 : 1;
      const size = (text: string | undefined): number => Number((text ?? '').replace('¼', '.25')) * unitMm;
      expect(widthMm, name).toBeCloseTo(size(match?.[1]), 9);
      expect(heightMm, name).toBeCloseTo(size(match?.[2]), 9);
    }
    expect(stocks.find(({ id }) => id === '4x3in')).toMatchObject({ widthMm: 101.6, heightMm: 76.2 });
  });
});
