/** A year's traceability table out of a book of ten years, beside reading the same documents by bare SQL and writing them as CSV with nothing checked. */
import { atMost, medianOf, rangeText, type BenchOptions, type BenchResult } from './bench.ts';
import { openBareBook } from './bench-rows.ts';
import { DECADE, DECADE_START_MS, makeDecade } from './bench-decade.ts';
import { openBenchRoom } from './bench-room.ts';

const YEARS = 9;
const BRIEF_YEARS = 3;
const MOST_TIMES = 3;
const YEAR_MS = 365 * 86_400_000;

/** A fresh back room for each year, so that nothing of the book was read before. */
export async function runExportYearBench({ brief }: BenchOptions): Promise<BenchResult> {
  const decade = await makeDecade();
  try {
    const ours: number[] = [];
    const bare: number[] = [];
    let rows = 0;
    const reference = openBareBook(decade.file);
    for (let year = 0; year < (brief ? BRIEF_YEARS : YEARS) + 1; year += 1) {
      // Whole days in the kitchen, six hours behind.
      const [fromDay, toDay] = [dayOf(year * YEAR_MS), dayOf((year + 1) * YEAR_MS - 1)];
      const startMs = performance.now();
      const expected = reference.yearText(Date.parse(`${fromDay}T06:00Z`), Date.parse(`${toDay}T06:00Z`) + 86_400_000);
      const bareMs = performance.now() - startMs;
      const room = await openBenchRoom(decade.file);
      const betweenMs = performance.now();
      const table = await room.ask('export.traceability', { fromDay, toDay, form: 'csv', withGuests: false });
      const oursMs = performance.now() - betweenMs;
      await room.close();
      if (table.rows !== expected.rows) throw new Error(`${table.rows} rows were written, and there are ${expected.rows}.`);
      // The first year compiles and isn't counted.
      if (year === 0) continue;
      rows = table.rows;
      bare.push(bareMs);
      ours.push(oursMs);
    }
    reference.close();
    return atMost('export-year', medianOf(ours) / medianOf(bare), MOST_TIMES, {
      detail: `${rows} rows of a year of ${DECADE.packsAYear} packs: ${medianOf(ours).toFixed(0)} ms (${rangeText(ours)}), bare SQL, JSON and CSV of the same ${medianOf(bare).toFixed(0)} ms (${rangeText(bare)}); median of ${ours.length} years`,
    });
  } finally {
    await decade.remove();
  }
}

function dayOf(sinceMs: number): string {
  return new Date(DECADE_START_MS - 12 * 3_600_000 + sinceMs).toISOString().slice(0, 10);
}
