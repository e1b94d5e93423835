/** A printed PDF looked at by pdf.js in a page of its own: its texts with size and place, and its pixels at a printer's resolution. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { BrowserContext } from '@playwright/test';

const ORIGIN = 'http://pdf.test/';

/** A text as it stands on the page, in millimetres from the upper left corner. */
export interface PrintedText {
  readonly text: string;
  readonly leftMm: number;
  readonly widthMm: number;
  /** From the top of the page to the line that the letters stand on. */
  readonly baselineMm: number;
  /** The type size. */
  readonly typeMm: number;
}

export interface PrintedPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly texts: readonly PrintedText[];
  /** PNG at the resolution asked for. */
  readonly png: Buffer;
  readonly widthDots: number;
  readonly heightDots: number;
}

/** Reads every page of a PDF. `dpi` is the resolution of the pixels. */
export async function readPdf(context: BrowserContext, pdf: Buffer, dpi: number): Promise<readonly PrintedPage[]> {
  const page = await context.newPage();
  const library = readFileSync(path.join(path.dirname(createRequire(import.meta.url).resolve('unpdf')), 'pdfjs.mjs'));
  await page.route(`${ORIGIN}**`, (route) => route.fulfill(
    route.request().url().endsWith('.mjs') ? { contentType: 'text/javascript', body: library } : { contentType: 'text/html', body: '<!doctype html>' },
  ));
  await page.goto(ORIGIN);
  const pages = await page.evaluate(async ({ base64, resolution, address }) => {
    const pdfjs = await import(address);
    const document = await pdfjs.getDocument({ data: Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)) }).promise;
    const found = [];
    for (let number = 1; number <= document.numPages; number += 1) {
      const sheet = await document.getPage(number);
      const [, , width, height] = sheet.view;
      const viewport = sheet.getViewport({ scale: resolution / 72 });
      const canvas = window.document.createElement('canvas');
      canvas.width = Math.round(viewport.width);
      canvas.height = Math.round(viewport.height);
      await sheet.render({ canvasContext: canvas.getContext('2d'), canvas, viewport }).promise;
      const { items } = await sheet.getTextContent();
      found.push({
        width, height, widthDots: canvas.width, heightDots: canvas.height, png: canvas.toDataURL('image/png').split(',')[1] ?? '',
        items: items.map((item: { str: string; width: number; transform: number[] }) => ({ text: item.str, width: item.width, transform: item.transform })),
      });
    }
    return found;
  }, { base64: pdf.toString('base64'), resolution: dpi, address: `${ORIGIN}pdf.mjs` });
  await page.close();
  return pages.map(({ width, height, widthDots, heightDots, png, items }) => ({
    widthMm: inMm(width), heightMm: inMm(height), widthDots, heightDots, png: Buffer.from(png, 'base64'),
    texts: items.map(({ text, width: textWidth, transform: [, , , size = 0, x = 0, y = 0] }: { text: string; width: number; transform: number[] }) => ({
      text, leftMm: inMm(x), widthMm: inMm(textWidth), baselineMm: inMm(height - y), typeMm: inMm(size),
    })),
  }));
}

/** The texts of a page joined as they follow each other, with single spaces. */
export function wordsOf({ texts }: PrintedPage): string {
  return texts.map(({ text }) => text).join(' ').replaceAll(/\s+/g, ' ').trim();
}

/** The share of pixels of a square that are neither black nor white: edges that don't lie on whole dots. */
export async function greyShare(context: BrowserContext, png: Buffer, square: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }): Promise<number> {
  const page = await context.newPage();
  const share = await page.evaluate(async ({ base64, left, top, width, height }) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.width;
    canvas.height = image.height;
    const context2d = canvas.getContext('2d');
    if (context2d === null) throw new Error('no canvas');
    context2d.drawImage(image, 0, 0);
    const { data } = context2d.getImageData(left, top, width, height);
    let grey = 0;
    for (let at = 0; at < data.length; at += 4) if ((data[at] ?? 0) > 63 && (data[at] ?? 0) < 192) grey += 1;
    return grey / (data.length / 4);
  }, { base64: png.toString('base64'), left: square.left, top: square.top, width: square.right - square.left, height: square.bottom - square.top });
  await page.close();
  return share;
}

/** A point of print is 1/72 in. */
function inMm(points: number): number {
  return (points / 72) * 25.4;
}
