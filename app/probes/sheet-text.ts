/** The cells of a spreadsheet as the text of a log, so that one reader reads both. A row is a line; a tab is between cells. */

/** A moment as the sheet shows it, without a zone: milliseconds of its calendar figures as if they were UTC. */
interface SheetMoment {
  readonly wallMs: number;
}
export type SheetCell = string | boolean | SheetMoment | null;

const HOUR_MS = 3_600_000;
/**
 * Day 0 of the two date systems. ECMA-376 Part 1, 18.17.4.1 (second-hand). Counting the first one from 30 December 1899
 * makes up for the day of 29 February 1900, which spreadsheets count and which never was.
 */
const DAY_ZERO_MS = Date.UTC(1899, 11, 30);
const DAY_ZERO_1904_MS = Date.UTC(1904, 0, 1);
/** No logger was there before: what lies between day 0 and here is a clock time or a span of time (our choice). */
const FIRST_DAY_MS = Date.UTC(1910, 0, 1);

/** The text of a sheet's rows. */
export function textOfSheet(rows: readonly (readonly SheetCell[])[]): string {
  return rows.map((row) => row.map(textOfCell).join('\t')).join('\n');
}

/**
 * A number as a spreadsheet shows it: its file may hold `62.799999999999997` for 62.8, which is the same double.
 * @param stored the number as it stands in the file
 */
export function shownNumber(stored: string): string {
  const text = stored.trim();
  const value = Number(text);
  return text !== '' && Number.isFinite(value) && text.replace(/\D/g, '').length > 15 ? String(value) : text;
}

function textOfCell(cell: SheetCell): string {
  if (cell === null) return '';
  if (typeof cell === 'object') return textOfMoment(cell.wallMs);
  const text = String(cell).replace(/\s+/g, ' ').trim();
  return text.startsWith('"') ? `"${text.replaceAll('"', '""')}"` : text;
}

function textOfMoment(wallMs: number): string {
  const ms = meantMs(wallMs);
  if (!Number.isFinite(ms)) return '#NUM!';
  if (ms >= DAY_ZERO_MS && ms < FIRST_DAY_MS) return textOfSpan(ms - (ms < DAY_ZERO_1904_MS ? DAY_ZERO_MS : DAY_ZERO_1904_MS));
  const iso = new Date(ms).toISOString();
  const [day = '', clock = ''] = iso.split('T');
  return `${day} ${clock.slice(0, ms % 1000 === 0 ? 8 : 12)}`;
}

/** Hours are counted on over a day, as `[h]:mm:ss` shows them. */
function textOfSpan(ms: number): string {
  const clock = new Date(ms % HOUR_MS).toISOString();
  return `${String(Math.floor(ms / HOUR_MS)).padStart(2, '0')}${clock.slice(13, ms % 1000 === 0 ? 19 : 23)}`;
}

/**
 * A day counted in doubles falls short of its hundredth of a second here and there, and is cut to the millisecond below.
 * What is one millisecond beside a second, or below a hundredth of one, is that.
 */
function meantMs(wallMs: number): number {
  const second = Math.round(wallMs / 1000) * 1000;
  if (Math.abs(wallMs - second) <= 1) return second;
  return (wallMs + 1) % 10 === 0 ? wallMs + 1 : wallMs;
}
