import { expect, test } from '@playwright/test';
import type { WindowBridge } from '../../app/contract/bridge-types.ts';
import { EVENT_CHANNEL, FRONT_NAMES, REQUEST_CHANNEL, REQUEST_NAMES } from '../../app/contract/names.ts';
import { makeSurface } from '../../main/preload/surface.ts';
import { contentPolicy, protectiveHeaders } from '../../main/window/content-policy.ts';
import { readMeta } from '../../main/window/meta.ts';
import { mayBeAsked } from '../../main/window/navigation.ts';
import { windowOptions } from '../../main/window/options.ts';
import { isOwnPage } from '../../main/window/own-page.ts';
import { printOptions, readSheet } from '../../main/window/print-page.ts';
import { isTrustedSender } from '../../main/window/trusted-sender.ts';
import { readWantedEndings } from '../../main/window/wanted-endings.ts';

test('the window is sandboxed, isolated, without Node, and leaves every other safeguard as Electron has it', () => {
  expect(windowOptions('/x/preload.cjs').webPreferences).toEqual({
    preload: '/x/preload.cjs',
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    spellcheck: false,
  });
});

test('the two fronts have the same content policy but for connections', () => {
  const rest = "object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
  const start = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'";
  expect(contentPolicy('window')).toBe(`${start}; connect-src 'none'; ${rest}`);
  expect(contentPolicy('browser')).toBe(`${start}; connect-src 'self'; ${rest}`);
  expect(protectiveHeaders('window')['Content-Security-Policy']).toBe(contentPolicy('window'));
});

test('only exactly our address is a page of ours', () => {
  const ours = ['alderbook://app/', 'alderbook://app/index.html', 'alderbook://app/#/office', 'alderbook://app', 'ALDERBOOK://app/'];
  const others = [
    'alderbook://other/', 'alderbook://app.kitchen.example/', 'alderbook://app:80/', 'alderbook://me@app/', 'alderbook://me:pw@app/',
    'alderbook:app/', 'alderbook:///app/', 'alderbook://', 'alderbooks://app/', 'https://app/', 'https://alderbook/', 'http://alderbook//app/',
    'file:///alderbook://app/', 'javascript:alert(1)//alderbook://app/', 'data:text/html,alderbook://app/', 'blob:alderbook://app/x',
    'about:blank', '', 'nonsense', ' ',
  ];
  expect(ours.filter((address) => !isOwnPage(address))).toEqual([]);
  expect(others.filter((address) => isOwnPage(address))).toEqual([]);
});

test('nothing outside the program may be asked for', () => {
  const inside = ['alderbook://app/assets/a.js', 'data:image/png;base64,AA==', 'blob:alderbook://app/1', 'devtools://devtools/bundled/x.js'];
  const outside = ['https://kitchen.example/', 'http://127.0.0.1/', 'ws://127.0.0.1/', 'file:///etc/passwd', 'alderbook://other/', 'ftp://x/', 'chrome://settings', ''];
  expect(inside.filter((address) => !mayBeAsked(address))).toEqual([]);
  expect(outside.filter((address) => mayBeAsked(address))).toEqual([]);
});

test('only the top frame of our window, on a page of ours, may ask', () => {
  const frame = { url: 'alderbook://app/', parent: null };
  const rows: readonly [string, boolean, Parameters<typeof isTrustedSender>[0]][] = [
    ['our page', true, { sender: { id: 7 }, senderFrame: frame }],
    ['another window', false, { sender: { id: 8 }, senderFrame: frame }],
    ['a frame inside our page', false, { sender: { id: 7 }, senderFrame: { ...frame, parent: frame } }],
    ['a page that is not ours', false, { sender: { id: 7 }, senderFrame: { ...frame, url: 'https://kitchen.example/' } }],
    ['a frame that is gone', false, { sender: { id: 7 }, senderFrame: null }],
  ];
  for (const [what, isTrusted, event] of rows) expect(isTrustedSender(event, 7), what).toBe(isTrusted);
});

test('what comes with a request has exactly two keys of the right kind', () => {
  expect(readMeta({ commandId: 'c', personId: null })).toEqual({ commandId: 'c', personId: null });
  const wrong: unknown[] = [
    null, undefined, 'x', 7, [], {}, { commandId: null }, { commandId: 1, personId: null }, { commandId: '', personId: null },
    { commandId: null, personId: 'x'.repeat(101) }, { commandId: null, personId: null, front: 'browser' }, { commandId: undefined, personId: null },
  ];
  for (const value of wrong) expect(readMeta(value), JSON.stringify(value)).toBeNull();
});

