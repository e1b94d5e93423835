/** The sheets of an .xlsx workbook as texts. */
import readWorkbook from 'read-excel-file/node';
import { bad, good, type Outcome } from '../../../app/measures/outcome.ts';
import { shownNumber, textOfSheet, type SheetCell } from '../../../app/probes/sheet-text.ts';
import { readySheetXml } from '../../../app/probes/sheet-xml.ts';
import { unzipParts, zipAsStored } from './zip-parts.ts';

export interface Workbook {
  readonly sheets: readonly { readonly name: string; readonly text: string }[];
  /** Cells whose formula was saved without its result: they are read as empty. */
  readonly unworkedCount: number;
  /** Whether days are counted from 1904. */
  readonly from1904: boolean;
}

const BOOK_PART = 'xl/workbook.xml';
/** What no reading stands in. */
const ASIDE = /^(?:docProps|customXml|xl\/(?:charts|chartsheets|drawings|embeddings|media|pivotCache|pivotTables|printerSettings|theme))\//;
const FROM_1904 = /(\sdate1904\s*=\s*)(?:"(?:1|true)"|'(?:1|true)')/;

/**
 * Reads every sheet of a workbook.
 * @returns its sheets, or a sentence: no workbook, damaged, or too large
 */
export async function readSheets(bytes: Uint8Array, fileName: string): Promise<Outcome<Workbook>> {
  const unzipped = unzipParts(bytes, fileName, (name) => /\.(?:xml|rels)$/.test(name) && !ASIDE.test(name));
  if (!unzipped.ok) return unzipped;
  const parts = unzipped.value;
  let unworkedCount = 0;
  for (const [name, part] of parts) {
    const xml = new TextDecoder().decode(part);
    const ready = readySheetXml(xml, fileName);
    if (!ready.ok) return ready;
    unworkedCount += ready.value.unworkedCount;
    // The library knows only one of the two ways to write that this is so.
    const known = name === BOOK_PART ? ready.value.xml.replace(FROM_1904, '$1"1"') : ready.value.xml;
    if (known !== xml) parts.set(name, new TextEncoder().encode(known));
  }
  const from1904 = FROM_1904.test(new TextDecoder().decode(parts.get(BOOK_PART)));
  try {
    const sheets = await readWorkbook(zipAsStored(parts), { parseNumber: shownNumber });
    // A sheet that is all chart has no rows.
    return good({ unworkedCount, from1904, sheets: sheets.map(({ sheet, data }) => ({ name: sheet, text: textOfSheet((data as typeof data | undefined ?? []).map((row) => row.map(cellOf))) })) });
  } catch {
    // The library says in many ways that a workbook is none.
    return bad(`“${fileName}” is a zip file, but no workbook that can be read.`, 'fileId', 'Open it in a spreadsheet program and save it again as .xlsx or CSV.');
  }
}

function cellOf(cell: unknown): SheetCell {
  if (cell instanceof Date) return { wallMs: cell.getTime() };
  return typeof cell === 'string' || typeof cell === 'boolean' ? cell : null;
}
