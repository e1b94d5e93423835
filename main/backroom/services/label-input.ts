/** What a pack's label is composed from: the record of its batch, the kitchen and its choice of elements. */
import type { LabelChoice, OptionalElement } from '../../../app/contract/requests/label-choice.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { daysBetween, readDay } from '../../../app/packs/dates.ts';
import type { Jurisdiction, LabelDates, LabelInput, LabelKitchen, LabelOwner } from '../../../app/packs/label-types.ts';
import { bestByOf } from '../../../app/packs/stock-order.ts';
import type { StoredBatch, StoredFishLot } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { lotsOf } from './batch-view.ts';
import type { Keeping } from './judging/compose.ts';
import { kitchenOf } from './kitchen.ts';
import { labelIngredients } from './label-ingredients.ts';
import { nameOf } from './release.ts';
import { speciesOf } from './species.ts';
import { loadOfBatch } from './taken-out.ts';
import { usState } from './us-states.ts';
import { zoneOf } from './when.ts';

/** Where a chilled pack must show its shelf life: Michigan (second-hand), and Canada for packs that let air in (CFIA, read). */
const SHELF_LIFE_WANTED: readonly Jurisdiction[] = ['us-mi', 'ca-on'];
/** Where the day of processing must stand on the pack: Wis. Admin. Code ATCP 70.46(1)(f) (read). */
const PROCESSING_DAY_WANTED: readonly Jurisdiction[] = ['us-wi'];
const STATES: ReadonlyMap<string | undefined, Jurisdiction> = new Map([['AK', 'us-ak'], ['CA', 'us-ca'], ['MI', 'us-mi'], ['NY', 'us-ny'], ['WI', 'us-wi']]);
const ONTARIO = /^on(t(ario)?)?$/i;

/** The label's input, the optional elements that nobody wants left out where no rule asks for them. */
export function labelInput(room: BookRoom, batch: StoredBatch, pack: Pack, release: Keeping, choice: LabelChoice): LabelInput {
  const { marketName } = speciesOf(room, batch.speciesId);
  const jurisdiction = jurisdictionOf(kitchenOf(room.book).address.region);
  const hasForm = choice.fishHidden || wants(choice, 'form');
  return {
    kitchen: labelKitchen(room, choice),
    identity: { process: batch.process, marketName, ...(hasForm ? { form: `fillet portion, skin ${batch.skin}` } : {}) },
    netGrams: pack.net.grams,
    ingredients: labelIngredients(room, batch, marketName),
    dates: labelDates(room, batch, pack, { release, jurisdiction, choice }),
    lot: pack.code,
    pack: release.pack,
    store: release.store,
    jurisdiction,
    ...(batch.sourceKind === 'guest' ? { owner: ownerOnLabel(ownerOf(room, batch), choice) } : {}),
    nutritionGround: kitchenOf(room.book).nutritionGround,
    // A guest's own fish is not traded, so it is no trade item.
    gtin: batch.sourceKind === 'guest' ? undefined : (choice.gtin ?? undefined),
    secondLanguage: choice.secondLanguage ?? undefined,
  };
}

/** The guest of the batch's fish lots; the catch runs from the first day to the last of them. */
export function ownerOf(room: BookRoom, batch: StoredBatch): LabelOwner {
  const lots = lotsOf(room, batch);
  const [first] = lots;
  if (first?.source.kind !== 'guest') throw new Error(`guest batch ${nameOf(batch)} has no guest's fish lot`);
  const { ownerName, licence, ownerAddress, caughtArea } = first.source;
  return { name: ownerName, licence, address: ownerAddress, caughtOn: caughtDays(lots, zoneOf(room)), caughtArea };
}

function wants(choice: LabelChoice, element: OptionalElement): boolean {
  return choice.optional.includes(element);
}

function ownerOnLabel({ name, licence, address, caughtOn, caughtArea }: LabelOwner, choice: LabelChoice): LabelOwner {
  return {
    name,
    licence: wants(choice, 'licence') ? licence : undefined,
    address: wants(choice, 'owner-address') ? address : undefined,
    ...(wants(choice, 'catch') ? { caughtOn, caughtArea } : {}),
  };
}

function labelKitchen(room: BookRoom, choice: LabelChoice): LabelKitchen {
  const { name, address, phone } = kitchenOf(room.book);
  return {
    name, address: address.street, city: address.city, region: address.region, postalCode: address.postalCode,
    phone: wants(choice, 'phone') ? phone : undefined, role: choice.role,
  };
}

function jurisdictionOf(region: string): Jurisdiction {
  return STATES.get(usState(region)) ?? (ONTARIO.test(region.trim().replaceAll('.', '')) ? 'ca-on' : 'us-federal');
}

/** Smoked, packed and, where one can be given without proof of shelf life, best by; never a use-by. */
function labelDates(room: BookRoom, batch: StoredBatch, pack: Pack, { release, jurisdiction, choice }: { release: Keeping; jurisdiction: Jurisdiction; choice: LabelChoice }): LabelDates {
  const outAtMs = loadOfBatch(room, batch)?.outAtMs ?? null;
  if (outAtMs === null) throw new Error(`released batch ${nameOf(batch)} never came out of the smoker`);
  const zone = zoneOf(room);
  const smokedOn = localDay(outAtMs, zone);
  const packedOn = localDay(pack.sealedAtMs, zone);
  const mustEnd = release.store !== 'frozen' && SHELF_LIFE_WANTED.includes(jurisdiction);
  const bestBy = mustEnd || (release.store === 'frozen' && wants(choice, 'best-by')) ? bestByOf(release.store, { smokedOn, packedOn }) : null;
  const showsSmoked = wants(choice, 'smoked-on') || PROCESSING_DAY_WANTED.includes(jurisdiction);
  return { ...(showsSmoked ? { smokedOn } : {}), packedOn, ...(bestBy === null || bestBy <= packedOn ? {} : { bestBy }) };
}

/** The last day that the law wants on a chilled pack’s label; null where it wants none. */
export function lastDayOf(room: BookRoom, batch: StoredBatch, { sealedAtMs }: Pick<Pack, 'sealedAtMs'>): string | null {
  const outAtMs = loadOfBatch(room, batch)?.outAtMs ?? null;
  if (outAtMs === null || !SHELF_LIFE_WANTED.includes(jurisdictionOf(kitchenOf(room.book).address.region))) return null;
  const zone = zoneOf(room);
  return bestByOf('refrigerated', { smokedOn: localDay(outAtMs, zone), packedOn: localDay(sealedAtMs, zone) });
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
