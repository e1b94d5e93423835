/**
 * Opening a load of a day in the real browser, from asking for it to its painted chart, beside μPlot drawing the answer
 * of the same request in the same browser. The back room has answered each once before, for both alike.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { Page } from '@playwright/test';
import { atMost, medianOf, rangeText, type BenchOptions, type BenchResult } from './bench.ts';
import { openBenchBrowser, type BenchBrowser } from './bench-browser.ts';
import { addDayLoad, DAY_PROBES, DAY_SECONDS } from './bench-day.ts';
import { openBenchKitchen } from './bench-kitchen.ts';
import { drawByPlot, openLoadPage, warmLoad } from './open-load-page.ts';

const RUNS = 9;
const BRIEF_RUNS = 2;
const MOST_TIMES = 1.5;

/** A load for each run, since a page keeps what it was answered; the first run isn't counted. */
export async function runOpenLoadBench({ brief }: BenchOptions): Promise<BenchResult> {
  const runs = brief ? BRIEF_RUNS : RUNS;
  const kitchen = await openBenchKitchen();
  try {
    const loadIds: string[] = [];
    for (let run = 0; run <= runs; run += 1) loadIds.push((await addDayLoad(kitchen)).id);
    await kitchen.close();
    const browser = await openBenchBrowser(kitchen.file);
    try {
      const beside = await browser.openBeside();
      await beside.evaluate(plotSource());
      const timed = await measure(browser, beside, loadIds);
      const [page, plot] = [timed.slice(1).map((one) => one.pageMs), timed.slice(1).map((one) => one.plotMs)];
      return atMost('open-load', medianOf(page) / medianOf(plot), MOST_TIMES, {
        detail: `${DAY_PROBES} probes × ${DAY_SECONDS} readings: page painted after ${medianOf(page).toFixed(0)} ms (${rangeText(page)}), uPlot after ${medianOf(plot).toFixed(0)} ms (${rangeText(plot)}); first time in the back room ${medianOf(timed.slice(1).map((one) => one.firstMs)).toFixed(0)} ms; median of ${runs}; Chromium ${browser.browser.version()}`,
      });
    } finally {
      await browser.close();
    }
  } finally {
    await kitchen.remove();
  }
}

interface Timed {
  readonly firstMs: number;
  readonly pageMs: number;
  readonly plotMs: number;
}

async function measure({ page, settle }: BenchBrowser, beside: Page, loadIds: readonly string[]): Promise<Timed[]> {
  const timed: Timed[] = [];
  for (const [run, loadId] of loadIds.entries()) {
    await settle();
    const firstMs = await beside.evaluate(warmLoad, loadId);
    const byPlot = async (): Promise<number> => {
      await beside.bringToFront();
      await settle();
      return beside.evaluate(drawByPlot, { loadId, probes: DAY_PROBES });
    };
    const byPage = async (): Promise<number> => {
      await page.bringToFront();
      await settle();
      return page.evaluate(openLoadPage, { loadId, probes: DAY_PROBES });
    };
    // Turn about, so that neither is always first.
    const [one, other] = run % 2 === 0 ? [byPlot, byPage] : [byPage, byPlot];
    const firstFigure = await one();
    const secondFigure = await other();
    timed.push(run % 2 === 0 ? { firstMs, plotMs: firstFigure, pageMs: secondFigure } : { firstMs, pageMs: firstFigure, plotMs: secondFigure });
  }
  return timed;
}

function plotSource(): string {
  const folder = path.dirname(createRequire(import.meta.url).resolve('uplot/package.json'));
  return `${readFileSync(path.join(folder, 'dist', 'uPlot.iife.min.js'), 'utf8')};window.uPlot = uPlot; undefined;`;
}
