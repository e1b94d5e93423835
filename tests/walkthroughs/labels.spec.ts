import { expect } from '@playwright/test';
import { declareNetWeight } from '../../app/packs/net-weight.ts';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { test } from '../support/walk/demo-program.ts';
import { askFrom, chooseLabels, openDemo, printPdf, releasedBatch, showLabels } from '../support/walk/label-walk.ts';
import { greyShare, readPdf, wordsOf, type PrintedPage, type PrintedText } from '../support/walk/pdf.ts';
import { scanPicture } from '../support/walk/scan.ts';

const USUAL_DPI = 203;
/** Of a symbol's pixels. Drawn on whole pixels of the page instead of whole dots it was 6 to 17 in a hundred (tried). */
const MOST_GREY = 0.01;
/** The face's own table OS/2 (sCapHeight 668, sxHeight 496 of 1000): read from the font file, not from the program. */
const FACE = { capital: 0.668, lowerCaseO: 0.496 };
/** Chromium puts letters on 1/64 px. */
const PLAY_MM = 0.02;

/** Least letter heights of the net quantity by the pouch's side, 21 CFR 101.7(i) (from memory; the first two steps in 21 CFR 102.28(b)(2), read). */
const POUCHES = [
  { width: '4', height: '6', stockId: '3x3in', leastMm: 25.4 / 8, heightMm: 152.4 },
  { width: '6', height: '8', stockId: '4x3in', leastMm: (25.4 * 3) / 16, heightMm: 203.2 },
  { width: '10', height: '13', stockId: '4x6in', leastMm: 25.4 / 4, heightMm: 330.2 },
] as const;

function textAt(page: PrintedPage, pattern: RegExp): PrintedText {
  const found = page.texts.find(({ text }) => pattern.test(text));
  if (found === undefined) throw new Error(`nothing like ${String(pattern)} was printed: ${wordsOf(page)}`);
  return found;
}

/** The top of the net quantity's capitals. */
function netTopOf(page: PrintedPage): number {
  const net = textAt(page, /^NET WT \d+\.\d\d lb/);
  return net.baselineMm - net.typeMm * FACE.capital;
}

