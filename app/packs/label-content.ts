/**
 * A label as it is kept and printed: its texts with the least height of their letters and their
 * panel, its symbol with a module in whole dots, and the stock it goes on. Drawing is not done here.
 */
import type { Jurisdiction, LabelBlock, LabelCode, LabelGap, LabelPreview } from './label-types.ts';
import { AS_LARGE_AS_NAME } from './storage-words.ts';
import { WANTED_MODULE_MM, chooseModule, type SymbolModule } from './symbol-size.ts';
import {
  INFORMATION_TYPE_MM, NET_QUANTITY_FOOT_SHARE, NOT_FOR_SALE_TYPE_MM, hasFootRule, leastNetTypeMm, panelFromInches, panelFromMillimetres,
} from './type-height.ts';

/** A kind of label in the printer. */
export interface LabelStock {
  readonly id: string;
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** A block with what the drawing must keep to. */
export interface PlacedBlock extends LabelBlock {
  /** Principal: seen when the pack is looked at. Information: may stand beside or below it. */
  readonly panel: 'principal' | 'information';
  readonly isBold: boolean;
  readonly leastLetterMm: number;
  /** Which letter must reach that height: capitals where the text has no small letters (21 CFR 101.7(h), from memory). */
  readonly measuredBy: 'capital' | 'lower-case-o';
}

export interface LabelContent {
  readonly kind: 'sale' | 'custom';
  readonly jurisdiction: Jurisdiction;
  readonly stock: LabelStock;
  readonly blocks: readonly PlacedBlock[];
  readonly missing: readonly LabelGap[];
  /** The label's own code, or the same content as a QR code. */
  readonly code: { readonly symbology: LabelCode['symbology'] | 'qrcode'; readonly content: string } & SymbolModule;
  /** The net quantity stands within this share of the panel from its foot; null where no rule says so. */
  readonly netQuantityFootShare: number | null;
}

/** What a label is placed on. The label must lie on the pouch: see `tooLargeForPouch`. */
export interface LabelPlacing {
  readonly jurisdiction: Jurisdiction;
  readonly stock: LabelStock;
  /** The side of the pouch that shows the label; without it a side of up to 100 sq in is taken. */
  readonly pouch?: { readonly widthMm: number; readonly heightMm: number } | undefined;
  readonly dotsPerMm: number;
}

const PRINCIPAL_ELEMENTS: ReadonlySet<string> = new Set(['L01', 'L02', 'L03', 'L08']);
const USUAL_POUCH = panelFromInches(10, 10);
/** FDA's labeling guide: the identity at least half as high as the largest print of its panel (from memory). */
export const IDENTITY_SHARE = 0.5;
/** Room between a label's edge and its words. */
export const LABEL_EDGE_MM = 3;

/**
 * Adds to a label's texts what the drawing needs.
 * @param label as composed
 * @param placing stock, pouch (its side decides the size of the net quantity, never the sticker) and print head
 */
export function placeLabel(label: LabelPreview, placing: LabelPlacing): LabelContent {
  const isCustom = label.blocks[0]?.element === 'L15';
  const panel = placing.pouch === undefined ? USUAL_POUCH : panelFromMillimetres(placing.pouch.widthMm, placing.pouch.heightMm);
  const netTypeMm = isCustom ? INFORMATION_TYPE_MM : leastNetTypeMm(panel);
  const largestMm = isCustom ? NOT_FOR_SALE_TYPE_MM : netTypeMm;
  const nameMm = Math.max(INFORMATION_TYPE_MM, largestMm * IDENTITY_SHARE);
  return {
    kind: isCustom ? 'custom' : 'sale',
    jurisdiction: placing.jurisdiction,
    stock: placing.stock,
    blocks: label.blocks.map((block, place) => placeBlock(block, isCustom && place === 0, { netTypeMm, nameMm })),
    missing: label.missing,
    code: { ...label.code, ...chooseModule(WANTED_MODULE_MM, placing.dotsPerMm) },
    netQuantityFootShare: !isCustom && hasFootRule(panel) ? NET_QUANTITY_FOOT_SHARE : null,
  };
}

function placeBlock(block: LabelBlock, isFrontLine: boolean, sizes: { netTypeMm: number; nameMm: number }): PlacedBlock {
  return {
    ...block,
    panel: isFrontLine || PRINCIPAL_ELEMENTS.has(block.element) ? 'principal' : 'information',
    isBold: isFrontLine || block.element === 'L01',
    leastLetterMm: isFrontLine ? NOT_FOR_SALE_TYPE_MM : leastLetterMm(block, sizes),
    // The name is as high as half of the largest print, capitals against capitals.
    measuredBy: block.element !== 'L01' && /\p{Ll}/u.test(block.text) ? 'lower-case-o' : 'capital',
  };
}

function leastLetterMm({ element, text }: LabelBlock, { netTypeMm, nameMm }: { netTypeMm: number; nameMm: number }): number {
  if (element === 'L03') return netTypeMm;
  return element === 'L01' || AS_LARGE_AS_NAME.has(text) ? nameMm : INFORMATION_TYPE_MM;
}

/** A sentence where the label is larger than the side of the pouch it goes on; undefined where it fits. */
export function tooLargeForPouch({ stock, pouch }: Pick<LabelPlacing, 'stock' | 'pouch'>): string | undefined {
  if (pouch === undefined || (stock.widthMm <= pouch.widthMm && stock.heightMm <= pouch.heightMm)) return undefined;
  return `A label of ${stock.name} is larger than the side of the pouch. Choose a smaller label, or enter the size of the pouch.`;
}
