/** Label stocks and pouches as typed: sizes in millimetres or inches, and where labels lie on a sheet. */
import { bad, good, type Outcome } from '../measures/outcome.ts';

export type LengthUnit = 'mm' | 'in';

/** A size as typed. */
export interface TypedSize {
  readonly width: string;
  readonly height: string;
  readonly unit: LengthUnit;
}

/** Where labels lie on a sheet, as typed, all lengths in the size's unit. */
export interface TypedSheet {
  readonly pageWidth: string;
  readonly pageHeight: string;
  readonly columns: string;
  readonly rows: string;
  /** From the sheet's left and upper edge to the first label. */
  readonly left: string;
  readonly top: string;
  /** From one label's left (upper) edge to the next one's. */
  readonly across: string;
  readonly down: string;
}

/** Where labels lie on a sheet, in millimetres. */
export interface SheetMm {
  readonly pageWidthMm: number;
  readonly pageHeightMm: number;
  readonly columns: number;
  readonly rows: number;
  readonly leftMm: number;
  readonly topMm: number;
  readonly acrossMm: number;
  readonly downMm: number;
}

export interface StockSize {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly unit: LengthUnit;
  readonly sheet: SheetMm | null;
}

export const MM_PER_INCH = 25.4;
const FRACTION = /^(?:(\d{1,2})[ -])?(\d{1,2})\/(\d{1,2})$/;
const VULGAR: Readonly<Record<string, string>> = { '¼': '1/4', '½': '1/2', '¾': '3/4', '⅓': '1/3', '⅔': '2/3', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8' };
/** Sheets are cut by hundredths of a millimetre; sums of such lengths may differ by this much. */
const CUT_MM = 0.05;

/**
 * A length as typed.
 * @param text `101.6`, `4`, `2 1/4` or `2¼`
 * @returns millimetres to a thousandth, or a sentence naming the field: no number, a comma, zero or less
 */
export function readLength(text: string, unit: LengthUnit, field: string, mayBeZero = false): Outcome<number> {
  const typed = text.trim().replace(/[¼½¾⅓⅔⅛⅜⅝⅞]/, (sign) => ` ${VULGAR[sign] ?? ''}`).trim();
  if (typed.includes(',')) return bad(`“${text}” has a comma.`, field, 'Write a point before the decimals: 2.25.');
  const fraction = FRACTION.exec(typed);
  const value = fraction === null ? (/^\d{1,4}(\.\d{1,5})?$/.test(typed) ? Number(typed) : Number.NaN) : Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  if (!Number.isFinite(value)) return bad(`“${text}” is not a length.`, field, `Type a number in ${unit}, such as ${unit === 'in' ? '2.25 or 2 1/4' : '57.15'}.`);
  if (value === 0 && !mayBeZero) return bad('A length of zero can’t be.', field, 'Measure it again.');
  return good(Math.round(value * (unit === 'in' ? MM_PER_INCH : 1) * 1000) / 1000);
}

/**
 * The side of a pouch as typed.
 * @returns millimetres, or a sentence: no length, under 20 mm, over 1.5 m
 */
export function readPouch(typed: TypedSize, field = 'pouch'): Outcome<{ widthMm: number; heightMm: number; unit: LengthUnit }> {
  const read = readSize(typed, `${field}.`, { leastMm: 20, mostWidthMm: 1500, mostHeightMm: 1500, what: 'A pouch' });
  return read.ok ? good({ ...read.value, unit: typed.unit }) : read;
}

/**
 * A stock as typed.
 * @returns the stock in millimetres, or a sentence naming the field: a size no printer takes, labels that overlap or run off the sheet
 */
export function readStock(draft: TypedSize & { readonly name: string; readonly sheet: TypedSheet | null }): Outcome<StockSize> {
  const size = readSize(draft, 'draft.', { leastMm: 15, mostWidthMm: 300, mostHeightMm: 400, what: 'A label' });
  if (!size.ok) return size;
  if (size.value.widthMm < 20) return bad('A label narrower than 20 mm holds nothing.', 'draft.width', 'Measure it again.');
  const name = draft.name.trim() === '' ? `${draft.width.trim()} × ${draft.height.trim()} ${draft.unit}` : draft.name.trim();
  if (draft.sheet === null) return good({ name, ...size.value, unit: draft.unit, sheet: null });
  const sheet = readSheet(draft.sheet, draft.unit, size.value);
  return sheet.ok ? good({ name, ...size.value, unit: draft.unit, sheet: sheet.value }) : sheet;
}

interface Bounds {
  readonly leastMm: number;
  readonly mostWidthMm: number;
  readonly mostHeightMm: number;
  readonly what: string;
}

function readSize({ width, height, unit }: TypedSize, prefix: string, bounds: Bounds): Outcome<{ widthMm: number; heightMm: number }> {
  const widthMm = readLength(width, unit, `${prefix}width`);
  if (!widthMm.ok) return widthMm;
  const heightMm = readLength(height, unit, `${prefix}height`);
  if (!heightMm.ok) return heightMm;
  for (const [field, value, most] of [['width', widthMm.value, bounds.mostWidthMm], ['height', heightMm.value, bounds.mostHeightMm]] as const) {
    if (value < bounds.leastMm || value > most) {
      return bad(`${bounds.what} with a ${field} of ${value} mm can’t be right.`, `${prefix}${field}`, `It must be ${bounds.leastMm} to ${most} mm: check the unit.`);
    }
  }
  return good({ widthMm: widthMm.value, heightMm: heightMm.value });
}

function readSheet(typed: TypedSheet, unit: LengthUnit, label: { readonly widthMm: number; readonly heightMm: number }): Outcome<SheetMm> {
  const lengths = new Map<string, number>();
  for (const key of ['pageWidth', 'pageHeight', 'left', 'top', 'across', 'down'] as const) {
    const read = readLength(typed[key], unit, `draft.sheet.${key}`, key === 'left' || key === 'top');
    if (!read.ok) return read;
    lengths.set(key, read.value);
  }
  for (const key of ['columns', 'rows'] as const) {
    if (!/^\d{1,2}$/.test(typed[key].trim()) || Number(typed[key]) < 1 || Number(typed[key]) > (key === 'columns' ? 20 : 40)) {
      return bad(`“${typed[key]}” is not a number of ${key}.`, `draft.sheet.${key}`, 'Count the labels on the sheet.');
    }
  }
  const of = (key: string): number => lengths.get(key) ?? 0;
  const sheet: SheetMm = {
    pageWidthMm: of('pageWidth'), pageHeightMm: of('pageHeight'), columns: Number(typed.columns), rows: Number(typed.rows),
    leftMm: of('left'), topMm: of('top'), acrossMm: of('across'), downMm: of('down'),
  };
  if (sheet.pageWidthMm < 50 || sheet.pageWidthMm > 500 || sheet.pageHeightMm < 50 || sheet.pageHeightMm > 500) {
    return bad('A sheet must measure 50 to 500 mm each way.', 'draft.sheet.pageWidth', 'Check the unit.');
  }
  if (sheet.columns > 1 && sheet.acrossMm < label.widthMm - CUT_MM) return bad('The labels of a row overlap.', 'draft.sheet.across', 'Measure from one label’s left edge to the next one’s.');
  if (sheet.rows > 1 && sheet.downMm < label.heightMm - CUT_MM) return bad('The labels of a column overlap.', 'draft.sheet.down', 'Measure from one label’s upper edge to the next one’s.');
  if (sheet.leftMm + (sheet.columns - 1) * sheet.acrossMm + label.widthMm > sheet.pageWidthMm + CUT_MM) {
    return bad('The labels of a row run off the sheet.', 'draft.sheet.columns', 'Check the left edge, the distance and the number of columns.');
  }
  if (sheet.topMm + (sheet.rows - 1) * sheet.downMm + label.heightMm > sheet.pageHeightMm + CUT_MM) {
    return bad('The labels of a column run off the sheet.', 'draft.sheet.rows', 'Check the upper edge, the distance and the number of rows.');
  }
  return good(sheet);
}
