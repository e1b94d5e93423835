/** What a pack's label says, composed from the record of its batch and placed on its stock. */
import type { LabelChoice } from '../../../app/contract/requests/label-choice.ts';
import type { LabelPlace, Pack, Stock, StoredLabel } from '../../../app/contract/requests/packing.ts';
import { composeLabel } from '../../../app/packs/compose-label.ts';
import { drawnGaps, labelChecks } from '../../../app/packs/label-checks.ts';
import { placeLabel, tooLargeForPouch, type LabelContent } from '../../../app/packs/label-content.ts';
import type { LabelGap, LabelInput } from '../../../app/packs/label-types.ts';
import { DOTS_PER_MM_203, DOTS_PER_MM_300 } from '../../../app/packs/symbol-size.ts';
import { panelFromMillimetres, panelSquareInches } from '../../../app/packs/type-height.ts';
import { canonicalJson, sha256Hex } from '../book/canonical.ts';
import type { StoredBatch } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { choiceOf } from './label-choice.ts';
import { labelInput, ownerOf } from './label-input.ts';
import { needStock } from './label-stocks.ts';
import { refuseUnreleased } from './release.ts';

/** What the record of custom fish wants beside the name; the pack may go without, so it is told as a caution: WAC 220-305-110(3) (read). */
const RECORD_GAP = 'L15';
const NUTRITION_GAP = 'L07';
/** The ground “small pack”: less than 12 square inches to bear a label, 21 CFR 101.9(j)(13) (from memory). */
const SMALL_PACK_SQUARE_INCHES = 12;
const WHERE: Readonly<Record<string, LabelPlace>> = {
  L01: 'fish-in', L02: 'labels', L03: 'labels', L04: 'ingredients', L05: 'ingredients', L06: 'kitchen', L07: 'kitchen', L08: 'packing-table',
  L09: 'packing-table', L10: 'ingredients', L12: 'labels', L13: 'ingredients', L14: 'labels', L15: 'fish-in',
};

/**
 * The label of a pack on a stock, with its digest.
 * @throws Refusal: the batch isn't released, the stock is unknown, or a text or date of the record can't stand on a label
 */
export function labelOfPack(room: BookRoom, pack: Pack, stockId: string): StoredLabel {
  const batch = room.book.shelf('batches').need(pack.batchId);
  const release = refuseUnreleased(room, batch);
  const stock = needStock(room, stockId);
  const choice = choiceOf(room.book);
  const input = labelInput(room, batch, pack, release, choice);
  const placed = placedOn(stock, choice, input, unwrap(composeLabel(input, room.catalogue.fish)));
  const facts = { ...placed, nutritionGround: input.nutritionGround, fishHidden: choice.fishHidden, isPouchKnown: choice.pouch !== null };
  const missing = [...placed.missing.filter(({ element }) => element !== RECORD_GAP), ...drawnGaps(facts), ...pouchGaps(stock, choice, input)].map(withPlace);
  const label: Omit<StoredLabel, 'digest'> = {
    packId: pack.id, packCode: pack.code,
    blocks: placed.blocks.map(({ element, text, source, isBold, leastLetterMm, measuredBy }) => ({ element, text, source, isBold, leastLetterMm, measuredBy })),
    missing,
    code: { ...placed.code },
    stock: { ...stock },
    custom: batch.sourceKind === 'guest',
    placing: { dpi: choice.dpi, pouch: choice.pouch, footShare: placed.netQuantityFootShare },
    ...(choice.mark === null ? {} : { mark: choice.mark }),
    checks: labelChecks({ ...facts, missing }).map((check) => ({ ...check })),
    cautions: cautionsOf(room, batch, input, choice).map(withPlace),
  };
  return { ...label, digest: sha256Hex(canonicalJson(label)) };
}

function placedOn(stock: Stock, choice: LabelChoice, input: LabelInput, composed: Parameters<typeof placeLabel>[0]): LabelContent {
  const placed = placeLabel(composed, {
    jurisdiction: input.jurisdiction, stock, pouch: choice.pouch ?? undefined, dotsPerMm: choice.dpi === 203 ? DOTS_PER_MM_203 : DOTS_PER_MM_300,
  });
  const isQr = choice.symbol === 'qr' && placed.code.symbology === 'datamatrix';
  return isQr ? { ...placed, code: { ...placed.code, symbology: 'qrcode' } } : placed;
}

/** What doesn't go together with the pouch: a label larger than it, or the ground of a small pack. */
function pouchGaps(stock: Stock, choice: LabelChoice, { nutritionGround, owner }: LabelInput): readonly LabelGap[] {
  const pouch = choice.pouch ?? undefined;
  const tooLarge = tooLargeForPouch({ stock, pouch });
  // A pouch that isn't known is no smaller than the label on it.
  const side = pouch ?? stock;
  const squareInches = panelSquareInches(panelFromMillimetres(side.widthMm, side.heightMm));
  const isNoSmallPack = owner === undefined && nutritionGround === 'small-pack' && squareInches >= SMALL_PACK_SQUARE_INCHES;
  return [
    ...(tooLarge === undefined ? [] : [{ element: 'L03', why: tooLarge }]),
    ...(isNoSmallPack ? [{ element: NUTRITION_GAP, why: `The side of the pouch alone has ${pouch === undefined ? 'at least ' : ''}${squareInches.toFixed(0)} square inches; “small pack” is a ground for less than ${SMALL_PACK_SQUARE_INCHES} in all (21 CFR 101.9(j)(13)). Enter another ground in the office.` }] : []),
  ];
}

function cautionsOf(room: BookRoom, batch: StoredBatch, { store }: LabelInput, choice: LabelChoice): readonly LabelGap[] {
  const cautions: LabelGap[] = [];
  if (choice.pouch === null && batch.sourceKind !== 'guest') {
    cautions.push({ element: 'L03', why: 'Nobody said how large the pouch is: the net quantity is drawn high enough for a side of up to 100 square inches, such as 10 × 10 in, and too low for a larger one (21 CFR 101.7(i)); where it must stand can’t be told. Enter the pouch in the office under labels.' });
  }
  if (choice.secondLanguage === 'fr' && store !== 'frozen') {
    cautions.push({ element: 'L08', why: 'French words were read for frozen packs only (Canadian Food Inspection Agency, Fish labelling); for this pack none are printed.' });
  }
  if (batch.sourceKind !== 'guest') return cautions;
  const owner = ownerOf(room, batch);
  const wanted = [['licence number', owner.licence], ['permanent address', owner.address], ['day of the catch', owner.caughtOn], ['area of the catch', owner.caughtArea]] as const;
  const lacking = wanted.filter(([, text]) => text === undefined || text === '').map(([what]) => what);
  if (lacking.length > 0) {
    cautions.push({ element: RECORD_GAP, why: `The pack may go without, the record of custom-processed fish may not (WAC 220-305-110(3)): ${lacking.join(', ')} of ${owner.name}. Enter it at fish in.` });
  }
  return cautions;
}

function withPlace({ element, why }: LabelGap): StoredLabel['missing'][number] {
  const where = WHERE[element];
  return { element, why, ...(where === undefined ? {} : { where }) };
}
