/** A table as a workbook of one sheet, by a library; every text cell is written as text, so that none of it is a formula. */
import writeWorkbook from 'write-excel-file/node';
import type { Cell } from '../../../app/packs/trace-csv.ts';

const WIDTH = 18;

/** @param rows the heading line first; it stays in view */
export async function workbookOf(name: string, rows: readonly (readonly Cell[])[]): Promise<Uint8Array> {
  const [head = []] = rows;
  const data = rows.map((row, index) => row.map((cell) => (
    typeof cell === 'number' ? { value: cell, type: Number } : { value: cell, type: String, ...(index === 0 ? { fontWeight: 'bold' as const } : {}) }
  )));
  return writeWorkbook(data, { sheet: name, stickyRowsCount: 1, columns: head.map(() => ({ width: WIDTH })) }).toBuffer();
}
