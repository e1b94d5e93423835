/**
 * How long the main process keeps its window waiting while everything goes on at once: logs of a million readings come
 * in and are taken over, days are opened in the browser, verdicts are asked for, and rounds of a running load are entered each second.
 * Measured in the program itself, as it is built: the back room is a thread of its own there. A process beside it that
 * does nothing is measured likewise: what it waits, any program would wait on this machine.
 */
import { spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { atMost, percentileOf, type BenchOptions, type BenchResult } from './bench.ts';
import { openBenchBrowser, type BenchBrowser } from './bench-browser.ts';
import { addDayLoad, DAY_PROBES } from './bench-day.ts';
import { openBenchKitchen, openBenchLoad } from './bench-kitchen.ts';
import { longCsv, smokedTenths, wideCsv } from './bench-log.ts';
import { openLoadPage } from './open-load-page.ts';

type Load = Output<'load.open'>['load'];

const WATCH = path.join(import.meta.dirname, 'watch-blocks.mjs');
const CHANNELS = 8;
const SECONDS = 125_000;
/** Wide and long by turns; more than go in in the time. A kitchen makes no more batches a day. */
const LOGS = 40;
const BRIEF_LOGS = 8;
const LOADS = 16;
const BRIEF_LOADS = 4;
const BUSY_MS = 45_000;
const BRIEF_BUSY_MS = 12_000;
const MOST_MS = 16;
const DAY_MS = 86_400_000;
const START_WALL_MS = Date.UTC(2026, 6, 14, 5);

export async function runWindowBlockBench({ brief }: BenchOptions): Promise<BenchResult> {
  const kitchen = await openBenchKitchen();
  try {
    const days = [await addDayLoad(kitchen), await addDayLoad(kitchen)];
    const running = await openBenchLoad(kitchen, CHANNELS);
    const logs: Log[] = [];
    const loads: Load[] = [];
    while (loads.length < (brief ? BRIEF_LOADS : LOADS)) loads.push(await openBenchLoad(kitchen, CHANNELS));
    for (let round = 0; logs.length < (brief ? BRIEF_LOGS : LOGS); round += 1) logs.push(...loads.map((load, index) => makeLog(load, round * loads.length + index, round)));
    await kitchen.close();
    const folder = path.dirname(kitchen.file);
    const file = path.join(folder, 'blocks.json');
    const browser = await openBenchBrowser(kitchen.file, { imported: WATCH, settings: { WATCH_BLOCKS_FILE: file } });
    const idle = startIdle(path.join(folder, 'idle-blocks.json'));
    const fromMs = Date.now();
    const counts = await keepBusy(browser, { days, running, logs }, brief ? BRIEF_BUSY_MS : BUSY_MS).catch(async (problem: unknown) => {
      await browser.close();
      throw problem;
    });
    const toMs = Date.now();
    const longestIdle = (await idle.stop()).filter(isWithin(fromMs, toMs)).map(({ longestMs }) => longestMs);
    await browser.close();
    if (counts.imports < 2) throw new Error(`Only ${counts.imports} logs were taken over meanwhile.`);
    const slices = readSlices(file).filter(isWithin(fromMs, toMs));
    const longest = slices.map(({ longestMs }) => longestMs);
    return atMost('window-block', percentileOf(longest, 0.95), MOST_MS, {
      decimals: 1, unit: 'ms',
      detail: `longest block of each of ${slices.length} s, the 95th percentile; the worst ${Math.max(...longest).toFixed(1)} ms; meanwhile ${counts.imports} logs of ${CHANNELS * SECONDS} readings, ${counts.opened} days opened, ${counts.verdicts} verdicts, ${counts.rounds} rounds of ${running.points.length}; its own work took at most ${percentileOf(slices.map(({ ownMs }) => ownMs), 0.95).toFixed(1)} ms at a time (the same percentile), and it waited ${percentileOf(slices.map(({ waitedMs }) => waitedMs), 0.5).toFixed(0)} ms of each second (median) for a processor to be free; a process that does nothing, beside it: ${percentileOf(longestIdle, 0.95).toFixed(1)} ms (the same percentile of its blocks)`,
    });
  } finally {
    await kitchen.remove();
  }
}

/** A second as the program wrote it down. */
interface Slice {
  readonly atMs: number;
  readonly longestMs: number;
  /** Its own work alone, without waiting for a processor. */
  readonly ownMs: number;
  readonly waitedMs: number;
}

function readSlices(file: string): Slice[] {
  return JSON.parse(readFileSync(file, 'utf8')) as Slice[];
}

function isWithin(fromMs: number, toMs: number): (slice: Slice) => boolean {
  return ({ atMs }) => atMs >= fromMs && atMs <= toMs;
}

/** A process that is watched and does nothing, until it is stopped. */
function startIdle(file: string): { stop(): Promise<Slice[]> } {
  const child = spawn(process.execPath, ['--import', WATCH, '-e', "process.stdin.resume().on('end', () => process.exit(0));"], { stdio: ['pipe', 'ignore', 'inherit'], env: { ...process.env, WATCH_BLOCKS_FILE: file } });
  const exited = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    async stop() {
      child.stdin.end();
      await exited;
      return readSlices(file);
    },
  };
}

