import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect } from '@playwright/test';
import Database from 'better-sqlite3';
import type { Heard, WindowBridge } from '../../app/contract/bridge-types.ts';
import { guardPage } from '../support/page-guard.ts';
import type { PageGuard } from '../support/page-guard.ts';
import { test } from '../support/window-program.ts';

declare global {
  interface Window {
    heardEvents?: Heard[];
  }
}

test.use({ startName: 'first-window' });
test.describe.configure({ mode: 'serial' });

const KITCHEN = {
  name: 'Spruce Point Kitchen',
  address: { street: '1 Dock Road', city: 'Spruce Point', region: 'Alaska', postalCode: '99999' },
  timeZone: 'America/Anchorage',
  temperatureUnit: 'F',
  massUnit: 'lb',
  kind: 'food-service',
};

let guard: PageGuard;

test('the window opens on the pages of the program', async ({ program }) => {
  console.log(`Window: ${program.runsIn}.`);
  guard = await guardPage(program.page);
  expect(program.pageAddress()).toBe('alderbook://app/');
  expect(program.countPages()).toBe(1);
  await expect(program.page).toHaveTitle('Alderbook');
  await expect(program.page.locator('#root > *').first()).toBeVisible();
  await expect(program.page.getByRole('navigation')).toHaveCount(0);
});

test('the page gets request and subscribe and nothing else', async ({ program }) => {
  const surface = await program.page.evaluate(() => ({
    bridge: Object.entries(Reflect.get(window, 'alderbook') as object).map(([key, value]) => `${key}: ${typeof value}`).sort(),
    leaks: ['require', 'process', 'module', 'electron', 'ipcRenderer', 'Buffer', 'global'].filter((name) => name in window),
  }));
  expect(surface).toEqual({ bridge: ['request: function', 'subscribe: function'], leaks: [] });
});

test('a name that is in no list throws at once', async ({ program }) => {
  const outcome = await program.page.evaluate(() => {
    const bridge = Reflect.get(window, 'alderbook') as WindowBridge;
    return ['no.such', '__proto__', 'constructor', ''].map((name) => {
      try {
        void (bridge.request as (given: string, input: unknown) => unknown)(name, {});
        return 'asked';
      } catch {
        return 'threw';
      }
    });
  });
  expect(outcome).toEqual(['threw', 'threw', 'threw', 'threw']);
});

test('a request goes through to the book on disk, and an event comes back', async ({ program, folder }) => {
  const bookFile = path.join(folder, 'kitchen.alderbook');
  expect(existsSync(bookFile)).toBe(false);
  const replies = await program.page.evaluate(async (kitchen) => {
    const bridge = Reflect.get(window, 'alderbook') as WindowBridge;
    window.heardEvents = [];
    bridge.subscribe((heard) => window.heardEvents?.push(heard));
    const before = await bridge.request('book.status', {});
    const proposal = await bridge.request('book.propose', { kind: kitchen.kind as 'food-service', region: kitchen.address.region });
    const decidingSetId = proposal.ok ? (proposal.value as { setId: string }).setId : '';
    const people = [{ initials: 'AB', name: 'A. Birch', role: 'manager' }];
    const started = await bridge.request('book.start', { kitchen: { ...kitchen, decidingSetId }, people }, { commandId: crypto.randomUUID(), personId: null });
    return { before, started };
  }, KITCHEN);
  expect(replies.before).toMatchObject({ ok: true, value: { state: 'none', kitchen: null } });
  expect(replies.started).toMatchObject({ ok: true, value: { state: 'open', kitchen: { name: KITCHEN.name }, people: [{ initials: 'AB' }] } });
  await expect.poll(() => program.page.evaluate(() => window.heardEvents?.[0])).toMatchObject({ subject: 'book', ids: [] });
  expect(existsSync(bookFile)).toBe(true);
  await expect(program.page.getByRole('navigation').first()).toBeVisible();
});

test('a listener that unsubscribed hears nothing more, and hears only what was sent', async ({ program }) => {
  const heard = await program.page.evaluate(async () => {
    const bridge = Reflect.get(window, 'alderbook') as WindowBridge;
    const status = await bridge.request('book.status', {});
    const personId = status.ok ? ((status.value as { people: { id: string }[] }).people[0]?.id ?? null) : null;
    const [kept, ended]: [unknown[][], unknown[][]] = [[], []];
    const unsubscribe = bridge.subscribe((...values: unknown[]) => ended.push(values));
    bridge.subscribe((...values: unknown[]) => kept.push(values));
    unsubscribe();
    const reply = await bridge.request('office.addPlace', { name: 'Walk-in', kind: 'cooler' }, { commandId: crypto.randomUUID(), personId });
    await new Promise((resolve) => { setTimeout(resolve, 300); });
    return { ok: reply.ok, kept, ended };
  });
  expect(heard.ok).toBe(true);
  expect(heard.ended).toEqual([]);
  expect(heard.kept).toEqual([[{ seq: expect.any(Number), subject: 'office', ids: expect.any(Array) }]]);
});

test('a refusal comes back as an envelope with a sentence', async ({ program }) => {
  const reply = await program.page.evaluate(() => (Reflect.get(window, 'alderbook') as WindowBridge).request('brine.strength', { percentByWeight: 30 }));
  expect(reply).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringMatching(/\.$/) } });
});