test('net weights stand as high and as low on the pouch as the rules ask, measured in the printed PDF', async ({ page, program, context }) => {
  await openDemo(page, program.url);
  const batchId = await releasedBatch(page);
  for (const { width, height, stockId, leastMm, heightMm } of POUCHES) {
    await chooseLabels(page, { pouch: { width, height, unit: 'in' } });
    await showLabels(page, batchId, stockId);
    await page.getByLabel(words.labels.why).fill('measured');
    await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeEnabled();
    const printed = await readPdf(context, await printPdf(page), USUAL_DPI);
    expect(printed).toHaveLength(12);
    const [first] = printed;
    if (first === undefined) throw new Error('nothing was printed');
    const { stocks } = await askFrom(page, 'stock.list', {});
    const stock = stocks.find(({ id }) => id === stockId);
    expect(first.widthMm).toBeCloseTo(stock?.widthMm ?? 0, 0);
    expect(Math.abs(first.widthMm - (stock?.widthMm ?? 0))).toBeLessThan(0.25);
    expect(Math.abs(first.heightMm - (stock?.heightMm ?? 0))).toBeLessThan(0.25);

    // Mixed letters: it is the lower-case “o” that must be so high, 21 CFR 101.7(h)(2) (from memory).
    const net = textAt(first, /^NET WT \d+\.\d\d lb/);
    expect(net.typeMm * FACE.lowerCaseO, `${width} × ${height} in`).toBeGreaterThanOrEqual(leastMm - PLAY_MM);
    // 21 CFR 101.2(c) (from memory): nothing required is lower than 1/16 in; words all in capitals by their capitals.
    for (const { text, typeMm } of first.texts.filter((one) => /\p{L}/u.test(one.text))) {
      expect(typeMm * (/\p{Ll}/u.test(text) ? FACE.lowerCaseO : FACE.capital), text).toBeGreaterThanOrEqual(25.4 / 16 - PLAY_MM);
    }
    // FDA’s labeling guide (from memory): the name at least half as high as the largest print.
    const largest = Math.max(...first.texts.map(({ typeMm }) => typeMm));
    expect(textAt(first, /^SMOKED /).typeMm).toBeGreaterThanOrEqual(largest / 2 - PLAY_MM);
    // 21 CFR 101.7(f) (read): clear above by the height of the letters, and nothing beside.
    const netTopMm = netTopOf(first);
    const above = first.texts.filter(({ baselineMm, text }) => text.trim() !== '' && baselineMm < netTopMm);
    expect(netTopMm - Math.max(...above.map(({ baselineMm }) => baselineMm))).toBeGreaterThanOrEqual(net.typeMm * FACE.capital - PLAY_MM);
    expect(first.texts.filter(({ baselineMm, text }) => baselineMm > netTopMm && /\p{L}/u.test(text) && !/NET WT|\d+ g\)/.test(text))).toEqual([]);

    // Stuck where the page says, the whole declaration lies in the bottom 30 % of the pouch's side.
    const said = /at most (\d+\.\d) in above/.exec(await page.locator('.label-above').innerText())?.[1];
    const highestMm = Math.max(...printed.map((sheet) => sheet.heightMm - netTopOf(sheet)));
    const fromFootMm = Number(said) * 25.4 + highestMm;
    expect(fromFootMm, `stuck ${said} in above the edge`).toBeLessThanOrEqual(heightMm * 0.3);
    // … and not much lower than it need be: a tenth of an inch is cut, and a line is a little higher than its capitals.
    expect(fromFootMm + 0.1 * 25.4 + net.typeMm).toBeGreaterThan(heightMm * 0.3);
  }
});

test('a label that no place on the pouch suits isn’t printed, and one larger than the pouch isn’t either', async ({ page, program }) => {
  await openDemo(page, program.url);
  const batchId = await releasedBatch(page);
  await chooseLabels(page, { pouch: { width: '40', height: '3.1', unit: 'in' } });
  await showLabels(page, batchId, '4x3in');
  await page.getByLabel(words.labels.why).fill('torn');
  await expect(page.getByText(words.labels.noPlace)).toBeVisible();
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeDisabled();
  await chooseLabels(page, { pouch: { width: '3.5', height: '6', unit: 'in' } });
  await showLabels(page, batchId, '4x3in');
  await expect(page.getByRole('alert').filter({ hasText: 'larger than the side of the pouch' }).getByRole('link', { name: words.labels.toEnter })).toHaveAttribute('href', '#/office/labels');
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeDisabled();
});

