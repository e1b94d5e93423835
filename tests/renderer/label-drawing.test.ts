import { describe, expect, it } from 'vitest';
import type { LabelBlock } from '../../app/contract/requests/packing.ts';
import { USUAL_CHOICE, type LabelStock } from '../../app/contract/requests/label-choice.ts';
import { readStock } from '../../app/packs/label-size.ts';
import { choiceInput, draftOfChoice, draftOfStock } from '../../renderer/places/office/label-draft.ts';
import { clearAboveMm, onWholeDots, quietModules, TYPE_SCALES, typeSizesMm } from '../../renderer/print/label-type.ts';
import { labelsOnSheet, sheetPages } from '../../renderer/print/label-pages.ts';

const block = (element: string, text: string, leastLetterMm: number, measuredBy: LabelBlock['measuredBy']): LabelBlock => ({ element, text, source: 'x', leastLetterMm, measuredBy });

describe('the letters of a label', () => {
  const BLOCKS = [block('L01', 'SMOKED LAKE TROUT', 1.5875, 'capital'), block('L08', 'KEEP FROZEN', 1.5875, 'capital'), block('L03', 'NET WT 0.75 lb (341 g)', 4.7625, 'lower-case-o')];

  it('are as high as their rule asks by the letter it measures, and the name half of the largest', () => {
    const [name = 0, keep = 0, net = 0] = typeSizesMm(BLOCKS, 0);
    expect(net * 0.496).toBeCloseTo(4.7625, 9);
    expect(keep * 0.668).toBeCloseTo(1.5875, 9);
    expect(name).toBeCloseTo(net / 2, 9);
  });

  it('are easier to read where there is room, and never lower', () => {
    const tried = TYPE_SCALES.map((scale) => typeSizesMm(BLOCKS, scale));
    for (const [step, sizes] of tried.entries()) {
      const smaller = tried[step + 1];
      for (const [index, size] of (smaller ?? []).entries()) expect(size).toBeLessThanOrEqual(sizes[index] ?? 0);
      if (smaller !== undefined) expect(smaller[1]).toBeLessThan(sizes[1] ?? 0);
    }
    expect(tried.at(-1)).toEqual(typeSizesMm(BLOCKS, 0));
  });

  it('of words that a rule wants as large as the name are no smaller than it', () => {
    const [name, words] = typeSizesMm([...BLOCKS.slice(0, 1), block('L08', 'PERISHABLE — KEEP FROZEN PRIOR TO USE', 1.5875, 'capital'), ...BLOCKS.slice(2)], 0);
    expect(words).toBe(name);
  });

  it('that an older program kept without a height are drawn as it drew them, or larger', () => {
    const sizes = typeSizesMm([{ element: 'L01', text: 'A', source: 'x' }, { element: 'L03', text: 'B', source: 'x' }, { element: 'L04', text: 'c', source: 'x' }], 0);
    expect(sizes[1]).toBeCloseTo(4.7625 / 0.668, 9);
    expect(sizes[2]).toBeCloseTo(1.5875 / 0.496, 9);
  });

  it('of the net quantity have free room above as high as its capitals (21 CFR 101.7(f), from memory)', () => {
    // A line one type size high leaves 0.166 of it above the capitals in this face: ascent 984, descent 316, capitals 668 of 1000.
    expect(clearAboveMm(10) + 10 * (0.984 - 0.668 - 0.15)).toBeCloseTo(6.68, 9);
  });
});

describe('a symbol', () => {
  it('begins on a whole dot and keeps its quiet zone', () => {
    expect(onWholeDots(3, 0.125)).toBe(3);
    expect(onWholeDots(3.01, 0.125)).toBe(3.125);
    expect(onWholeDots(10.8, 25.4 / 300) / (25.4 / 300)).toBeCloseTo(128, 6);
    expect([quietModules('datamatrix'), quietModules('gs1datamatrix'), quietModules('qrcode')]).toEqual([2, 2, 4]);
  });
});

const SHEET = { pageWidthMm: 210, pageHeightMm: 297, columns: 2, rows: 4, leftMm: 4.65, topMm: 13.1, acrossMm: 101.6, downMm: 67.7 };

describe('labels on sheets', () => {
  it('fill the first from any position on, row by row, then whole sheets', () => {
    const pages = sheetPages(Array.from({ length: 12 }, (_, index) => index), SHEET, 6);
    expect(labelsOnSheet(SHEET)).toBe(8);
    expect(pages.map((page) => page.map(({ label }) => label))).toEqual([[0, 1, 2], [3, 4, 5, 6, 7, 8, 9, 10], [11]]);
    expect(pages[0]?.[0]?.at).toEqual({ leftMm: 4.65 + 101.6, topMm: 13.1 + 2 * 67.7 });
    expect(pages[1]?.[0]?.at).toEqual({ leftMm: 4.65, topMm: 13.1 });
  });

  it('leave no empty sheet behind the last label', () => {
    expect(sheetPages([1, 2], SHEET, 7)).toHaveLength(1);
    expect(sheetPages([1, 2, 3], SHEET, 7)).toHaveLength(2);
    expect(sheetPages([], SHEET, 1)).toEqual([]);
  });
});

describe('the office’s forms', () => {
  it('send a pouch only where one is typed, and show it in its own unit', () => {
    const draft = draftOfChoice({ ...USUAL_CHOICE, pouch: { widthMm: 152.4, heightMm: 203.2, unit: 'in' } }, 'mm');
    expect(draft.pouch).toEqual({ width: '6', height: '8', unit: 'in' });
    expect(choiceInput(draft).pouch).toEqual(draft.pouch);
    expect(choiceInput(draftOfChoice(USUAL_CHOICE, 'in')).pouch).toBeNull();
    expect(choiceInput({ ...draft, pouch: { width: '6', height: ' ', unit: 'in' } }).pouch).not.toBeNull();
  });

  it('name a stock anew where its name is its size, and keep a name of its own', () => {
    const stock: LabelStock = { id: 'a', name: '4 × 3 1/2 in', widthMm: 101.6, heightMm: 88.9, unit: 'in', sheet: null };
    expect(draftOfStock(stock, 'mm').name).toBe('');
    expect(draftOfStock({ ...stock, heightMm: 101.6 }, 'mm').name).toBe('4 × 3 1/2 in');
    expect(draftOfStock({ ...stock, name: 'Freezer box' }, 'mm').name).toBe('Freezer box');
  });

  it('give a stock back as it was, to the hundredth of a millimetre', () => {
    const stock: LabelStock = { id: 'a', name: 'Own', widthMm: 99.1, heightMm: 67.7, unit: 'in', sheet: SHEET };
    const read = readStock(draftOfStock(stock, 'mm'));
    if (!read.ok) throw new Error(read.problem.message);
    expect(read.value.widthMm).toBeCloseTo(99.1, 2);
    expect(read.value.sheet?.leftMm).toBeCloseTo(4.65, 2);
    expect(read.value).toMatchObject({ name: 'Own', unit: 'in', sheet: { columns: 2, rows: 4 } });
  });
});
