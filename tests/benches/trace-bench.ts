/** One pack's trace in a book of ten years of 5,000 packs, beside bare indexed SQL for the same rows in the same process, pack by pack in turn. */
import { atMost, medianOf, percentileOf, type BenchOptions, type BenchResult } from './bench.ts';
import { openBareBook } from './bench-rows.ts';
import { DECADE, makeDecade } from './bench-decade.ts';
import { openBenchRoom } from './bench-room.ts';

const PACKS = 1200;
const BRIEF_PACKS = 200;
/** Packs that compile and aren't counted. */
const WARM_PACKS = 500;
const MOST_TIMES = 3;
/** Farther apart than a batch has packs, so that each is of another batch and nothing of it was read before; in an order that jumps about. */
const APART = 29;
const JUMP = 613;
/** Prime, and as many as there are so far apart. */
const PLACES = 1723;

export async function runTraceBench({ brief }: BenchOptions): Promise<BenchResult> {
  const decade = await makeDecade();
  const bare = openBareBook(decade.file);
  const room = await openBenchRoom(decade.file);
  try {
    const ours: number[] = [];
    const sql: number[] = [];
    let rows = 0;
    for (let count = 0; count < WARM_PACKS + (brief ? BRIEF_PACKS : PACKS); count += 1) {
      const packId = decade.packIds[APART * ((count * JUMP) % PLACES)] ?? '';
      const startMs = performance.now();
      const read = bare.traceRows(packId).length;
      const betweenMs = performance.now();
      const { packs, nodes } = await room.ask('trace.get', { kind: 'pack', id: packId });
      const endMs = performance.now();
      if (packs !== 1 || !nodes.some(({ kind }) => kind === 'supplier')) throw new Error(`The trace of ${packId} has ${packs} packs in ${nodes.length} things.`);
      if (count < WARM_PACKS) continue;
      rows += read;
      sql.push(betweenMs - startMs);
      ours.push(endMs - betweenMs);
    }
    const [oursMs, sqlMs] = [medianOf(ours), medianOf(sql)];
    return atMost('trace', oursMs / sqlMs, MOST_TIMES, {
      detail: `a pack among ${decade.packIds.length} of ${DECADE.years} years: ${oursMs.toFixed(2)} ms (95 %: ${percentileOf(ours, 0.95).toFixed(2)}), bare SQL and JSON of its rows ${sqlMs.toFixed(2)} ms (95 %: ${percentileOf(sql, 0.95).toFixed(2)}), ${(rows / ours.length).toFixed(1)} rows a pack; median of ${ours.length} packs`,
    });
  } finally {
    bare.close();
    await room.close();
    await decade.remove();
  }
}
