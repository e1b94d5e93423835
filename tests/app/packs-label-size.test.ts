import { describe, expect, it } from 'vitest';
import { readLength, readPouch, readStock } from '../../app/packs/label-size.ts';

describe('a length as typed', () => {
  it.each([['4', 'in', 101.6], ['2.25', 'in', 57.15], ['2 1/4', 'in', 57.15], ['2¼', 'in', 57.15], ['3/8', 'in', 9.525], ['57.15', 'mm', 57.15], ['3.333', 'in', 84.658]] as const)('“%s” %s is %s mm', (text, unit, millimetres) => {
    expect(readLength(text, unit, 'width')).toEqual({ ok: true, value: millimetres });
  });

  it.each([['2,25', 'has a comma'], ['', 'is not a length'], ['wide', 'is not a length'], ['-3', 'is not a length'], ['0', 'A length of zero'], ['1/0', 'is not a length']])('“%s” is refused: %s', (text, why) => {
    expect(readLength(text, 'in', 'width')).toMatchObject({ ok: false, problem: { field: 'width', message: expect.stringContaining(why), remedy: expect.any(String) } });
  });

  it('may be zero at an edge', () => {
    expect(readLength('0', 'mm', 'left', true)).toEqual({ ok: true, value: 0 });
  });
});

const SHEET = { pageWidth: '8.5', pageHeight: '11', columns: '2', rows: '3', left: '0.15625', top: '0.5', across: '4.1875', down: '3.333' };

describe('a stock as typed', () => {
  it('of a roll is named by its size where nobody names it', () => {
    expect(readStock({ name: '', width: '4', height: '2.5', unit: 'in', sheet: null })).toEqual({ ok: true, value: { name: '4 × 2.5 in', widthMm: 101.6, heightMm: 63.5, unit: 'in', sheet: null } });
  });

  it('of a sheet has its labels where they were measured', () => {
    expect(readStock({ name: ' Big ', width: '4', height: '3.333', unit: 'in', sheet: SHEET })).toMatchObject({
      ok: true, value: { name: 'Big', sheet: { pageWidthMm: 215.9, columns: 2, rows: 3, leftMm: 3.969, acrossMm: 106.363 } },
    });
  });

  it.each([
    ['draft.width', { width: '0.5' }], ['draft.height', { height: '30' }], ['draft.sheet.columns', { sheet: { ...SHEET, columns: '3' } }], ['draft.sheet.rows', { sheet: { ...SHEET, rows: '4' } }],
    ['draft.sheet.across', { sheet: { ...SHEET, across: '3.9' } }], ['draft.sheet.down', { sheet: { ...SHEET, down: '3' } }], ['draft.sheet.columns', { sheet: { ...SHEET, columns: 'two' } }],
    ['draft.sheet.pageWidth', { sheet: { ...SHEET, pageWidth: '215.9' } }], ['draft.sheet.left', { sheet: { ...SHEET, left: '' } }],
  ])('names %s where it can’t be', (field, change) => {
    const read = readStock({ name: '', width: '4', height: '3.333', unit: 'in', sheet: SHEET, ...change });
    expect(read).toMatchObject({ ok: false, problem: { field } });
  });
});

describe('a pouch as typed', () => {
  it('is kept in millimetres with the unit it was typed in', () => {
    expect(readPouch({ width: '6', height: '8', unit: 'in' })).toEqual({ ok: true, value: { widthMm: 152.4, heightMm: 203.2, unit: 'in' } });
    expect(readPouch({ width: '6', height: '', unit: 'in' })).toMatchObject({ ok: false, problem: { field: 'pouch.height' } });
    expect(readPouch({ width: '6', height: '8', unit: 'mm' })).toMatchObject({ ok: false, problem: { message: expect.stringContaining('6 mm can’t be right') } });
  });
});
