/** A book of very many loads, made once and kept among the machine's temporary files until the program's books change. */
import { randomUUID } from 'node:crypto';
import { copyFileSync, existsSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BookHandle } from '../../main/backroom/book/handle.ts';
import { newestVersion } from '../../main/backroom/book/migrate.ts';
import { MIGRATIONS } from '../../main/backroom/book/migrations/index.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import type { StoredBatch, StoredLoad, StoredPoint } from '../../main/backroom/book/stored.ts';
import type { OpenBook } from '../../main/backroom/room.ts';
import { loadsIn, readingsInBlocks, versionOf } from './bench-book.ts';
import { openBenchKitchen, openBenchLoad } from './bench-kitchen.ts';
import { columnsOfTicks, smokedTenths, ticksOfTenths } from './bench-log.ts';

export interface BigBook {
  readonly loads: number;
  readonly readings: number;
}

const PIECES = 7;
/** A bit over five hours, one reading a second: with eight points a load some 150,000 readings. */
const LOAD_SECONDS = 18_760;
const DAY_MS = 86_400_000;
const LOADS_A_COMMAND = 50;

/**
 * Copies a closed book of so many loads to `file`, each of eight points with 18,760 readings of their own instants; makes
 * it first where none of this version lies there.
 * @returns what it holds, and in how many seconds it was made; 0 where it was there
 */
export async function bigBookAt(file: string, loads: number): Promise<BigBook & { readonly madeInSeconds: number }> {
  const kept = join(tmpdir(), `alderbook-bench-${loads}-loads-of-${LOAD_SECONDS}.alderbook`);
  const startMs = performance.now();
  const isThere = existsSync(kept) && isWhole(kept, loads);
  if (!isThere) {
    const unfinished = `${kept}.${process.pid}`;
    rmSync(unfinished, { force: true });
    await make(unfinished, loads);
    if (!isWhole(unfinished, loads)) throw new Error('The large book came out otherwise than it was meant.');
    renameSync(unfinished, kept);
    // Looking into it left these beside it.
    for (const ending of ['-wal', '-shm']) rmSync(`${unfinished}${ending}`, { force: true });
  }
  copyFileSync(kept, file);
  return { loads: loadsIn(file), readings: readingsInBlocks(file), madeInSeconds: isThere ? 0 : (performance.now() - startMs) / 1000 };
}

function isWhole(file: string, loads: number): boolean {
  return versionOf(file) === newestVersion(MIGRATIONS) && loadsIn(file) === loads && readingsInBlocks(file) === (loads - 1) * (PIECES + 1) * LOAD_SECONDS;
}

/** The first load is opened as a kitchen does; the others are its like, each some days earlier, cooled and rejected. */
async function make(file: string, loads: number): Promise<void> {
  const kitchen = await openBenchKitchen(file);
  const load = await openBenchLoad(kitchen, PIECES);
  await kitchen.close();
  const handle = openBookFile(file, { clock: { nowMs: Date.now } });
  const columns = Array.from({ length: PIECES + 1 }, (_, channel) => ticksOfTenths(smokedTenths(LOAD_SECONDS, channel)));
  for (let number = 2; number <= loads; number += LOADS_A_COMMAND) addLoads(handle, load.id, number, Math.min(loads, number + LOADS_A_COMMAND - 1), columns);
  handle.close();
}

function addLoads(handle: BookHandle, likeId: string, first: number, last: number, columns: readonly Int32Array[]): void {
  handle.command((as) => {
    const book = as({ personId: null, initials: 'MG', device: 'this computer', commandId: null, nowMs: Date.now, newId: randomUUID });
    for (let number = first; number <= last; number += 1) addLoad(book, likeId, number, columns);
  });
}

function addLoad(book: OpenBook, likeId: string, number: number, columns: readonly Int32Array[]): void {
  const like = book.shelf('loads').need(likeId);
  const [likeBatch, likePoints] = [book.shelf('batches').need(like.batchIds[0] ?? ''), like.pointIds.map((id) => book.shelf('points').need(id))];
  const inMs = like.openedAtMs - (number + 30) * DAY_MS;
  const outMs = inMs + LOAD_SECONDS * 1000;
  const [loadId, batchId] = [randomUUID(), randomUUID()];
  const points = likePoints.map((point): StoredPoint => ({ ...point, id: randomUUID(), loadId, batchId: point.batchId === null ? null : batchId }));
  const batch: StoredBatch = { ...likeBatch, id: batchId, shortName: `WF ${number}`, loadId, madeAtMs: inMs - DAY_MS, soak: likeBatch.soak.map((event, index) => ({ ...event, atMs: inMs - (3 - index) * 3_600_000 })) };
  const load: StoredLoad = { ...like, id: loadId, number, batchIds: [batchId], pointIds: points.map(({ id }) => id), openedAtMs: inMs - 60_000, inAtMs: inMs, outAtMs: outMs, cooledAtMs: outMs };
  book.shelf('batches').put(batch);
  book.shelf('loads').put(load);
  book.shelf('decisions').put({
    id: randomUUID(), batchId, decision: 'reject', reason: 'Made for measuring.', initials: 'MG', personId: 'bench', atMs: outMs,
    pack: 'vacuum', store: 'frozen', keptWhere: '', verdictWords: '', judgementDigest: '0'.repeat(64), initialsForError: false,
  });
  points.forEach((point, index) => {
    book.shelf('points').put(point);
    book.keepColumns({ pointId: point.id, instrumentId: point.instrumentId, how: 'file', source: `load-${number}.csv` }, columnsOfTicks(columns[index] ?? new Int32Array(0), inMs));
  });
  book.record({ kind: 'readings.import', subjectId: loadId, happenedAtMs: inMs, summary: `Took over load ${number}.`, after: { load, batch } });
}
