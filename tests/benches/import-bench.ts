/**
 * From the bytes of a logger's file to the committed book with the original kept, through the door, beside μDSV making
 * arrays of strings of the same text in the same process.
 */
import { inferSchema, initParser } from 'udsv';
import { atMost, medianOf, rangeText, type BenchOptions, type BenchResult } from './bench.ts';
import { unpackedFiles } from './bench-book.ts';
import { openBenchKitchen, openBenchLoad, type BenchKitchen } from './bench-kitchen.ts';
import { longCsv, smokedTenths, wideCsv } from './bench-log.ts';

const CHANNELS = 8;
const SECONDS = 125_000;
const RUNS = 9;
const BRIEF_RUNS = 3;
const MOST_TIMES = 0.7;
const MOST_TIMES_PACKED = 1.2;
/** 05:00 in the kitchen. */
const START_WALL_MS = Date.UTC(2026, 6, 14, 5);

type Shape = 'wide' | 'long';

interface Run {
  readonly committedMs: number;
  readonly stringsMs: number;
}

/** Two files, each measured so many times after one run that isn't counted, which compiles; a book and a load for all of a file's runs. */
export async function runImportBench({ brief }: BenchOptions): Promise<BenchResult[]> {
  const results: BenchResult[] = [];
  for (const shape of ['wide', 'long'] as const) {
    const kitchen = await openBenchKitchen();
    const runs: Run[] = [];
    try {
      for (let run = 0; run <= (brief ? BRIEF_RUNS : RUNS); run += 1) runs.push(await measureOnce(kitchen, shape, run));
      await kitchen.close();
      // Files are packed before they are committed, so both lines are of one time.
      const unpacked = unpackedFiles(kitchen.file);
      if (unpacked > 0) throw new Error(`${unpacked} files lie in the book as they came.`);
    } finally {
      await kitchen.remove();
    }
    results.push(...resultsOf(shape, runs.slice(1)));
  }
  return results;
}

async function measureOnce(kitchen: BenchKitchen, shape: Shape, run: number): Promise<Run> {
  const channels = Array.from({ length: CHANNELS }, (_, channel) => smokedTenths(SECONDS, channel, run * CHANNELS + channel));
  const names = channels.map((_, channel) => `P${channel + 1}`);
  const text = (shape === 'wide' ? wideCsv : longCsv)(START_WALL_MS, channels, names);
  const bytes = sharedBytes(text);
  const load = await openBenchLoad(kitchen, CHANNELS);
  const pieces = load.points.filter(({ role }) => role === 'piece');
  const columns = names.map((name, index) => ({ name, pointId: pieces[index]?.id ?? '' }));

  const startMs = performance.now();
  const fileId = await kitchen.takeFile(`${shape}-${run}.csv`, bytes);
  const taken = await kitchen.ask('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId: load.id });
  const committedMs = performance.now() - startMs;
  if (taken.kept !== CHANNELS * SECONDS) throw new Error(`Of ${CHANNELS * SECONDS} readings ${taken.kept} were kept.`);

  const betweenMs = performance.now();
  const rows = initParser(inferSchema(text)).stringArrs(text);
  const stringsMs = performance.now() - betweenMs;
  if (rows.length !== (shape === 'wide' ? SECONDS : CHANNELS * SECONDS)) throw new Error(`The strings have ${rows.length} rows.`);
  return { committedMs, stringsMs };
}

/** A file's bytes as they are when they have come in to the program. */
function sharedBytes(text: string): Uint8Array {
  const encoded = new TextEncoder().encode(text);
  const bytes = new Uint8Array(new SharedArrayBuffer(encoded.length));
  bytes.set(encoded);
  return bytes;
}

function resultsOf(shape: Shape, runs: readonly Run[]): BenchResult[] {
  const committed = runs.map(({ committedMs }) => committedMs);
  const strings = runs.map(({ stringsMs }) => stringsMs);
  const times = medianOf(committed) / medianOf(strings);
  const detail = `${CHANNELS * SECONDS} readings: in the book after ${medianOf(committed).toFixed(0)} ms (${rangeText(committed)}), arrays of strings after ${medianOf(strings).toFixed(0)} ms (${rangeText(strings)}); median of ${runs.length}`;
  return [
    atMost(`import-${shape}`, times, MOST_TIMES, { detail }),
    atMost(`import-${shape}-packed`, times, MOST_TIMES_PACKED, { detail: 'the same time: the original is packed before it is kept' }),
  ];
}