test('a file chosen in the dialog goes into the book, and its path does not reach the page', async ({ program, folder }) => {
  const log = path.join(folder, 'smoker.csv');
  writeFileSync(log, 'time,piece 1\n2026-03-29T08:00:00Z,40.0\n');
  await program.answerNextOpenDialog([log]);
  const chosen = await program.page.evaluate(() => (Reflect.get(window, 'alderbook') as WindowBridge).request('front.chooseFile', { accept: '.csv,.txt' }));
  expect(chosen).toEqual({ ok: true, value: { fileId: expect.any(String), fileName: 'smoker.csv' } });
  expect(JSON.stringify(chosen)).not.toContain(folder);
});

test('a dialog that was left answers null, and a file that is gone answers a sentence', async ({ program, folder }) => {
  await program.answerNextOpenDialog([]);
  const left = await program.page.evaluate(() => (Reflect.get(window, 'alderbook') as WindowBridge).request('front.chooseFile', {}));
  expect(left).toEqual({ ok: true, value: null });
  await program.answerNextOpenDialog([path.join(folder, 'gone.csv')]);
  const gone = await program.page.evaluate(() => (Reflect.get(window, 'alderbook') as WindowBridge).request('front.chooseFile', {}));
  expect(gone).toMatchObject({ ok: false, error: { code: 'FILE_UNREADABLE', message: 'gone.csv could not be read.' } });
});

test('printing goes to the printer’s own paper, or to the sheet that is named', async ({ program }) => {
  const replies = await program.page.evaluate(async () => {
    const bridge = Reflect.get(window, 'alderbook') as WindowBridge;
    return [
      await bridge.request('front.print', {}),
      await bridge.request('front.print', { sheet: { widthMm: 101.6, heightMm: 76.2 } }),
      await bridge.request('front.print', { silent: true } as object),
    ];
  });
  expect(replies).toMatchObject([{ ok: true, value: { printed: true } }, { ok: true, value: { printed: true } }, { ok: false, error: { code: 'INVALID_INPUT' } }]);
  expect(await program.listPrints()).toEqual([
    { printBackground: true, usePrinterDefaultPageSize: true },
    { printBackground: true, margins: { marginType: 'none' }, pageSize: { width: 101_600, height: 76_200 } },
  ]);
});

test('nothing of all that disturbed the page', () => {
  guard.expectQuiet();
});

const POPUPS: readonly string[] = ['https://kitchen.example/', 'alderbook://app/', 'index.html', 'about:blank', ''];
for (const address of POPUPS) {
  test(`a popup to ${address === '' ? 'nothing' : address} is denied, by script and by link`, async ({ program }) => {
    await guard.provoke(async () => {
      await program.page.evaluate((goal) => {
        window.open(goal);
        const link = Object.assign(document.createElement('a'), { href: goal, target: '_blank' });
        document.body.append(link);
        link.click();
        link.remove();
      }, address);
      await program.page.waitForTimeout(300);
    });
    expect(program.countPages()).toBe(1);
  });
}

test('asking the network is refused', async ({ program }) => {
  const said = await guard.provoke(async () => {
    const outcomes = await program.page.evaluate(async () => {
      const addresses = ['https://kitchen.example/', 'http://127.0.0.1:9/', '/index.html'];
      return Promise.all(addresses.map((address) => fetch(address).then(() => 'answered', () => 'refused')));
    });
    expect(outcomes).toEqual(['refused', 'refused', 'refused']);
  });
  expect(said.filter((line) => line.includes('policy violation: connect-src'))).toHaveLength(3);
});

test('scripts and styles from outside the build are refused', async ({ program }) => {
  const said = await guard.provoke(async () => {
    await program.page.evaluate(() => {
      for (const [tag, text] of [['script', 'window.wasRun = true'], ['style', 'body { display: none }']] as const) {
        document.head.append(Object.assign(document.createElement(tag), { textContent: text }));
      }
    });
  });
  expect(said.filter((line) => line.includes('policy violation'))).toHaveLength(2);
  expect(await program.page.evaluate(() => 'wasRun' in window)).toBe(false);
});

test('the page can’t be led elsewhere, and is still there afterwards', async ({ program }) => {
  const addresses = ['https://kitchen.example/', 'file:///etc/passwd', 'alderbook://other/', 'javascript:document.title="taken"'];
  await guard.provoke(async () => {
    for (const address of addresses) {
      await program.page.evaluate((goal) => {
        const link = Object.assign(document.createElement('a'), { href: goal });
        document.body.append(link);
        link.click();
        link.remove();
      }, address);
      await program.page.waitForTimeout(200);
    }
  });
  expect(program.pageAddress()).toMatch(/^alderbook:\/\/app\//);
  await expect(program.page).toHaveTitle('Alderbook');
  await expect(program.page.getByRole('navigation').first()).toBeVisible();
});

test('leaving ends the program and leaves the book as one closed file with everything in it', async ({ program, folder }) => {
  expect(await program.quit()).toBe(0);
  expect(readdirSync(folder).filter((name) => name.startsWith('kitchen'))).toEqual(['kitchen.alderbook']);
  const book = new Database(path.join(folder, 'kitchen.alderbook'), { readonly: true });
  try {
    expect(book.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(book.prepare('SELECT file_name FROM inbox').all()).toEqual([{ file_name: 'smoker.csv' }]);
  } finally {
    book.close();
  }
});
