/**
 * What an hour of live readings costs the back room: 24 probes at a reading a second, kept in one transaction a second
 * and announced, closed into blocks in the end. The hour is simulated: nobody waits for the seconds.
 */
import { randomUUID } from 'node:crypto';
import { ticksFromDecimal } from '../../app/measures/temperature.ts';
import { openAnnouncements } from '../../main/backroom/announcements.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import type { KeptReading, LiveBatch } from '../../main/backroom/room.ts';
import { atMost, type BenchOptions, type BenchResult } from './bench.ts';
import { LOAD_START_MS, openBenchKitchen, openBenchLoad } from './bench-kitchen.ts';
import { smokedTenths, tenthsText } from './bench-log.ts';

const PROBES = 24;
const HOUR_SECONDS = 3600;
const BRIEF_SECONDS = 300;
const MOST_PERCENT = 5;

export async function runAppendLiveBench({ brief }: BenchOptions): Promise<BenchResult> {
  const seconds = brief ? BRIEF_SECONDS : HOUR_SECONDS;
  const kitchen = await openBenchKitchen();
  try {
    const points = (await openBenchLoad(kitchen, PROBES - 1)).points;
    await kitchen.close();
    const sent = points.map((_, channel) => smokedTenths(seconds, channel));
    const batches = Array.from({ length: seconds }, (_, second) => points.map(({ id, instrumentId }, channel): LiveBatch => ({
      about: { pointId: id, instrumentId, source: 'feed', unit: 'F' },
      rows: [readingOf(LOAD_START_MS + second * 1000, sent[channel]?.[second] ?? 0)],
    })));
    const told = { events: 0 };
    const { cpuMs, wallMs } = measure(kitchen.file, batches, points.map(({ id }) => id), () => { told.events += 1; });
    checkNothingLost(kitchen.file, points.map(({ id }, channel) => ({ id, tenths: sent[channel] ?? new Int32Array(0) })));
    if (told.events !== seconds + 1) throw new Error(`${told.events} events were announced.`);
    return atMost('append-live', (100 * cpuMs) / (seconds * 1000), MOST_PERCENT, {
      unit: '%', detail: `${PROBES * seconds} readings of ${PROBES} probes, ${told.events} events: ${(cpuMs / 1000).toFixed(1)} s of processor time (${(wallMs / 1000).toFixed(1)} s with the disk) for ${seconds} s; all of them read back`,
    });
  } finally {
    await kitchen.remove();
  }
}

function readingOf(atMs: number, tenths: number): KeptReading {
  const text = tenthsText(tenths);
  const ticks = ticksFromDecimal(text, 'F');
  if (!ticks.ok) throw new Error(`${text} is no temperature.`);
  return { atMs, ...ticks.value, text };
}

/** Keeps and announces second by second, then closes; the processor time of this process, which does nothing else. */
function measure(file: string, batches: readonly (readonly LiveBatch[])[], pointIds: readonly string[], hear: () => void): { cpuMs: number; wallMs: number } {
  const handle = openBookFile(file, { clock: { nowMs: Date.now } });
  const announcements = openAnnouncements();
  announcements.subscribe(hear);
  const book = handle.reader();
  const startMs = performance.now();
  const before = process.cpuUsage();
  for (const batch of batches) {
    const { kept } = book.keepLiveTogether(batch);
    if (kept !== batch.length) throw new Error(`Of ${batch.length} readings ${kept} were kept.`);
    announcements.announce('readings', pointIds);
  }
  handle.command((as) => {
    const writing = as({ personId: null, initials: '', device: 'this computer', commandId: null, nowMs: Date.now, newId: randomUUID });
    const closed = pointIds.reduce((sum, id) => sum + writing.closeLive(id), 0);
    writing.record({ kind: 'readings.live', subjectId: pointIds[0] ?? '', happenedAtMs: null, summary: `Closed ${closed} live readings.`, after: { closed } });
  });
  announcements.announce('readings', pointIds);
  const { user, system } = process.cpuUsage(before);
  const wallMs = performance.now() - startMs;
  handle.close();
  return { cpuMs: (user + system) / 1000, wallMs };
}

function checkNothingLost(file: string, sent: readonly { readonly id: string; readonly tenths: Int32Array }[]): void {
  const handle = openBookFile(file, { clock: { nowMs: Date.now } });
  const book = handle.reader();
  try {
    if (book.liveWaiting().length > 0) throw new Error('Live readings were left behind.');
    for (const { id, tenths } of sent) {
      const kept = book.readings(id);
      const isWhole = kept.length === tenths.length && kept.every(({ atMs, text }, second) => atMs === LOAD_START_MS + second * 1000 && text === tenthsText(tenths[second] ?? 0));
      if (!isWhole) throw new Error(`Of ${tenths.length} readings ${kept.length} came back, or others.`);
    }
    if (!book.checkChain().intact) throw new Error('The chain of the record is broken.');
  } finally {
    handle.close();
  }
}
