/** A cold-smoked batch up to its packs, as the people of the demonstration kitchen would do it. */
import { expect } from '@playwright/test';
import { words } from '../../../renderer/words/words.ts';
import { brineABatch } from './brine-batch.ts';
import type { Fronts } from './first-smoke.ts';
import type { Hand } from './hand.ts';

const MINUTE_MS = 60_000;
const SMOKE_MINUTES = 600;

/** Ten hours at 78 °F or so, a reading a minute. */
function coldLog(startMs: number): string {
  const rows = Array.from({ length: SMOKE_MINUTES + 1 }, (_, minute) => {
    const air = 72 + 6 * (1 - Math.exp(-minute / 40)) + 0.8 * Math.sin(minute / 9);
    const core = 40 + 34 * (1 - Math.exp(-minute / 90));
    return [new Date(startMs + minute * MINUTE_MS).toISOString().replace('.000', ''), core.toFixed(1), (core - 0.4).toFixed(1), (core - 0.7).toFixed(1), air.toFixed(1)].join(',');
  });
  return ['Time,Probe 1 (°F),Probe 2 (°F),Probe 3 (°F),Chamber (°F)', ...rows, ''].join('\n');
}

/**
 * Fish in, brine, ten hours of cold smoke, released to be frozen, sealed in one pack.
 * @param nowMs the program's own clock
 * @returns the hand, and when the fish came out
 */
export async function coldSmokeABatch(fronts: Fronts, inMs: number, nowMs: () => number): Promise<{ hand: Hand; outMs: number }> {
  const { page } = fronts;
  const { frame, smokehouse, packingTable } = words;
  const outMs = inMs + SMOKE_MINUTES * MINUTE_MS;
  const hand = await brineABatch(page, inMs, { weight: '9.0', pieces: '6', fillets: '8.1', thickest: '30', cold: true });
  await hand.tapWords('radio', 'Stone smoker');
  await hand.tapWords('button', smokehouse.open);
  await hand.at(outMs + MINUTE_MS);
  await hand.tapWords('button', smokehouse.importFile);
  await fronts.chooseFile(() => hand.tapWords('button', smokehouse.importing.choose), 'cold.csv', coldLog(inMs));
  await hand.tapWords('radio', smokehouse.importing.toOut);
  await hand.tapWords('button', smokehouse.importing.keep);
  await expect(page.getByRole('status')).toHaveText(/ readings imported/);

  await hand.tapWords('button', smokehouse.toPacking);
  await hand.tapWords('button', /^On duty/);
  await hand.tap(page.locator('.row-button').filter({ hasText: frame.roles.manager }).first(), 'manager on duty');
  await hand.type(packingTable.reason, 'Record read through');
  await hand.tapWords('button', packingTable.decisions.release);
  await expect(page.getByRole('heading', { name: packingTable.weights })).toBeVisible();
  // Packs are sealed now: no earlier than the batch was made in this walk.
  await hand.at(nowMs());
  await hand.type(packingTable.packNumber(1), '1.5');
  await hand.tapWords('button', packingTable.seal);
  await expect(page.getByText(/-001, /)).toBeVisible();
  return { hand, outMs };
}
