/** Prints what the page shows, through the computer's own print dialog. */
import type { WebContents, WebContentsPrintOptions } from 'electron';
import type { Printed, PrintWanted } from '../../app/contract/bridge-types.ts';
import type { Reply } from '../../app/contract/envelope.ts';
import { fail } from './failures.ts';

const MICRONS_PER_MM = 1000;
/** The smallest and largest sheet that is taken for a real one. */
const SMALLEST_MM = 10;
const LARGEST_MM = 1000;

type Sheet = NonNullable<PrintWanted['sheet']>;

function isLength(value: unknown): value is number {
  return typeof value === 'number' && value >= SMALLEST_MM && value <= LARGEST_MM;
}

/** The sheet in the input of `front.print`: null where none is named; undefined when the input is not one of those. */
export function readSheet(input: unknown): Sheet | null | undefined {
  if (typeof input !== 'object' || input === null) return undefined;
  const keys = Object.keys(input);
  if (keys.length === 0) return null;
  if (keys.length !== 1 || !('sheet' in input) || typeof input.sheet !== 'object' || input.sheet === null) return undefined;
  const { sheet } = input;
  if (Object.keys(sheet).length !== 2 || !('widthMm' in sheet) || !('heightMm' in sheet)) return undefined;
  return isLength(sheet.widthMm) && isLength(sheet.heightMm) ? { widthMm: sheet.widthMm, heightMm: sheet.heightMm } : undefined;
}

/** The options of the print dialog; without a sheet the printer's own paper is taken. */
export function printOptions(sheet: Sheet | null): WebContentsPrintOptions {
  if (sheet === null) return { printBackground: true, usePrinterDefaultPageSize: true };
  return {
    printBackground: true,
    margins: { marginType: 'none' },
    pageSize: { width: Math.round(sheet.widthMm * MICRONS_PER_MM), height: Math.round(sheet.heightMm * MICRONS_PER_MM) },
  };
}

/** Prints; `printed` is false when the person left the dialog. */
export function printPage(contents: WebContents, input: unknown): Promise<Reply<Printed>> {
  const sheet = readSheet(input);
  if (sheet === undefined) {
    return Promise.resolve(fail('INVALID_INPUT', 'To print, give nothing, or a sheet with widthMm and heightMm between 10 and 1000.'));
  }
  return new Promise((resolve) => {
    contents.print(printOptions(sheet), (printed, reason) => {
      if (printed || /cancel/i.test(reason)) resolve({ ok: true, value: { printed } });
      else resolve(fail('DEVICE', 'The printer did not take the page.', 'See that it is switched on, connected and has paper, then print again.'));
    });
  });
}
