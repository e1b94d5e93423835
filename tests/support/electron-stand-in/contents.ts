/** One page of the program: `webContents`, over a page of Playwright. */
import { EventEmitter } from 'node:events';
import type { Frame, Page, Request as PageRequest, Route } from '@playwright/test';
import { fromWeb, toWeb } from './addresses.ts';
import { installPreload } from './preload.ts';
import { noteCall } from './record.ts';
import { needContext, passesFilter, stage } from './stage.ts';

interface OpenDecision {
  readonly action: 'deny' | 'allow';
}

/** An event of Electron's that can be prevented. */
export function preventable<T extends object>(about: T): T & { preventDefault(): void; readonly defaultPrevented: boolean } {
  let isPrevented = false;
  return Object.defineProperty(
    { ...about, preventDefault() { isPrevented = true; }, defaultPrevented: false },
    'defaultPrevented',
    { get: () => isPrevented },
  );
}

/** The frame of a request; null for the first request of a popup, which Playwright knows no frame of. */
function frameOf(request: PageRequest): Frame | null {
  try {
    return request.frame();
  } catch {
    return null;
  }
}

let lastId = 0;

export class StandInContents extends EventEmitter {
  readonly id = ++lastId;
  readonly #preloadFile: string;
  #decideOpening: (details: { url: string }) => OpenDecision = () => ({ action: 'allow' });
  #page: Page | null = null;
  #isOwnNavigation = false;
  #sendToPage: ((channel: string, payload: unknown) => Promise<void>) | null = null;

  constructor(preloadFile: string) {
    super();
    this.#preloadFile = preloadFile;
  }

  get page(): Page | null {
    return this.#page;
  }

  setWindowOpenHandler(decide: (details: { url: string }) => OpenDecision): void {
    this.#decideOpening = decide;
  }

  /** Sends an event; one to a page that is just leaving is lost, as in Electron. */
  send(channel: string, payload: unknown): void {
    this.#sendToPage?.(channel, structuredClone(payload)).catch(() => noteCall('webContents.send lost', channel));
  }

  print(options: unknown, done: (success: boolean, reason: string) => void): void {
    noteCall('webContents.print', options);
    setImmediate(() => done(true, ''));
  }

  /** Opens an address of the program in a new page of the browser. */
  async open(address: string): Promise<Page> {
    const context = needContext();
    const page = await context.newPage();
    this.#page = page;
    context.on('page', (popup) => this.#meetPopup(popup));
    await context.route('**/*', (route) => this.#answer(route));
    this.#sendToPage = await installPreload(page, this.#preloadFile, (channel, values, frame) => this.#invoke(channel, values, frame));
    this.#isOwnNavigation = true;
    await page.goto(toWeb(address));
    return page;
  }

  /** Whether the program lets a new window open. */
  #mayOpen(address: string): boolean {
    const { action } = this.#decideOpening({ url: address });
    noteCall('window.open', address, action);
    return action === 'allow';
  }

  /** An empty popup is met as a page. */
  #meetPopup(popup: Page): void {
    if (popup.url() === 'about:blank' && !this.#mayOpen('about:blank')) void popup.close();
  }

  /** One with an address is met by its first request: refused there, it never becomes a page; let go, it is an empty one. */
  async #answerPopup(route: Route, address: string): Promise<void> {
    if (this.#mayOpen(address)) await route.fulfill({ status: 200, contentType: 'text/html', body: '' });
    else await route.abort('aborted');
  }

  #invoke(channel: string, values: readonly unknown[], frame: Frame): Promise<unknown> {
    const handler = stage.channelHandlers.get(channel);
    if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
    const parent = frame.parentFrame();
    const event = { sender: this, senderFrame: { url: fromWeb(frame.url()), parent: parent === null ? null : { url: fromWeb(parent.url()) } } };
    return Promise.resolve(handler(event, ...values));
  }

  /** Whether the program lets its main frame go to this address. */
  #mayNavigate(request: PageRequest, frame: Frame, address: string): boolean {
    if (!request.isNavigationRequest() || frame.parentFrame() !== null) return true;
    if (this.#isOwnNavigation) {
      this.#isOwnNavigation = false;
      return true;
    }
    const event = preventable({ url: address });
    this.emit('will-navigate', event, address);
    noteCall('will-navigate', address, event.defaultPrevented ? 'prevented' : 'let go');
    return !event.defaultPrevented;
  }

  async #answer(route: Route): Promise<void> {
    const request = route.request();
    const address = fromWeb(request.url());
    const frame = frameOf(request);
    if (frame === null) return this.#answerPopup(route, address);
    if (!this.#mayNavigate(request, frame, address)) return route.abort('aborted');
    const handler = stage.schemeHandlers.get(new URL(address).protocol);
    if (handler === undefined || !(await passesFilter(address))) {
      noteCall('network refused', address);
      return route.abort('blockedbyclient');
    }
    const response = await handler(new Request(address, { method: request.method() }));
    await route.fulfill({
      status: response.status,
      headers: Object.fromEntries(response.headers),
      body: Buffer.from(await response.arrayBuffer()),
    });
  }
}
