/** Sizes of a label's letters and of its symbol, in millimetres. Pure. */
import type { LabelBlock, StoredLabel } from '../../app/contract/requests/packing.ts';
import { IDENTITY_SHARE, LABEL_EDGE_MM } from '../../app/packs/label-content.ts';
import { AS_LARGE_AS_NAME } from '../../app/packs/storage-words.ts';
import { INFORMATION_TYPE_MM, NOT_FOR_SALE_TYPE_MM } from '../../app/packs/type-height.ts';

/** The bundled face's own metrics, of a thousand: capitals 668, lower-case letters 496 (the o is a little higher). */
export const FACE = { capital: 0.668, lowerCaseO: 0.496, ascent: 0.984, descent: 0.316 } as const;
export const LINE_HEIGHT = 1.12;
export const NET_LINE_HEIGHT = 1;
/** Capitals of the words “not for sale”: 3/8 in and a little, so that no rounding in print takes them below it. */
export const NOT_FOR_SALE_CAP_MM = 9.6;
/** What labels of older programs, which kept no heights, were drawn with. */
const OLDER: Readonly<Record<string, { readonly letterMm: number; readonly by: 'capital' | 'lower-case-o' }>> = {
  L01: { letterMm: 3.5, by: 'capital' }, L03: { letterMm: 4.7625, by: 'capital' },
};
const USUAL_MODULE_MM = 0.5;
const DATA_MATRIX_QUIET = 2;
/** ISO/IEC 18004 (from memory). */
const QR_QUIET = 4;

/** The type size at which a block's letters reach the height that the rule asks of it. */
export function leastTypeMm({ element, leastLetterMm, measuredBy }: LabelBlock): number {
  const older = OLDER[element];
  const ruleMm = leastLetterMm ?? older?.letterMm ?? INFORMATION_TYPE_MM;
  const letterMm = ruleMm === NOT_FOR_SALE_TYPE_MM ? NOT_FOR_SALE_CAP_MM : ruleMm;
  const by = measuredBy ?? older?.by ?? 'lower-case-o';
  return letterMm / (by === 'capital' ? FACE.capital : FACE.lowerCaseO);
}

/** Sizes that read well where there is room: the name, and words all in capitals, which may by rule be lower than the rest. */
const EASY_NAME_MM = 5.3;
const EASY_TYPE_MM = INFORMATION_TYPE_MM / FACE.lowerCaseO;

/** How large a label's words are tried, the largest first: so many times what is easy to read, and in the end no larger than the rules ask. */
export const TYPE_SCALES = [1.75, 1.5, 1.25, 1, 0] as const;

/**
 * The type size of every block, in order: what its rule asks, the name no lower than half of the largest, some words no lower than the name.
 * @param scale how many times what is easy to read; 0: no block larger than it must be
 */
export function typeSizesMm(blocks: readonly LabelBlock[], scale: number): readonly number[] {
  const least = blocks.map((block) => Math.max(leastTypeMm(block), scale * (block.element === 'L01' ? EASY_NAME_MM : EASY_TYPE_MM)));
  const nameMm = Math.max(Math.max(...least) * IDENTITY_SHARE, ...blocks.map((block, place) => (block.element === 'L01' ? (least[place] ?? 0) : 0)));
  return blocks.map((block, place) => (block.element === 'L01' || AS_LARGE_AS_NAME.has(block.text) ? Math.max(nameMm, least[place] ?? 0) : (least[place] ?? 0)));
}

/** Free room above the net quantity, beside what its line leaves: as high as its capitals, 21 CFR 101.7(f) (from memory). */
export function clearAboveMm(typeMm: number): number {
  const leftByLine = (NET_LINE_HEIGHT - FACE.ascent - FACE.descent) / 2 + FACE.ascent - FACE.capital;
  return Math.max(0, FACE.capital - leftByLine) * typeMm;
}

/** One dot of the print head. */
export function dotMm({ code: { dots, moduleMm } }: StoredLabel): number {
  return dots === undefined || moduleMm === undefined ? USUAL_MODULE_MM / 4 : moduleMm / dots;
}

/** The next whole dot, so that no edge of a symbol falls within one. */
export function onWholeDots(millimetres: number, dot: number): number {
  return Math.ceil(millimetres / dot - 1e-6) * dot;
}

/** Room between the label's edge and its words, on whole dots. */
export function edgeMm(label: StoredLabel): number {
  return onWholeDots(LABEL_EDGE_MM, dotMm(label));
}

export function moduleMmOf({ code }: StoredLabel): number {
  return code.moduleMm ?? USUAL_MODULE_MM;
}

/** Modules that stay white around a symbol: two of a Data Matrix, where one is asked (ISO/IEC 16022, read), four of a QR code. */
export function quietModules(symbology: string): number {
  return symbology === 'qrcode' ? QR_QUIET : DATA_MATRIX_QUIET;
}
