/**
 * Runs the unmodified preload file in the page, before the page's own scripts, with a `require` that
 * knows only Electron's two objects. It can't show the isolation of worlds: here both share one.
 */
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Frame, Page } from '@playwright/test';

/** Called for each message of the page: answers what the main process answers. */
export type Invoke = (channel: string, values: readonly unknown[], frame: Frame) => Promise<unknown>;

/** Refuses what Electron's sandboxed loader would refuse. */
function readCommonJs(file: string): string {
  const text = readFileSync(file, 'utf8');
  if (!file.endsWith('.cjs') || /^\s*(import|export)\s/m.test(text)) throw new Error('A sandboxed preload must be CommonJS.');
  return text;
}

function pageScript(source: string, secret: string): string {
  return `(() => {
    if (window.top !== window) return;
    const invoke = window[${JSON.stringify(secret)}];
    delete window[${JSON.stringify(secret)}];
    const listeners = new Map();
    const electron = {
      contextBridge: {
        exposeInMainWorld(name, surface) {
          Object.defineProperty(window, name, { value: Object.freeze({ ...surface }), enumerable: true });
        },
      },
      ipcRenderer: {
        invoke: (channel, ...values) => invoke({ channel, values }),
        on(channel, listener) { listeners.set(channel, [...(listeners.get(channel) ?? []), listener]); },
        removeListener(channel, listener) { listeners.set(channel, (listeners.get(channel) ?? []).filter((one) => one !== listener)); },
      },
    };
    Object.defineProperty(window, ${JSON.stringify(`${secret}-hear`)}, {
      value: (channel, payload) => { for (const listener of listeners.get(channel) ?? []) listener({}, payload); },
    });
    const require = (name) => {
      if (name === 'electron') return electron;
      throw new Error('A sandboxed preload can load only electron, not ' + name + '.');
    };
    const module = { exports: {} };
    ((require, module, exports) => {
${source}
    })(require, module, module.exports);
  })();`;
}

/** Installs the preload for every load of the page; answers how to send an event to it. */
export async function installPreload(page: Page, file: string, invoke: Invoke): Promise<(channel: string, payload: unknown) => Promise<void>> {
  const secret = `stand-in-${randomBytes(8).toString('hex')}`;
  const source = readCommonJs(file);
  await page.exposeBinding(secret, ({ frame }, message: { channel: string; values: unknown[] }) => invoke(message.channel, message.values, frame));
  await page.addInitScript({ content: pageScript(source, secret) });
  return async (channel, payload) => {
    await page.evaluate(
      ([name, sentChannel, sentPayload]) => {
        const hear: unknown = Reflect.get(window, `${String(name)}-hear`);
        if (typeof hear === 'function') hear(sentChannel, sentPayload);
      },
      [secret, channel, payload] as const,
    );
  };
}
