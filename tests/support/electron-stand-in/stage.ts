/** What the stand-in's objects share: the browser context the windows open in, and what the program registered. */
import type { BrowserContext } from '@playwright/test';

export type SchemeHandler = (request: Request) => Promise<Response> | Response;
export type RequestFilter = (details: { url: string }, answer: (verdict: { cancel?: boolean }) => void) => void;
export type ChannelHandler = (event: unknown, ...values: unknown[]) => unknown;

interface Stage {
  context: BrowserContext | null;
  /** False until the program's entry has been read to its end, as in Electron. */
  isReady: boolean;
  readonly privilegedSchemes: Set<string>;
  readonly schemeHandlers: Map<string, SchemeHandler>;
  readonly channelHandlers: Map<string, ChannelHandler>;
  requestFilter: RequestFilter | null;
}

export const stage: Stage = {
  context: null,
  isReady: false,
  privilegedSchemes: new Set(),
  schemeHandlers: new Map(),
  channelHandlers: new Map(),
  requestFilter: null,
};

/** Throws as Electron does for what may only happen after it is ready. */
export function needReady(what: string): void {
  if (!stage.isReady) throw new Error(`${what} can only be used after the app is ready.`);
}

/** The context of the windows. Throws when the driver has set none. */
export function needContext(): BrowserContext {
  if (stage.context === null) throw new Error('The stand-in was given no browser.');
  return stage.context;
}

/** Whether the program's own filter lets an address be asked for. */
export function passesFilter(address: string): Promise<boolean> {
  const { requestFilter } = stage;
  if (requestFilter === null) return Promise.resolve(true);
  return new Promise((resolve) => requestFilter({ url: address }, ({ cancel }) => resolve(cancel !== true)));
}
