/** Small workbooks made by hand: the parts of an .xlsx file that a reader needs, zipped. */
import { crc32, deflateRawSync } from 'node:zlib';

/** A number is written as given, a text inline, a moment as a serial with a date's style, `xml` as it is between the tags of its cell. */
export type SheetValue = { readonly number: string } | { readonly serial: string; readonly style?: number } | { readonly xml: string; readonly type?: string } | string | null;
export type SheetRows = readonly (readonly SheetValue[])[];

export interface WorkbookOptions {
  /** The attributes of `workbookPr`. */
  readonly properties?: string;
  readonly sharedStrings?: readonly string[];
  /** Stands behind the cells of every sheet. */
  readonly tail?: string;
  /** A sheet that is all chart. */
  readonly chartSheet?: string;
}

/** Styles of cells: 0 none, 1 `m/d/yy h:mm`, 2 `h:mm:ss`, 3 `[h]:mm:ss`, 4 one of a logger's own. ECMA-376 Part 1, 18.8.30 (from memory). */
const STYLES = '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd\\ hh:mm:ss.00"/></numFmts><cellStyleXfs count="1"><xf numFmtId="0"/></cellStyleXfs><cellXfs count="5">'
  + [0, 22, 21, 46, 164].map((format) => `<xf numFmtId="${format}" xfId="0"/>`).join('') + '</cellXfs></styleSheet>';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const LINKS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

/** The parts of a workbook with these sheets. */
export function workbookParts(sheets: Readonly<Record<string, SheetRows>>, { properties = '', sharedStrings = [], tail = '', chartSheet }: WorkbookOptions = {}): Record<string, string> {
  const names = Object.keys(sheets);
  const links = [
    ...names.map((_, index) => ['worksheet', `worksheets/sheet${index + 1}.xml`]), ['styles', 'styles.xml'], ['sharedStrings', 'sharedStrings.xml'],
    ...(chartSheet === undefined ? [] : [['chartsheet', 'chartsheets/sheet1.xml']]),
  ];
  const listed = [...names, ...(chartSheet === undefined ? [] : [chartSheet])];
  const parts: Record<string, string> = {
    '[Content_Types].xml': '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${LINKS}"><workbookPr ${properties}/><sheets>${listed.map((name, index) => `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index < names.length ? index + 1 : links.length}"/>`).join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${links.map(([kind, target], index) => `<Relationship Id="rId${index + 1}" Type="${LINKS}/${kind}" Target="${target}"/>`).join('')}</Relationships>`,
    'xl/styles.xml': STYLES,
    'xl/sharedStrings.xml': `<sst xmlns="${MAIN}">${sharedStrings.map((text) => `<si><t>${text}</t></si>`).join('')}</sst>`,
    ...(chartSheet === undefined ? {} : { 'xl/chartsheets/sheet1.xml': `<chartsheet xmlns="${MAIN}"/>` }),
  };
  names.forEach((name, index) => {
    parts[`xl/worksheets/sheet${index + 1}.xml`] = `<worksheet xmlns="${MAIN}"><sheetData>${(sheets[name] ?? []).map(rowXml).join('')}</sheetData>${tail}</worksheet>`;
  });
  return parts;
}

/** The bytes of a workbook with these sheets. */
export function workbookOf(sheets: Readonly<Record<string, SheetRows>>, options: WorkbookOptions = {}): Uint8Array {
  return zipOf(workbookParts(sheets, options));
}

function rowXml(row: readonly SheetValue[], index: number): string {
  return `<row r="${index + 1}">${row.map((value, column) => cellXml(value, `${String.fromCharCode(65 + column)}${index + 1}`)).join('')}</row>`;
}

function cellXml(value: SheetValue, at: string): string {
  if (value === null) return '';
  if (typeof value === 'string') return `<c r="${at}" t="inlineStr"><is><t>${value}</t></is></c>`;
  if ('xml' in value) return `<c r="${at}"${value.type === undefined ? '' : ` t="${value.type}"`}>${value.xml}</c>`;
  return 'number' in value ? `<c r="${at}"><v>${value.number}</v></c>` : `<c r="${at}" s="${value.style ?? 1}"><v>${value.serial}</v></c>`;
}

/** A zip file with these parts, each deflated. */
export function zipOf(parts: Readonly<Record<string, string | Uint8Array>>): Uint8Array {
  const locals: Buffer[] = [];
  const centrals: Buffer[] = [];
  let at = 0;
  for (const [name, content] of Object.entries(parts)) {
    const plain = Buffer.from(content);
    const packed = deflateRawSync(plain);
    const header = Buffer.alloc(26);
    header.writeUInt16LE(20, 0);
    header.writeUInt16LE(8, 4);
    header.writeUInt32LE(crc32(plain), 10);
    header.writeUInt32LE(packed.length, 14);
    header.writeUInt32LE(plain.length, 18);
    header.writeUInt16LE(name.length, 22);
    const local = Buffer.concat([Buffer.from('PK\u0003\u0004'), header, Buffer.from(name), packed]);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(at, 10);
    centrals.push(Buffer.concat([Buffer.from('PK\u0001\u0002'), Buffer.from([20, 0]), header, tail, Buffer.from(name)]));
    locals.push(local);
    at += local.length;
  }
  const directory = Buffer.concat(centrals);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(centrals.length, 4);
  end.writeUInt16LE(centrals.length, 6);
  end.writeUInt32LE(directory.length, 8);
  end.writeUInt32LE(at, 12);
  return new Uint8Array(Buffer.concat([...locals, directory, Buffer.from('PK\u0005\u0006'), end]));
}
