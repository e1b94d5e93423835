/**
 * Looks through a worksheet's XML before it is read: where its last cell lies, what was never worked out, and days
 * written out, which a reader would take for times of the computer's own zone. Elements and attributes: ECMA-376 Part 1,
 * 18.3.1.4 (c) and 18.3.1.73 (row) (from memory).
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';

/** The rows and columns a sheet can have (common practice: what spreadsheet programs allow). */
const MOST_ROWS = 1_048_576;
const MOST_COLUMNS = 16_384;
/** Rows by columns; every row is read as long as the longest (our choice). */
const MOST_CELLS = 12_000_000;

const PREFIX = String.raw`(?:[^\s<>/:"'=]+:)?`;
const ATTRIBUTES = String.raw`((?:\s+[^\s<>/="']+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)`;
/** A cell as nearly all programs write it; else a row or a cell with any attributes; the third way is one that is written as no XML is. */
const TAG = new RegExp(String.raw`<c r="([A-Z]{1,3}[1-9]\d{0,6})"(?: s="\d+")?(?: t="(?:[a-ce-z]\w*)")?(/?)>|<${PREFIX}(row|c)(?=[\s/>])${ATTRIBUTES}\s*(/?)>|<${PREFIX}(?:row|c)(?=[\s/>])`, 'g');
const ADDRESS = /\s(?:[^\s:="']+:)?r\s*=\s*(?:"([^"]*)"|'([^']*)')/g;
const WRITTEN_DAY = /(\s(?:[^\s:="']+:)?t\s*=\s*)(?:"d"|'d')/;
const UNWORKED = new RegExp(String.raw`(?:</${PREFIX}f>|<${PREFIX}f(?:\s[^<>]*)?/>)\s*</${PREFIX}c>`, 'g');

export interface SheetXml {
  /** With days that are written out as texts. */
  readonly xml: string;
  /** Cells whose formula was saved without its result. */
  readonly unworkedCount: number;
}

/**
 * Looks through a part of a workbook.
 * @returns the part, or a sentence: an address that no sheet has, or more cells than can be read
 */
export function readySheetXml(xml: string, fileName: string): Outcome<SheetXml> {
  let [lastRow, lastColumn] = [0, 0];
  let hasWrittenDays = false;
  for (const [, plain, plainEnd, name, attributes = '', end] of xml.matchAll(TAG)) {
    if (plain === undefined && name === undefined) return damaged(fileName);
    const addresses = plain === undefined ? Array.from(attributes.matchAll(ADDRESS), ([, quoted, single]) => quoted ?? single ?? '') : [plain];
    for (const address of addresses) {
      const place = placeOf(address, name ?? 'c');
      if (place === undefined) return damaged(fileName);
      // A cell that is closed at once is empty, and a row alone has none.
      if ((plainEnd ?? end) === '/' || name === 'row') continue;
      lastRow = Math.max(lastRow, place.row);
      lastColumn = Math.max(lastColumn, place.column);
    }
    hasWrittenDays ||= name === 'c' && WRITTEN_DAY.test(attributes);
  }
  if (lastRow * lastColumn > MOST_CELLS) {
    return bad(`“${fileName}” has a sheet of ${lastRow} rows and ${lastColumn} columns, which is too large to be read.`, 'fileId', 'Clear what stands far to the right or below the readings, or save the readings as CSV.');
  }
  return good({ xml: hasWrittenDays ? xml.replace(TAG, (tag) => tag.replace(WRITTEN_DAY, '$1"str"')) : xml, unworkedCount: xml.match(UNWORKED)?.length ?? 0 });
}

function damaged(fileName: string): ReturnType<typeof bad> {
  return bad(`“${fileName}” is a damaged workbook: it has a cell where no sheet has one.`, 'fileId', 'Open it in a spreadsheet program and save it again as .xlsx or CSV.');
}

/** `B12` of a cell, `12` of a row; counted from 1. */
function placeOf(address: string, name: string): { readonly row: number; readonly column: number } | undefined {
  const match = name === 'row' ? /^()([1-9]\d{0,6})$/.exec(address) : /^([A-Z]{1,3})([1-9]\d{0,6})$/.exec(address);
  if (match === null) return undefined;
  const [, letters = '', digits = ''] = match;
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  const row = Number(digits);
  return row <= MOST_ROWS && column <= MOST_COLUMNS ? { row, column } : undefined;
}
