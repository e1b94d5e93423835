/** The label choice as a form holds it. Pure. */
import { MM_PER_INCH, readLength } from '../../../app/packs/label-size.ts';
import type { LabelChoice, LabelChoiceDraft, LabelSheet, LabelStock, StockDraft } from '../../../app/contract/requests/label-choice.ts';

/** A length as it was typed, from the millimetres kept: to four decimals of an inch, three of a millimetre. */
export function lengthText(millimetres: number, unit: 'mm' | 'in'): string {
  const value = unit === 'in' ? millimetres / MM_PER_INCH : millimetres;
  return String(Number(value.toFixed(unit === 'in' ? 4 : 3)));
}

/** The choice as a draft; a picture that is kept stays chosen. */
export function draftOfChoice({ pouch, gtin, mark, ...rest }: LabelChoice, unit: 'mm' | 'in'): LabelChoiceDraft {
  return {
    ...rest,
    pouch: pouch === null ? { width: '', height: '', unit } : { width: lengthText(pouch.widthMm, pouch.unit), height: lengthText(pouch.heightMm, pouch.unit), unit: pouch.unit },
    gtin: gtin ?? '',
    mark: mark === null ? { kind: 'none' } : mark.kind === 'text' ? mark : { kind: 'picture', fileId: mark.fileId },
  };
}

/** What is sent: a pouch of which nothing is typed is none. */
export function choiceInput(draft: LabelChoiceDraft): LabelChoiceDraft {
  const { pouch } = draft;
  return { ...draft, pouch: pouch === null || (pouch.width.trim() === '' && pouch.height.trim() === '') ? null : pouch };
}

export const EMPTY_SHEET: NonNullable<StockDraft['sheet']> = { pageWidth: '', pageHeight: '', columns: '', rows: '', left: '', top: '', across: '', down: '' };

/** A new stock, or one of the kitchen's own to be mended. */
export function draftOfStock(stock: LabelStock | null, unit: 'mm' | 'in'): StockDraft {
  if (stock === null) return { name: '', width: '', height: '', unit, sheet: null };
  const { widthMm, heightMm } = stock;
  return {
    name: isNamedBySize(stock) ? '' : stock.name, width: lengthText(widthMm, stock.unit), height: lengthText(heightMm, stock.unit), unit: stock.unit,
    sheet: stock.sheet === null ? null : sheetDraft(stock.sheet, stock.unit),
  };
}

/** Whether nobody gave it a name of its own: such a name changes with the size. */
function isNamedBySize({ name, widthMm, heightMm, unit }: LabelStock): boolean {
  const [width = '', height = ''] = name.replace(/ (in|mm)$/, '').split(' × ');
  return [[width, widthMm], [height, heightMm]].every(([text, millimetres]) => {
    const read = readLength(String(text), unit, 'name');
    return read.ok && read.value === millimetres;
  });
}

function sheetDraft(sheet: LabelSheet, unit: 'mm' | 'in'): NonNullable<StockDraft['sheet']> {
  const text = (millimetres: number): string => lengthText(millimetres, unit);
  return {
    pageWidth: text(sheet.pageWidthMm), pageHeight: text(sheet.pageHeightMm), columns: String(sheet.columns), rows: String(sheet.rows),
    left: text(sheet.leftMm), top: text(sheet.topMm), across: text(sheet.acrossMm), down: text(sheet.downMm),
  };
}
