import { expect } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { browserFronts, test } from '../support/walk/demo-program.ts';
import { smokeABatch } from '../support/walk/first-smoke.ts';
import { makeSmokeLog } from '../support/walk/smoke-csv.ts';

const { packingTable, frame, smokehouse } = words;
/** The logger was out of its socket from shortly after the pieces reached 145 °F until shortly before they came out. */
const LOST = (minute: number): boolean => minute > 134 && minute < 196;

test('a gap breaks the hold: the batch can’t be packed, and the screen says what would have been needed', async ({ page, program }, info) => {
  const guard = await guardPage(page);
  const log = makeSmokeLog(Date.now() - 10 * 60_000, LOST);
  const fronts = await browserFronts(page, info);
  await page.goto(program.url);
  const hand = await smokeABatch(fronts, log);

  const hold = page.locator('.verdict').filter({ hasText: /Core at 145 °F/ });
  await expect(hold).toContainText(': not proven');
  await expect(hold).toContainText(/of 30 min/);
  await expect(hold).toContainText(/must be kept at 145 °F or above for 30 min without a gap/);
  await expect(hold.getByRole('img', { name: words.verdict.names['not-proven'] })).toBeVisible();
  await hand.tap(hold.getByRole('button'), 'the check, to see its stretches');
  await expect(page.locator('.recharts-reference-area').first()).toBeVisible();

  await hand.tapWords('button', smokehouse.toPacking);
  await expect(page.getByText(`${packingTable.gate.pack}: ${packingTable.states.blocked}`)).toBeVisible();
  await hand.tapWords('button', /^On duty/);
  await hand.tap(page.locator('.row-button').filter({ hasText: frame.roles.manager }).first(), 'manager on duty');
  await hand.type(packingTable.reason, 'It looked done');
  await hand.tapWords('button', packingTable.decisions.release);
  const refusal = page.getByRole('alert');
  await expect(refusal).toContainText(/145 °F/);
  await expect(page.getByRole('heading', { name: packingTable.weights })).toHaveCount(0);

  await hand.type(packingTable.keptWhere, 'Walk-in cooler, red tub');
  await hand.tapWords('button', packingTable.decisions.hold);
  await expect(page.getByText(/^On HOLD .*: It looked done$/)).toBeVisible();
  await hand.tapWords('button', packingTable.holdTag);
  await expect(page.locator('.hold-tag')).toContainText('Do not pack, serve, label, hand over or mix.');
  await expect(page.locator('.hold-tag')).toContainText('Walk-in cooler, red tub');
  guard.expectQuiet();
});
