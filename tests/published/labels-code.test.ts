/** What the label's symbol holds, through an independent encoder (bwip-js 4.11.4, which checks GS1 syntax itself) and back through an independent decoder. */
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import bwipjs from 'bwip-js/node';
import { beforeAll, describe, expect, it } from 'vitest';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import { readLotCode, type LotCode } from '../../app/packs/lot-code.ts';
import { declareNetWeight, type NetWeight } from '../../app/packs/net-weight.ts';
import { packCode, readGtin } from '../../app/packs/pack-code.ts';
import { readScan } from '../../app/packs/scan-code.ts';

beforeAll(async () => {
  const bytes = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'));
  const wasmBinary = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true });
});

function lot(text: string): LotCode {
  const read = readLotCode(text);
  if (!read.ok) throw new Error(read.problem.message);
  return read.value;
}

function net(grams: number): NetWeight {
  const declared = declareNetWeight(grams, 'random');
  if (!declared.ok) throw new Error(declared.problem.message);
  return declared.value;
}

const DAYS = { packedOn: { year: 2026, month: 7, day: 14 }, bestBy: { year: 2026, month: 10, day: 12 }, useBy: undefined };

async function printAndScan(symbology: string, content: string): Promise<{ modules: number; scanned: string | undefined; symbologyId: string | undefined }> {
  const png = await bwipjs.toBuffer({ bcid: symbology, text: content, scale: 4, paddingwidth: 4, paddingheight: 4, backgroundcolor: 'FFFFFF' });
  const svg = bwipjs.toSVG({ bcid: symbology, text: content, scale: 1, paddingwidth: 0, paddingheight: 0 });
  const modules = Number(/viewBox="0 0 (\d+) /.exec(svg)?.[1]) / 2;
  const [found] = await readBarcodes(new Blob([new Uint8Array(png)]), { formats: ['DataMatrix', 'QRCode'], tryHarder: true });
  return { modules, scanned: found?.text, symbologyId: found?.symbologyIdentifier };
}

describe('the symbol of a pack', () => {
  it.each([
    ['CO26195AE', 14],
    ['CO26195AE-007', 16],
  ])('with %s alone is a plain Data Matrix of %i modules a side', async (text, modules) => {
    const { symbology, content } = packCode(lot(text), net(340), undefined, DAYS);
    expect(await printAndScan(symbology, content)).toEqual({ modules, scanned: text, symbologyId: ']d1' });
  });

  it.each([
    ['CO26195AE', '(01)09520123456788(3103)000340(13)260714(15)261012(10)CO26195AE', 22],
    ['CO26195AE-007', '(01)09520123456788(3103)000340(13)260714(15)261012(10)CO26195AE(21)007', 24],
  ])('of %s with a trade item number is a GS1 Data Matrix with number, weight, days and lot', async (text, elements, modules) => {
    const gtin = readGtin('9520123456788');
    const { symbology, content } = packCode(lot(text), net(340.9), gtin.ok ? gtin.value : undefined, DAYS);
    expect(await printAndScan(symbology, content)).toEqual({ modules, scanned: elements, symbologyId: ']d2' });
    // What the decoder tells is a pack to the cold store's own scanner field.
    const read = readScan(elements);
    if (text.length > 9) expect(read).toMatchObject({ ok: true, value: { code: text, gtin: '09520123456788' } });
    else expect(read.ok).toBe(false);
  });

  it('as a QR code holds the same lot and pack', async () => {
    const { content } = packCode(lot('CO26195AE-007'), net(340), undefined, DAYS);
    expect(await printAndScan('qrcode', content)).toMatchObject({ scanned: 'CO26195AE-007', symbologyId: ']Q1' });
  });

  it('takes no trade item number with a wrong check digit', () => {
    expect(readGtin('09520123456789')).toMatchObject({ ok: false, problem: { field: 'gtin' } });
    expect(readGtin('952012345678')).toMatchObject({ ok: false });
    expect(readGtin('0952 0123 4567 88')).toEqual({ ok: true, value: '09520123456788' });
  });
});