test('every symbol is read back from the printed PDF at 203 and at 300 dots an inch, in whole dots', async ({ page, program, context }) => {
  await openDemo(page, program.url);
  const batchId = await releasedBatch(page);
  const { packs } = await askFrom(page, 'pack.list', { batchId });
  const pouch = { width: '6', height: '8', unit: 'in' } as const;
  for (const dpi of [203, 300] as const) {
    for (const [choice, identifier] of [[{ symbol: 'datamatrix' }, ']d1'], [{ symbol: 'qr' }, ']Q1'], [{ gtin: '9520123456788' }, ']d2']] as const) {
      await chooseLabels(page, { pouch, dpi, ...choice });
      await showLabels(page, batchId, '4x3in');
      // All packs once; of the other symbols and heads one pack each.
      const shown = identifier === ']d1' && dpi === 203 ? packs : packs.slice(4, 5);
      if (shown.length === 1) await page.getByLabel(words.labels.which).selectOption({ label: shown[0]?.code ?? '' });
      await expect(page.locator('.pack-label')).toHaveCount(shown.length);
      const printed = await readPdf(context, await printPdf(page), dpi);
      expect(printed.map(({ widthDots }) => widthDots)).toEqual(shown.map(() => 4 * dpi));
      // Heads sold as 203 dpi have eight dots a millimetre: seen at that, every edge of the symbol lies on a whole dot.
      const [exact] = await readPdf(context, await printPdf(page), dpi === 203 ? 203.2 : 300);
      const [square] = exact === undefined ? [] : await scanPicture(exact.png);
      if (exact === undefined || square === undefined) throw new Error('the symbol can’t be read');
      expect(await greyShare(context, exact.png, square), `${identifier} at ${dpi}`).toBeLessThan(MOST_GREY);
      for (const [index, sheet] of printed.entries()) {
        const pack = shown[index];
        const [symbol, ...others] = await scanPicture(sheet.png);
        expect(others).toEqual([]);
        const lot = pack?.code.slice(0, -4) ?? '';
        const grams = String(declared(pack?.net.grams ?? 0)).padStart(6, '0');
        const message = new RegExp(`^\\(01\\)09520123456788\\(3103\\)${grams}\\(13\\)\\d{6}\\(15\\)\\d{6}\\(10\\)${lot}\\(21\\)${pack?.code.slice(-3) ?? ''}$`);
        expect(symbol?.identifier).toBe(identifier);
        if (identifier === ']d2') expect(symbol?.text).toMatch(message);
        else expect(symbol?.text).toBe(pack?.code);
        expect(wordsOf(sheet)).toContain(`Lot ${pack?.code}`);
      }
    }
  }
});

function declared(grams: number): number {
  const net = declareNetWeight(grams, 'random');
  if (!net.ok) throw new Error(net.problem.message);
  return net.value.printedGrams;
}

test('labels on sheets begin at any position, each where its maker cut it', async ({ page, program, context }) => {
  await openDemo(page, program.url);
  const batchId = await releasedBatch(page);
  await showLabels(page, batchId, 'letter-6-4x3-333in');
  await page.getByLabel(words.labels.startAt).selectOption({ label: words.labels.position(2, 2) });
  const sheets = await readPdf(context, await printPdf(page), USUAL_DPI);
  expect(sheets.map(({ widthMm, heightMm }) => [Math.round(widthMm), Math.round(heightMm)])).toEqual([[216, 279], [216, 279], [216, 279]]);
  const counts = sheets.map(({ texts }) => texts.filter(({ text }) => text.startsWith('SMOKED ')).length);
  expect(counts).toEqual([3, 6, 3]);
  const names = sheets[0]?.texts.filter(({ text }) => text.startsWith('SMOKED ')) ?? [];
  // Words begin 3 mm within each label; columns are 4.1875 in apart, rows 3.3333 in.
  expect(names.map(({ leftMm }) => Math.round(leftMm))).toEqual([Math.round(3.97 + 106.36 + 3), Math.round(3.97 + 3), Math.round(3.97 + 106.36 + 3)]);
  expect((names[1]?.baselineMm ?? 0) - (names[0]?.baselineMm ?? 0)).toBeCloseTo(84.67, 1);
  for (const sheet of sheets) {
    const scanned = await scanPicture(sheet.png);
    expect(scanned).toHaveLength(sheet === sheets[1] ? 6 : 3);
  }
});

test('a stock that can’t hold the words is refused in a sentence, and nothing is cut silently', async ({ page, program }) => {
  const guard = await guardPage(page);
  await openDemo(page, program.url);
  await showLabels(page, await releasedBatch(page), '2x1in');
  await expect(page.getByRole('alert')).toHaveText(words.labels.tooSmall('2 × 1 in'));
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeDisabled();
  guard.expectQuiet();
});

