import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect } from '@playwright/test';
import { guardPage } from '../support/page-guard.ts';
import { packAndFile, smokeABatch, type Fronts } from '../support/walk/first-smoke.ts';
import { makeSmokeLog } from '../support/walk/smoke-csv.ts';
import { test } from '../support/window-program.ts';

test.use({ startName: 'first-smoke', startsWithDemo: true });

test('one batch goes from the fish coming in to labelled packs and its record in the window', async ({ program, folder }) => {
  const guard = await guardPage(program.page);
  const log = makeSmokeLog(Date.now() - 10 * 60_000);
  const fronts: Fronts = {
    page: program.page,
    async chooseFile(tap, fileName, text) {
      const file = path.join(folder, fileName);
      writeFileSync(file, text);
      await program.answerNextOpenDialog([file]);
      await tap();
    },
    countPrints: async () => (await program.listPrints()).length,
  };
  const hand = await smokeABatch(fronts, log);
  await packAndFile(fronts, hand, log);
  expect((await program.listPrints()).at(-1)).toMatchObject({ pageSize: { width: 101_600, height: 152_400 } });
  guard.expectQuiet();
});
