import { expect } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { brineABatch, putIn, readRound } from '../support/walk/brine-batch.ts';
import { test } from '../support/walk/demo-program.ts';
import { Hand } from '../support/walk/hand.ts';

const { smokehouse, paper, packingTable, frame, chart } = words;
const MINUTE_MS = 60_000;
const FIRST = [146.4, 146.9, 147.3];

test('two open screens: one sees what the other types, one round typed on both is there once, and a decision shows on both', async ({ page, context, program }) => {
  const guard = await guardPage(page);
  const inMs = Date.now() - 4 * 60 * MINUTE_MS;
  await page.goto(program.url);
  const hand = await brineABatch(page, inMs);
  await putIn(hand, inMs);

  const other = await context.newPage();
  const otherGuard = await guardPage(other);
  await other.goto(`${new URL(program.url).origin}/#/smokehouse`);
  const otherHand = new Hand(other);
  await otherHand.tap(other.locator('.row-button').filter({ hasText: frame.roles.manager }).first(), 'manager on duty');
  const needs = other.getByRole('region', { name: smokehouse.needs });
  await expect(needs.getByText(smokehouse.noReading).first()).toBeVisible();

  // Nobody touches the other screen.
  await hand.tapWords('button', smokehouse.enter);
  const roundMs = inMs + 150 * MINUTE_MS;
  await readRound(hand, roundMs, FIRST);
  for (const value of FIRST) await expect(needs.getByText(value.toFixed(1)).first()).toBeVisible();

  // Half a minute later the same round is typed there too.
  await otherHand.tapWords('button', smokehouse.enter);
  await otherHand.at(roundMs + MINUTE_MS / 4);
  for (const [index, value] of FIRST.entries()) await otherHand.type(smokehouse.pieceName(index + 1), value.toFixed(1));
  await otherHand.tapWords('button', smokehouse.entry.keep);
  await expect(other.getByRole('status')).toHaveText(smokehouse.entry.kept(0));
  await expect(other.getByText(paper.entry.already(3))).toBeVisible();
  await otherHand.type(smokehouse.pieceName(1), '146.1');
  await otherHand.tapWords('button', smokehouse.entry.keep);
  await expect(other.getByText(paper.entry.beside(smokehouse.pieceName(1), '146.4 °F'))).toBeVisible();
  await otherHand.tapWords('button', words.parts.close);
  await hand.tapWords('button', words.parts.close);
  await hand.tapWords('button', chart.inWords);
  await expect(page.getByText(new RegExp(`^${smokehouse.pieceName(1)}: 2 readings`))).toBeVisible();
  await expect(page.getByText(new RegExp(`^${smokehouse.pieceName(2)}: one reading, 146\\.9 °F at `))).toBeVisible();

  // A rack comes out before the rest, said on one and read on the other.
  await hand.at(roundMs + 40 * MINUTE_MS);
  await hand.tapWords('button', paper.early.open);
  await hand.pick(paper.early.what, smokehouse.pieceName(3));
  await hand.type(paper.swap.why, 'The tail rack is done.');
  await hand.tapWords('button', paper.early.keep);
  const out = other.getByRole('region', { name: paper.early.title });
  await expect(out.getByText(new RegExp(`^${smokehouse.pieceName(3)} came out at .*, before the rest\\.`))).toBeVisible();
  await expect(needs.getByText(/; taken out at \d\d:\d\d(?: on \d+ \w+ \d+)?$/)).toBeVisible();

  for (const screen of [page, other]) await screen.evaluate(() => { window.location.hash = '#/packing-table'; });
  for (const screen of [page, other]) await screen.locator('nav.row a').filter({ hasText: /^LT/ }).first().click();
  await expect(page.getByRole('heading', { name: /^LT/ }).first()).toBeVisible();
  await otherHand.type(packingTable.reason, 'Wait for the rest');
  await otherHand.tapWords('button', packingTable.decisions.hold);
  for (const screen of [other, page]) await expect(screen.getByText(/^On HOLD .*: Wait for the rest$/)).toBeVisible();
  guard.expectQuiet();
  otherGuard.expectQuiet();
});