test('a sheet to print on has a width and a height of a real sheet', () => {
  expect(readSheet({})).toBeNull();
  expect(readSheet({ sheet: { widthMm: 62, heightMm: 100 } })).toEqual({ widthMm: 62, heightMm: 100 });
  const wrong: unknown[] = [
    null, undefined, 'A4', { sheet: null }, { sheet: {} }, { sheet: { widthMm: 62 } }, { sheet: { widthMm: 0, heightMm: 100 } }, { sheet: { widthMm: 62, heightMm: 1001 } },
    { sheet: { widthMm: '62', heightMm: 100 } }, { sheet: { widthMm: Number.NaN, heightMm: 100 } }, { sheet: { widthMm: 62, heightMm: 100, copies: 9 } },
    { sheet: { widthMm: 62, heightMm: 100 }, silent: true },
  ];
  for (const value of wrong) expect(readSheet(value), JSON.stringify(value)).toBeUndefined();
});

test('a sheet reaches the printer in whole microns, without margins', () => {
  expect(printOptions({ widthMm: 101.6, heightMm: 76.2 })).toEqual({ printBackground: true, margins: { marginType: 'none' }, pageSize: { width: 101_600, height: 76_200 } });
  expect(printOptions(null)).toEqual({ printBackground: true, usePrinterDefaultPageSize: true });
});

test('the endings of wanted files are read as a file input has them', () => {
  expect(readWantedEndings({})).toEqual([]);
  expect(readWantedEndings({ accept: '.csv, .txt,text/csv' })).toEqual(['csv', 'txt']);
  expect(readWantedEndings({ accept: '' })).toEqual([]);
  for (const value of [null, undefined, '.csv', { accept: 1 }, { accept: '.csv', path: '/etc' }]) expect(readWantedEndings(value), JSON.stringify(value)).toBeNull();
  expect(readWantedEndings({ accept: '.*,../x,.a b' })).toEqual([]);
});

test('the preload asks on one channel, listens on one, and hands on nothing but payloads', async () => {
  const sent: unknown[][] = [];
  const listeners = new Set<(event: unknown, payload: unknown) => void>();
  const surface = makeSurface({
    invoke: async (...values) => { sent.push(values); return { ok: true, value: 1 }; },
    on: (channel, listener) => { sent.push(['on', channel]); listeners.add(listener); },
    removeListener: (_channel, listener) => listeners.delete(listener),
  });
  expect(Object.keys(surface).sort()).toEqual(['request', 'subscribe']);
  expect(await surface.request('line.get', { a: 1 })).toEqual({ ok: true, value: 1 });
  await surface.request('front.print', {}, { commandId: 'c', personId: 'p' });
  const heard: unknown[][] = [];
  const unsubscribe = surface.subscribe((...values: unknown[]) => heard.push(values));
  for (const listener of listeners) listener({ sender: 'secret' }, { seq: 1 });
  unsubscribe();
  expect(listeners.size).toBe(0);
  expect(heard).toEqual([[{ seq: 1 }]]);
  expect(sent).toEqual([
    [REQUEST_CHANNEL, 'line.get', { a: 1 }, { commandId: null, personId: null }],
    [REQUEST_CHANNEL, 'front.print', {}, { commandId: 'c', personId: 'p' }],
    ['on', EVENT_CHANNEL],
  ]);
});

test('the preload knows every name of the contract and no other', async () => {
  const asked: unknown[] = [];
  const surface = makeSurface({ invoke: async (_channel, name) => { asked.push(name); }, on: () => undefined, removeListener: () => undefined });
  for (const name of [...REQUEST_NAMES, ...FRONT_NAMES]) await surface.request(name, {});
  expect(asked).toEqual([...REQUEST_NAMES, ...FRONT_NAMES]);
  const ask = surface.request as (name: string, input: unknown) => Promise<unknown>;
  for (const name of ['', 'line.GET', 'toString', '__proto__', 'front.readFile']) expect(() => ask(name, {})).toThrow('no request of this name');
});

test('what the preload puts into the page is what pages are written against', () => {
  const channels = { invoke: async () => undefined, on: () => undefined, removeListener: () => undefined };
  // The envelope and the events are checked where they are made; here the shapes of the two functions must agree.
  const surface: { [K in keyof WindowBridge]: (...values: never[]) => unknown } = makeSurface(channels);
  const request: (...values: Parameters<WindowBridge['request']>) => unknown = makeSurface(channels).request;
  expect([typeof surface.subscribe, typeof request]).toEqual(['function', 'function']);
});
