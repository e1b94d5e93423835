/** Where each label lies: a page of its own on a roll, its place on a sheet. Pure. */
import type { LabelSheet } from '../../app/contract/requests/label-choice.ts';

export interface LabelPlaceOnSheet {
  readonly leftMm: number;
  readonly topMm: number;
}

/** The number of labels on a sheet. */
export function labelsOnSheet({ columns, rows }: LabelSheet): number {
  return columns * rows;
}

/**
 * Lays labels out on sheets, row by row.
 * @param startAt the first free label of the first sheet, from 1
 * @returns for each sheet its labels with their upper left corners
 */
export function sheetPages<T>(labels: readonly T[], sheet: LabelSheet, startAt: number): readonly (readonly { readonly label: T; readonly at: LabelPlaceOnSheet }[])[] {
  const each = labelsOnSheet(sheet);
  const pages: { label: T; at: LabelPlaceOnSheet }[][] = [];
  for (const [index, label] of labels.entries()) {
    const position = startAt - 1 + index;
    const page = Math.floor(position / each);
    while (pages.length <= page) pages.push([]);
    const onPage = position % each;
    const [column, row] = [onPage % sheet.columns, Math.floor(onPage / sheet.columns)];
    pages[page]?.push({ label, at: { leftMm: sheet.leftMm + column * sheet.acrossMm, topMm: sheet.topMm + row * sheet.downMm } });
  }
  return pages;
}