test('words are as large as the label has room for, and none of them is broken', async ({ page, program }) => {
  await openDemo(page, program.url);
  const batchId = await releasedBatch(page);
  const sizes: number[] = [];
  for (const stockId of ['3x2in', '4x3in', '4x6in']) {
    await showLabels(page, batchId, stockId);
    await expect(page.locator('.label-run[data-measured]')).toHaveCount(1);
    sizes.push(await page.locator('.pack-label .L04').first().evaluate((block) => Number.parseFloat(getComputedStyle(block).fontSize)));
    const wide = await page.locator('.pack-label .label-block').evaluateAll((blocks) => blocks.filter((block) => block.clientWidth > 0 && block.scrollWidth > block.clientWidth + 1).length);
    expect(wide, stockId).toBe(0);
  }
  const [small = 0, usual = 0, large = 0] = sizes;
  expect(usual).toBeGreaterThanOrEqual(small);
  expect(large).toBeGreaterThan(usual);
});

test('a reprint asks why, is counted, and what was printed stays as it was', async ({ page, program }) => {
  await page.addInitScript(() => { window.print = () => undefined; });
  await openDemo(page, program.url);
  const batchId = await releasedBatch(page);
  await showLabels(page, batchId, '4x3in');
  const [first] = (await askFrom(page, 'pack.list', { batchId })).packs;
  await page.getByLabel(words.labels.which).selectOption({ label: first?.code ?? '' });
  await expect(page.locator('.pack-label')).toHaveCount(1);
  await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeDisabled();
  await page.getByLabel(words.labels.why).fill('torn in the freezer');
  const shown = await page.locator('.pack-label').innerText();
  await page.getByRole('button', { name: words.print.printAndKeep }).click();
  await expect.poll(async () => (await askFrom(page, 'pack.list', { batchId })).packs[0]?.printedCount).toBe((first?.printedCount ?? 0) + 1);
  await chooseLabels(page, { mark: { kind: 'text', text: 'Another mark' } });
  await page.getByRole('link', { name: words.labels.prints }).click();
  await expect(page.getByText(words.labels.printWhy('torn in the freezer'))).toBeVisible();
  await page.getByRole('link', { name: new RegExp(`^${first?.code}`) }).first().click();
  await expect(page.getByRole('heading', { name: words.labels.kept(first?.code ?? '') })).toBeVisible();
  expect(await page.locator('.pack-label').innerText()).toBe(shown);
});

test('a name of 200 letters, another script and markup is printed exactly, or refused where the stock can’t hold it', async ({ page, program, context }) => {
  const guard = await guardPage(page);
  await openDemo(page, program.url);
  const batchId = await releasedBatch(page);
  const { kitchen: { demo: _demo, labels: _labels, ...kitchen } } = await askFrom(page, 'office.get', {});
  for (const name of [`${'Åsa’s Lachs & Räucherhaus '.repeat(8)}`.slice(0, 199).trim(), 'Тамарак Нэрроуз', '<b>Narrows</b> <script>alert(1)</script> &amp;']) {
    await askFrom(page, 'office.saveKitchen', { ...kitchen, name });
    await showLabels(page, batchId, '4x6in');
    await page.getByLabel(words.labels.why).fill('renamed');
    await expect(page.getByRole('button', { name: words.print.printAndKeep })).toBeEnabled();
    await expect(page.locator('.pack-label .L06').first()).toHaveText(new RegExp(`^${name.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')}, 1 Narrows`));
    const [first] = await readPdf(context, await printPdf(page), USUAL_DPI);
    // Lines of print are joined without their breaks: only letters and signs are compared.
    const printed = (first?.texts ?? []).map(({ text }) => text).join('').replaceAll(/\s/g, '');
    expect(printed).toContain(name.replaceAll(/\s/g, ''));
  }
  await askFrom(page, 'office.saveKitchen', { ...kitchen, name: 'Räucherei '.repeat(20).trim() });
  await showLabels(page, batchId, '3x2in');
  await expect(page.getByText(words.labels.tooSmall('3 × 2 in'))).toBeVisible();
  guard.expectQuiet();
});
