/** A Playwright test that has the demonstration kitchen running behind a browser front of its own. */
import { writeFileSync } from 'node:fs';
import { expect, test as base } from '@playwright/test';
import type { Page, TestInfo } from '@playwright/test';
import { startProgram, type RunningProgram } from '../program.ts';
import type { Fronts } from './first-smoke.ts';

export const test = base.extend<{ program: RunningProgram }>({
  // Playwright wants a fixture's needs taken apart, also where there are none to speak of.
  program: async ({ browserName: _any }, lend) => {
    const program = await startProgram({ demo: true });
    await lend(program);
    expect(await program.stop()).toBe(0);
  },
});

/** Counts the pages printed from now on, in place of the browser's own print dialog. Call it before the first `goto`. */
async function countPagePrints(page: Page): Promise<() => Promise<number>> {
  let count = 0;
  await page.exposeFunction('tellPrinted', () => {
    count += 1;
  });
  await page.addInitScript(() => {
    window.print = () => (window as unknown as { tellPrinted(): void }).tellPrinted();
  });
  return () => Promise.resolve(count);
}

/** What a walk needs of the browser front: a file chosen in the page's own dialog, and its prints. */
export async function browserFronts(page: Page, info: TestInfo): Promise<Fronts> {
  const countPrints = await countPagePrints(page);
  return {
    page,
    countPrints,
    async chooseFile(tap, fileName, text) {
      const file = info.outputPath(fileName);
      writeFileSync(file, text);
      const chooser = page.waitForEvent('filechooser');
      await tap();
      await (await chooser).setFiles(file);
    },
  };
}
