/** How many bytes of a closed book a reading takes: tenths of a degree with a noise of a tenth, one a second, as a logger's file brings them. */
import { statSync } from 'node:fs';
import type { ReadingColumns } from '../../app/probes/reading-columns.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { randomUUID } from 'node:crypto';
import { atMost, type BenchOptions, type BenchResult } from './bench.ts';
import { readingsInBlocks } from './bench-book.ts';
import { LOAD_START_MS, openBenchKitchen, openBenchLoad } from './bench-kitchen.ts';
import { columnsOfTicks, smokedTenths, ticksOfTenths } from './bench-log.ts';

const PROBES = 8;
const DAY_SECONDS = 86_400;
const MOST_BYTES = 0.45;

export async function runStoredSizeBench(_options: BenchOptions): Promise<BenchResult> {
  const kitchen = await openBenchKitchen();
  try {
    const points = (await openBenchLoad(kitchen, PROBES - 1)).points;
    await kitchen.close();
    const before = statSync(kitchen.file).size;
    const sent = points.map((_, channel) => columnsOfTicks(ticksOfTenths(smokedTenths(DAY_SECONDS, channel)), LOAD_START_MS));
    keepAll(kitchen.file, points.map(({ id, instrumentId }, channel) => ({ pointId: id, instrumentId, columns: sent[channel] })));
    const grown = statSync(kitchen.file).size - before;
    const count = readingsInBlocks(kitchen.file);
    if (count !== PROBES * DAY_SECONDS) throw new Error(`${count} readings lie in blocks.`);
    return atMost('stored-size', grown / count, MOST_BYTES, { decimals: 3, unit: 'B', detail: `${count} readings made the closed book ${grown} bytes larger; the noise alone is ${(Math.log2(3) / 8).toFixed(3)} bytes a reading` });
  } finally {
    await kitchen.remove();
  }
}

/** Keeps each point's readings as a file's, in one command, and reads every one of them back. */
function keepAll(file: string, all: readonly { readonly pointId: string; readonly instrumentId: string | null; readonly columns: ReadingColumns | undefined }[]): void {
  const handle = openBookFile(file, { clock: { nowMs: Date.now } });
  handle.command((as) => {
    const writing = as({ personId: null, initials: 'MG', device: 'this computer', commandId: null, nowMs: Date.now, newId: randomUUID });
    for (const { pointId, instrumentId, columns } of all) if (columns !== undefined) writing.keepColumns({ pointId, instrumentId, how: 'file', source: 'day.csv' }, columns);
    writing.record({ kind: 'readings.import', subjectId: all[0]?.pointId ?? '', happenedAtMs: null, summary: 'Took over a day.', after: {} });
  });
  const book = handle.reader();
  for (const { pointId, columns } of all) {
    const { atMs, lowTicks } = book.seriesOf(pointId);
    const isSame = columns !== undefined && atMs.length === columns.atMs.length && atMs.every((at, index) => at === columns.atMs[index] && lowTicks[index] === columns.lowTicks[index]);
    if (!isSame) throw new Error(`The readings of ${pointId} came back otherwise.`);
  }
  handle.close();
}
