/** The demonstration kitchen's labels, opened and printed as a person would, on a stock and with a choice of the test's. */
import { expect, type Page } from '@playwright/test';
import { randomUUID } from 'node:crypto';
import type { Input, Output } from '../../../app/contract/contract.ts';
import type { RequestName } from '../../../app/contract/names.ts';
import { addressOf } from '../../../renderer/frame/address.ts';
import { words } from '../../../renderer/words/words.ts';

/** Asks the program from the page's own origin, for its first manager. */
export async function askFrom<N extends RequestName>(page: Page, name: N, input: Input<N>): Promise<Output<N>> {
  const send = (request: string, body: unknown, personId: string | null): Promise<{ ok: boolean; value: unknown; error?: unknown }> => page.evaluate(
    async (message) => (await fetch('/request', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(message) })).json(),
    { name: request, input: body, personId, commandId: randomUUID() },
  );
  const status = await send('book.status', {}, null);
  const { people } = status.value as Output<'book.status'>;
  const answer = await send(name, input, people.find(({ role }) => role === 'manager')?.id ?? null);
  if (!answer.ok) throw new Error(`${name}: ${JSON.stringify(answer.error)}`);
  // Dispatch has parsed the value by the request's own output schema.
  return answer.value as Output<N>;
}

type Choice = Input<'label.choose'>;

/** Chooses how labels look; what isn't named is as usual. */
export async function chooseLabels(page: Page, change: Partial<Choice>): Promise<void> {
  const { choice: { pouch: _pouch, gtin: _gtin, mark: _mark, ...usual } } = await askFrom(page, 'label.choice', {});
  await askFrom(page, 'label.choose', { ...usual, pouch: null, gtin: '', mark: { kind: 'none' }, ...change });
}

/** Opens the program and puts the first person on duty. */
export async function openDemo(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.locator('.row-button').first().click();
}

/** The batch of the demonstration that is released and packed for sale. */
export async function releasedBatch(page: Page): Promise<string> {
  const { batches } = await askFrom(page, 'batch.list', {});
  const released = batches.find(({ stage, sourceKind }) => stage === 'released' && sourceKind === 'supplier');
  if (released === undefined) throw new Error('the demonstration has no released batch for sale');
  return released.id;
}

/** Shows the labels of a batch on a stock, drawn and measured. */
export async function showLabels(page: Page, batchId: string, stockId: string): Promise<void> {
  const hash = `${addressOf('print', 'labels', batchId)}?stock=${stockId}`;
  // By way of another page, so that nothing of another choice is still shown.
  await page.evaluate((address) => { window.location.hash = address; }, addressOf('office', 'labels'));
  await expect(page.getByRole('heading', { name: words.labels.office.title, exact: true })).toBeVisible();
  const { packs } = await askFrom(page, 'pack.list', { batchId });
  const first = packs.find(({ printedCount }) => printedCount === 0) ?? packs[0];
  const [label] = (await askFrom(page, 'label.forPacks', { packIds: [first?.id ?? ''], stockId })).labels;
  await page.evaluate((address) => { window.location.hash = address; }, hash);
  // What is shown is what the book says now, not what was shown before.
  await expect(page.locator('.pack-label').first()).toHaveAttribute('data-digest', label?.digest ?? '');
  await page.evaluate(() => document.fonts.ready);
}

/** The PDF that the page prints, once labels on it have their final size. */
export async function printPdf(page: Page): Promise<Buffer> {
  await expect(page.locator('.label-run:not([data-measured])')).toHaveCount(0);
  return page.pdf({ preferCSSPageSize: true, printBackground: true });
}