interface Work {
  readonly days: readonly Load[];
  readonly running: Load;
  readonly logs: readonly Log[];
}

interface Counts {
  imports: number;
  opened: number;
  verdicts: number;
  rounds: number;
}

/** Everything at once, for so long. */
async function keepBusy({ page, program }: BenchBrowser, { days, running, logs }: Work, busyMs: number): Promise<Counts> {
  const counts: Counts = { imports: 0, opened: 0, verdicts: 0, rounds: 0 };
  const cookie = (await page.context().cookies()).map(({ name, value }) => `${name}=${value}`).join('; ');
  const { origin } = new URL(program.url);
  const post = async (route: string, type: string, body: string | Uint8Array<ArrayBuffer>): Promise<unknown> => {
    const answer = (await (await fetch(`${origin}${route}`, { method: 'POST', headers: { cookie, origin, 'content-type': type }, body })).json()) as { ok: boolean; value: unknown; error?: { message: string } };
    if (!answer.ok) throw new Error(answer.error?.message);
    return answer.value;
  };
  let personId: string | null = null;
  // Dispatch has parsed the value by the request's own output schema.
  const ask = async <N extends RequestName>(name: N, input: Input<N>): Promise<Output<N>> => (await post('/request', 'application/json', JSON.stringify({ name, input, commandId: randomUUID(), personId }))) as Output<N>;
  personId = (await ask('book.status', {})).people[0]?.id ?? null;
  const untilMs = performance.now() + busyMs;
  const whileBusy = async (turn: () => Promise<void>): Promise<void> => {
    while (performance.now() < untilMs) await turn();
  };
  await Promise.all([
    whileBusy(async () => {
      const log = logs[counts.imports];
      if (log === undefined) throw new Error('There are not logs enough for the time.');
      await importLog(post, ask, log);
      counts.imports += 1;
    }),
    whileBusy(async () => {
      await page.evaluate(openLoadPage, { loadId: days[counts.opened % days.length]?.id ?? '', probes: DAY_PROBES });
      counts.opened += 1;
    }),
    whileBusy(async () => {
      await ask('batch.verdict', { batchId: days[counts.verdicts % days.length]?.batchIds[0] ?? '' });
      counts.verdicts += 1;
    }),
    whileBusy(async () => {
      // The same figure within a minute would be one reading.
      const text = (30 + (counts.rounds % 100) / 10).toFixed(1);
      const readings = running.points.map(({ id, instrumentId }) => ({ pointId: id, instrumentId, atMs: Date.now() - 60_000, value: { text, unit: 'F' as const } }));
      const [{ kept }] = await Promise.all([ask('readings.enter', { readings, how: 'by-hand' }), wait(1000)]);
      if (kept !== readings.length) throw new Error(`Of a round of ${readings.length} readings ${kept} were kept.`);
      counts.rounds += 1;
    }),
  ]);
  return counts;
}

/** A logger's file, wide or long, and the load it is for. */
interface Log {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly loadId: string;
  readonly columns: { name: string; pointId: string }[];
}

/** @param round each later log of a load begins so many times two days later */
function makeLog(load: Load, index: number, round: number): Log {
  const channels = Array.from({ length: CHANNELS }, (_, channel) => smokedTenths(SECONDS, channel, index * CHANNELS + channel));
  const names = channels.map((_, channel) => `P${channel + 1}`);
  const pieces = load.points.filter(({ role }) => role === 'piece');
  return {
    name: `log-${index}.csv`, bytes: new TextEncoder().encode((index % 2 === 0 ? wideCsv : longCsv)(START_WALL_MS + round * 2 * DAY_MS, channels, names)),
    loadId: load.id, columns: names.map((name, piece) => ({ name, pointId: pieces[piece]?.id ?? '' })),
  };
}

type Post = (route: string, type: string, body: string | Uint8Array<ArrayBuffer>) => Promise<unknown>;

async function importLog(post: Post, ask: <N extends RequestName>(name: N, input: Input<N>) => Promise<Output<N>>, { name, bytes, loadId, columns }: Log): Promise<void> {
  const { fileId } = (await post(`/inbox?name=${name}`, 'application/octet-stream', bytes)) as { fileId: string };
  const { kept } = await ask('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId });
  if (kept !== CHANNELS * SECONDS) throw new Error(`Of ${CHANNELS * SECONDS} readings ${kept} were kept.`);
}
