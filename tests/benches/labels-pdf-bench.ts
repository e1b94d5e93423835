/**
 * A hundred labels from the tap on “preview” to the bytes of their PDF: the built program with its browser front, in the
 * Chromium that the tests use. An absolute time, so a 95th percentile.
 */
import path from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { buildWhatChanged } from '../../main/start/build.ts';
import { addressOf } from '../../renderer/frame/address.ts';
import { unpackCarriedBrowser } from '../support/carried-browser.ts';
import { findBrowser } from '../support/find-browser.ts';
import { startProgram } from '../support/program.ts';
import { askFrom, openDemo, printPdf, releasedBatch } from '../support/walk/label-walk.ts';
import { atMost, percentileOf, rangeText, type BenchOptions, type BenchResult } from './bench.ts';

const ROOT = path.resolve(import.meta.dirname, '..', '..');
const LABELS = 100;
const LIMIT_SECONDS = 2;
const RUNS = 20;
const BRIEF_RUNS = 3;
const STOCK = '4x3in';

/** Seconds from asking for the labels until their PDF is there. */
async function timePdf(page: Page, batchId: string, stockId: string): Promise<{ seconds: number; bytes: number }> {
  await page.evaluate((hash) => { window.location.hash = hash; }, addressOf('packing-table'));
  await page.locator('.pack-label').first().waitFor({ state: 'detached' });
  const start = performance.now();
  await page.evaluate((hash) => { window.location.hash = hash; }, `${addressOf('print', 'labels', batchId)}?stock=${stockId}`);
  // Drawn and measured: what fits has been decided.
  await page.waitForFunction((count) => document.querySelectorAll('.pack-label').length === count && document.querySelector('.label-run[data-measured]') !== null, LABELS, { polling: 10 });
  const pdf = await printPdf(page);
  const seconds = (performance.now() - start) / 1000;
  return { seconds, bytes: pdf.length };
}

/** `labels-pdf`: 100 labels of one batch as a PDF. */
export async function runLabelsPdfBench({ brief }: BenchOptions): Promise<BenchResult> {
  await buildWhatChanged(ROOT, () => undefined);
  const found = findBrowser();
  if (found.isCarried) await unpackCarriedBrowser();
  const program = await startProgram({ demo: true });
  const browser = await chromium.launch(found.launchOptions);
  try {
    const page = await browser.newPage();
    await openDemo(page, program.url);
    const batchId = await releasedBatch(page);
    const { packs } = await askFrom(page, 'pack.list', { batchId });
    const more = Array.from({ length: LABELS - packs.length }, () => ({ text: '20', unit: 'g' as const }));
    await askFrom(page, 'pack.seal', { batchId, sealedAtMs: Date.now(), weights: more });
    // The packs that were printed before are chosen with the others by printing the others once.
    await askFrom(page, 'label.printed', { packIds: (await askFrom(page, 'pack.list', { batchId })).packs.filter(({ printedCount }) => printedCount === 0).map(({ id }) => id), stockId: STOCK });
    await timePdf(page, batchId, STOCK);
    const runs: { seconds: number; bytes: number }[] = [];
    for (let run = 0; run < (brief ? BRIEF_RUNS : RUNS); run += 1) {
      // A stock of its own, so that no page has the answer already.
      const { stock } = await askFrom(page, 'label.saveStock', { stockId: null, draft: { name: `Run ${run}`, width: '4', height: '3', unit: 'in', sheet: null } });
      runs.push(await timePdf(page, batchId, stock.id));
    }
    const seconds = runs.map((one) => one.seconds);
    return atMost('labels-pdf', percentileOf(seconds, 0.95), LIMIT_SECONDS, {
      unit: 's', detail: `${LABELS} labels, ${runs.length} runs of ${rangeText(seconds, 2)} s, ${Math.round((runs[0]?.bytes ?? 0) / 1000)} kB, in ${found.name}`,
    });
  } finally {
    await browser.close();
    await program.stop();
  }
}
