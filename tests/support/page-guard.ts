/** Listens on a page for everything that a page of ours must never say: policy violations, console messages, errors. */
import { expect } from '@playwright/test';
import type { Page } from '@playwright/test';

export interface PageGuard {
  /** All that was heard so far. */
  readonly heard: readonly string[];
  /** Fails with what was heard, if anything. */
  expectQuiet(): void;
  /** Forgets what was heard while `act` ran, for the few that provoke a violation on purpose; answers it. */
  provoke(act: () => Promise<void>): Promise<readonly string[]>;
}

/** Watches from now on and over every later load; call it before the first `goto`. */
export async function guardPage(page: Page): Promise<PageGuard> {
  const heard: string[] = [];
  page.on('console', (message) => heard.push(`console ${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => heard.push(`error: ${error.stack ?? error.message}`));
  page.on('crash', () => heard.push('the page crashed'));
  const watch = (): void => {
    window.addEventListener('securitypolicyviolation', (event) => {
      console.error(`policy violation: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`);
    });
  };
  await page.addInitScript(watch);
  // A window is open already when its page is handed over: listen in that load too.
  if (page.url() !== 'about:blank') await page.evaluate(watch);
  return {
    heard,
    expectQuiet() {
      expect(heard).toEqual([]);
    },
    async provoke(act) {
      const before = heard.length;
      await act();
      // Violations are told to the page, and messages to us, a little after the deed.
      await page.waitForTimeout(150);
      return heard.splice(before);
    },
  };
}
