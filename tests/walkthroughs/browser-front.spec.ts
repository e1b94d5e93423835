import { existsSync, readdirSync } from 'node:fs';
import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import type { Page } from '@playwright/test';
import type { RequestBody } from '../../app/contract/bridge-types.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { guardPage } from '../support/page-guard.ts';
import { startProgram } from '../support/program.ts';
import type { RunningProgram } from '../support/program.ts';

const KITCHEN = {
  name: 'Spruce Point Kitchen',
  address: { street: '1 Dock Road', city: 'Spruce Point', region: 'Alaska', postalCode: '99999' },
  timeZone: 'America/Anchorage',
  temperatureUnit: 'F',
  massUnit: 'lb',
  kind: 'food-service',
  decidingSetId: 'lodge-default',
};

let folder: string;
let program: RunningProgram;
test.beforeEach(async () => {
  folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-front-'));
  program = await startProgram({ bookFile: path.join(folder, 'kitchen.alderbook') });
});
test.afterEach(async () => {
  await program.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** Sends a request as the pages do, from inside the page. */
function ask(page: Page, name: RequestName, input: unknown, personId: string | null = null): Promise<{ ok: boolean; value: unknown }> {
  return page.evaluate(
    async (body) => {
      const answer = await fetch('/request', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });
      return (await answer.json()) as { ok: boolean; value: unknown };
    },
    { name, input, personId, commandId: crypto.randomUUID() } satisfies RequestBody,
  );
}

test('the printed address opens the program, once, and the key is gone from the address', async ({ page, browser }) => {
  const guard = await guardPage(page);
  await page.goto(program.url);
  expect(page.url()).toBe(`${new URL(program.url).origin}/`);
  await expect(page.locator('#root > *').first()).toBeVisible();
  expect(await page.evaluate(() => document.cookie)).toBe('');
  await page.reload();
  await expect(page.locator('#root > *').first()).toBeVisible();
  guard.expectQuiet();

  const stranger = await (await browser.newContext()).newPage();
  expect((await stranger.goto(program.url))?.status()).toBe(401);
  await expect(stranger.getByRole('heading', { name: 'This address has been used' })).toBeVisible();
  expect((await stranger.goto(new URL(program.url).origin))?.status()).toBe(401);
  await stranger.context().close();
});

test('a used address in the browser that used it leads back to the program', async ({ page }) => {
  await page.goto(program.url);
  expect((await page.goto(program.url))?.status()).toBe(401);
  await page.getByRole('link', { name: 'go back to it' }).click();
  await expect(page.locator('#root > *').first()).toBeVisible();
});

test('a request reaches the book on disk, and every page of it hears the event', async ({ page, context }) => {
  const guard = await guardPage(page);
  await page.goto(program.url);
  const other = await context.newPage();
  await other.goto(new URL(program.url).origin);
  await other.evaluate(() => new Promise<void>((resolve) => {
    const source = new EventSource('/events');
    Reflect.set(window, 'heard', []);
    source.onmessage = (message: MessageEvent<string>) => (Reflect.get(window, 'heard') as unknown[]).push(JSON.parse(message.data));
    source.onopen = () => resolve();
  }));
  const people = [{ initials: 'AB', name: 'A. Birch', role: 'manager' }];
  expect(await ask(page, 'book.start', { kitchen: KITCHEN, people })).toMatchObject({ ok: true, value: { state: 'open' } });
  await expect.poll(() => other.evaluate(() => Reflect.get(window, 'heard') as unknown)).toContainEqual({ seq: expect.any(Number), subject: 'book', ids: [] });
  await expect(other.getByRole('navigation').first()).toBeVisible();
  await expect(page.getByRole('navigation').first()).toBeVisible();
  expect(existsSync(program.bookFile)).toBe(true);
  guard.expectQuiet();
});

test('a page that lost its connection catches up with what it missed', async ({ page, context }) => {
  await page.goto(program.url);
  const people = [{ initials: 'AB', name: 'A. Birch', role: 'manager' }];
  const started = await ask(page, 'book.start', { kitchen: KITCHEN, people });
  const personId = (started.value as { people: { id: string }[] }).people[0]?.id ?? '';
  const listener = await context.newPage();
  await listener.goto(new URL(program.url).origin);
  await listener.evaluate(() => new Promise<void>((resolve) => {
    const source = new EventSource('/events');
    Reflect.set(window, 'heard', []);
    source.onmessage = (message: MessageEvent<string>) => (Reflect.get(window, 'heard') as unknown[]).push(JSON.parse(message.data));
    source.onopen = () => resolve();
  }));
  await expect.poll(() => listener.evaluate(() => (Reflect.get(window, 'heard') as unknown[]).length)).toBe(1);
  const session = await context.newCDPSession(listener);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', { offline: true, latency: 0, downloadThroughput: -1, uploadThroughput: -1 });
  for (const name of ['Walk-in', 'Freezer']) expect((await ask(page, 'office.addPlace', { name, kind: 'cooler' }, personId)).ok).toBe(true);
  await session.send('Network.emulateNetworkConditions', { offline: false, latency: 0, downloadThroughput: -1, uploadThroughput: -1 });
  await expect
    .poll(() => listener.evaluate(() => (Reflect.get(window, 'heard') as { subject?: string }[]).map((heard) => heard.subject)), { timeout: 15_000 })
    .toEqual(['book', 'office', 'office']);
});

test('Ctrl-C ends it with code 0 and leaves the book as one closed file', async ({ page }) => {
  await page.goto(program.url);
  const people = [{ initials: 'AB', name: 'A. Birch', role: 'manager' }];
  expect((await ask(page, 'book.start', { kitchen: KITCHEN, people })).ok).toBe(true);
  expect(readdirSync(folder).sort()).toContain('kitchen.alderbook.holder');
  expect(await program.stop()).toBe(0);
  expect(readdirSync(folder)).toEqual(['kitchen.alderbook']);
  expect(program.faults).toEqual([]);
});
