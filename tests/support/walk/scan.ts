/** Reads a printed symbol back from its pixels with a decoder that knows nothing of the encoder. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Locator } from '@playwright/test';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';

let prepared: Promise<unknown> | undefined;

/** The decoder's bytes come from its package, so that nothing is fetched. */
function prepare(): Promise<unknown> {
  if (prepared === undefined) {
    const bytes = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'));
    const wasmBinary = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
    prepared = prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true });
  }
  return prepared;
}

/** Draws an SVG symbol of the page at 8 px a module and reads it; answers its text and symbology identifier. */
export async function scanSymbol(symbol: Locator): Promise<{ text: string; identifier: string }> {
  await prepare();
  const drawn = await symbol.evaluate(async (element) => {
    const svg = element.cloneNode(true) as SVGSVGElement;
    const [, , width = 0, height = 0] = (svg.getAttribute('viewBox') ?? '').split(' ').map(Number);
    svg.setAttribute('width', String(width * 8));
    svg.setAttribute('height', String(height * 8));
    svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
    const image = new Image();
    image.src = `data:image/svg+xml;base64,${btoa(new XMLSerializer().serializeToString(svg))}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = width * 8;
    canvas.height = height * 8;
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('no canvas');
    context.fillStyle = '#fff';
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(image, 0, 0);
    return canvas.toDataURL('image/png').split(',')[1] ?? '';
  });
  const [found] = await scanPicture(Buffer.from(drawn, 'base64'));
  if (found === undefined) throw new Error('the symbol can’t be read');
  return { text: found.text, identifier: found.identifier };
}

/** What a scanner finds on a picture: text, symbology identifier, and the square that the symbol fills, in pixels. */
export interface Scanned {
  readonly text: string;
  readonly identifier: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Every Data Matrix and QR code on a PNG. */
export async function scanPicture(png: Buffer): Promise<Scanned[]> {
  await prepare();
  const found = await readBarcodes(new Blob([new Uint8Array(png)]), { formats: ['DataMatrix', 'QRCode'], tryHarder: true });
  return found.filter(({ isValid }) => isValid).map(({ text, symbologyIdentifier, position }) => ({
    text, identifier: symbologyIdentifier,
    left: Math.min(position.topLeft.x, position.bottomLeft.x), top: Math.min(position.topLeft.y, position.topRight.y),
    right: Math.max(position.topRight.x, position.bottomRight.x), bottom: Math.max(position.bottomLeft.y, position.bottomRight.y),
  }));
}
