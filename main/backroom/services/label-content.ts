/** What a pack's label says, composed from the record of its batch. */
import type { Pack, StoredLabel } from '../../../app/contract/requests/packing.ts';
import type { Decision } from '../../../app/contract/requests/verdict.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { composeLabel } from '../../../app/packs/compose-label.ts';
import { addDays, dayText, daysBetween, readDay } from '../../../app/packs/dates.ts';
import type { Jurisdiction, LabelDates, LabelGap, LabelInput, LabelKitchen, LabelOwner } from '../../../app/packs/label-types.ts';
import { canonicalJson, sha256Hex } from '../book/canonical.ts';
import type { StoredBatch, StoredFishLot } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { lotsOf } from './batch-view.ts';
import { kitchenOf } from './kitchen.ts';
import { labelIngredients } from './label-ingredients.ts';
import { nameOf, refuseUnreleased } from './release.ts';
import { speciesOf } from './species.ts';
import { zoneOf } from './when.ts';

/** How long a frozen pack is at its best: the kitchen's choice (common practice; extension sheets say two to six months). */
const FROZEN_BEST_DAYS = 90;
/** The day of smoking counts as the first of Michigan's 14 days (MSU Extension, Labels for commercial smoked fish, second-hand). */
const CHILLED_LAST_DAY = 13;
/** Where a chilled pack must show its shelf life: Michigan (second-hand), and Canada for packs that let air in (CFIA, read). */
const SHELF_LIFE_WANTED: readonly Jurisdiction[] = ['us-mi', 'ca-on'];
/** The licence number of a guest: the record of custom fish wants it, the pack may go without. It can’t be entered here. */
const RECORD_GAP = 'L15';
const NUTRITION_GAP = 'L07';
const NO_GROUND = 'Nothing says on which ground Nutrition Facts are left off (21 CFR 101.9(j)). Enter the ground in the office, with the kitchen’s name and address.';
const JURISDICTIONS: Readonly<Record<string, Jurisdiction>> = {
  ak: 'us-ak', alaska: 'us-ak', ca: 'us-ca', california: 'us-ca', mi: 'us-mi', michigan: 'us-mi',
  ny: 'us-ny', 'new york': 'us-ny', wi: 'us-wi', wisconsin: 'us-wi', on: 'ca-on', ontario: 'ca-on',
};

/**
 * The label of a pack on a stock, with its digest.
 * @throws Refusal: the batch isn't released, the stock is unknown, or a text or date of the record can't stand on a label
 */
export function labelOfPack(room: BookRoom, pack: Pack, stockId: string): StoredLabel {
  const batch = room.book.shelf('batches').need(pack.batchId);
  const release = refuseUnreleased(room, batch);
  const stock = room.catalogue.stocks.find((candidate) => candidate.id === stockId);
  if (stock === undefined) {
    throw new Refusal('NOT_FOUND', `There is no label stock “${stockId}”.`, { remedy: 'Choose one from the list.' });
  }
  const { blocks, missing, code } = unwrap(composeLabel(labelInput(room, batch, pack, release)));
  const label: Omit<StoredLabel, 'digest'> = {
    packId: pack.id, packCode: pack.code,
    blocks: blocks.map(({ element, text, source }) => ({ element, text, source })),
    missing: gapsOfPack(room, missing),
    code: { ...code },
    stock: { id: stock.id, name: stock.name, widthMm: stock.widthMm, heightMm: stock.heightMm },
    custom: batch.sourceKind === 'guest',
  };
  return { ...label, digest: sha256Hex(canonicalJson(label)) };
}

/** What the pack itself lacks, each with where it is entered in this program. */
function gapsOfPack(room: BookRoom, missing: readonly LabelGap[]): StoredLabel['missing'] {
  const hasGround = kitchenOf(room.book).nutritionGround !== undefined;
  return missing.filter(({ element }) => element !== RECORD_GAP)
    .map(({ element, why }) => ({ element, why: element === NUTRITION_GAP && !hasGround ? NO_GROUND : why }));
}

function labelInput(room: BookRoom, batch: StoredBatch, pack: Pack, release: Decision): LabelInput {
  const { marketName } = speciesOf(room, batch.speciesId);
  const jurisdiction = jurisdictionOf(kitchenOf(room.book).address.region);
  return {
    kitchen: labelKitchen(room),
    identity: { process: batch.process, marketName, form: `fillet portion, skin ${batch.skin}` },
    netGrams: pack.net.grams,
    ingredients: labelIngredients(room, batch, marketName),
    dates: labelDates(room, batch, pack, release, jurisdiction),
    lot: pack.code,
    pack: release.pack,
    store: release.store,
    jurisdiction,
    ...(batch.sourceKind === 'guest' ? { owner: ownerOf(room, batch) } : {}),
    nutritionGround: kitchenOf(room.book).nutritionGround,
  };
}

function labelKitchen(room: BookRoom): LabelKitchen {
  const { name, address, phone } = kitchenOf(room.book);
  return { name, address: address.street, city: address.city, region: address.region, postalCode: address.postalCode, phone };
}

function jurisdictionOf(region: string): Jurisdiction {
  return JURISDICTIONS[region.trim().toLowerCase()] ?? 'us-federal';
}

/** Smoked, packed and, where one can be given without proof of shelf life, best by; never a use-by. */
function labelDates(room: BookRoom, batch: StoredBatch, pack: Pack, release: Decision, jurisdiction: Jurisdiction): LabelDates {
  const outAtMs = batch.loadId === null ? null : room.book.shelf('loads').need(batch.loadId).outAtMs;
  if (outAtMs === null) throw new Error(`released batch ${nameOf(batch)} never came out of the smoker`);
  const zone = zoneOf(room);
  const smokedOn = localDay(outAtMs, zone);
  const packedOn = localDay(pack.sealedAtMs, zone);
  const bestBy = release.store === 'frozen' ? laterBy(packedOn, FROZEN_BEST_DAYS)
    : SHELF_LIFE_WANTED.includes(jurisdiction) ? laterBy(smokedOn, CHILLED_LAST_DAY) : undefined;
  return { smokedOn, packedOn, ...(bestBy === undefined || bestBy <= packedOn ? {} : { bestBy }) };
}

function laterBy(day: string, days: number): string {
  return dayText(addDays(unwrap(readDay(day)), days));
}

/** The guest of the batch's fish lots; the catch runs from the first day to the last of them. */
function ownerOf(room: BookRoom, batch: StoredBatch): LabelOwner {
  const lots = lotsOf(room, batch);
  const [first] = lots;
  if (first?.source.kind !== 'guest') throw new Error(`guest batch ${nameOf(batch)} has no guest's fish lot`);
  const { ownerName, licence, ownerAddress, caughtArea } = first.source;
  return { name: ownerName, licence, address: ownerAddress, caughtOn: caughtDays(lots, zoneOf(room)), caughtArea };
}

/** `2026-07-11`, or `2026-07-11/2026-07-12` for a catch of several days; undefined while a lot has no day of catch. */
function caughtDays(lots: readonly StoredFishLot[], zone: string): string | undefined {
  const days: string[] = [];
  for (const lot of lots) {
    if (lot.caughtAtMs === null) return undefined;
    days.push(localDay(lot.caughtAtMs, zone));
  }
  const sorted = days.toSorted();
  const [from, to] = [sorted.at(0), sorted.at(-1)];
  if (from === undefined || to === undefined) return undefined;
  return daysBetween(unwrap(readDay(from)), unwrap(readDay(to))) === 0 ? from : `${from}/${to}`;
}
