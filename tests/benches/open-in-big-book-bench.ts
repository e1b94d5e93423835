/**
 * Opening the newest load in a book of 2,000 loads and 300 million readings, beside the same in a book with that load
 * alone: the whole page anew in the real browser, from its first request to its painted chart.
 */
import path from 'node:path';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { bigBookAt } from './big-book.ts';
import { atMost, medianOf, rangeText, type BenchOptions, type BenchResult } from './bench.ts';
import { openBenchBrowser, type BenchBrowser } from './bench-browser.ts';
import { addDayLoad, DAY_PROBES } from './bench-day.ts';
import { openBenchKitchen } from './bench-kitchen.ts';
import { waitForLoadPage } from './open-load-page.ts';

const LOADS = 2000;
const BRIEF_LOADS = 60;
const RUNS = 9;
const BRIEF_RUNS = 3;
const MOST_TIMES = 1.3;

interface Opened {
  readonly browser: BenchBrowser;
  readonly loadId: string;
}

export async function runBigBookBench({ brief }: BenchOptions): Promise<BenchResult> {
  const folder = mkdtempSync(path.join(tmpdir(), 'alderbook-bench-big-'));
  const open: Opened[] = [];
  try {
    const big = await bigBookAt(path.join(folder, 'big.alderbook'), brief ? BRIEF_LOADS : LOADS);
    open.push(await openNewest(path.join(folder, 'big.alderbook')), await openNewest(path.join(folder, 'small.alderbook')));
    const [inBig, inSmall]: [number[], number[]] = [[], []];
    for (let run = 0; run <= (brief ? BRIEF_RUNS : RUNS); run += 1) {
      // Turn about; the first of each isn't counted.
      for (const [index, opened] of open.entries()) {
        const ms = await reopen(opened);
        if (run > 0) (index === 0 ? inBig : inSmall).push(ms);
      }
    }
    return atMost('open-in-big-book', medianOf(inBig) / medianOf(inSmall), MOST_TIMES, {
      detail: `book of ${big.loads} loads and ${big.readings} readings${big.madeInSeconds === 0 ? '' : `, made in ${big.madeInSeconds.toFixed(0)} s`}: ${medianOf(inBig).toFixed(0)} ms (${rangeText(inBig)}), with one load ${medianOf(inSmall).toFixed(0)} ms (${rangeText(inSmall)}); median of ${inBig.length}`,
    });
  } finally {
    for (const { browser } of open) await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Adds the newest load to a book and opens the program on it. */
async function openNewest(file: string): Promise<Opened> {
  const kitchen = await openBenchKitchen(file);
  const { id } = await addDayLoad(kitchen);
  await kitchen.close();
  return { browser: await openBenchBrowser(file), loadId: id };
}

async function reopen({ browser: { page, settle }, loadId }: Opened): Promise<number> {
  await page.bringToFront();
  await page.evaluate((hash) => { window.location.hash = hash; }, `#/smokehouse/${encodeURIComponent(loadId)}`);
  await page.reload();
  const ms = await page.evaluate(waitForLoadPage, { probes: DAY_PROBES });
  // What the page asks for later must not slow the other book's.
  await settle();
  return ms;
}
