/** Fish in: species, and fish lots as they are received. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { massFromText } from '../../../app/measures/mass.ts';
import { exactTicks } from '../../../app/measures/temperature.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { makeFishLotCode } from '../../../app/packs/fish-lot-code.ts';
import type { StoredFishLot } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom, Room } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { viewFishLot, viewFishLots } from './fish-lot-view.ts';
import { speciesOf } from './species.ts';
import { readTypedTemperature } from './typed-temperature.ts';
import { refuseBefore, refuseFuture, sayInstant, zoneOf } from './when.ts';

export const fishServices = {
  'fish.species': (room: Room): Output<'fish.species'> => ({ species: [...room.catalogue.species] }),
  'fishLot.receive': receiveFishLot,
  'fishLot.list': (room: BookRoom): Output<'fishLot.list'> => ({ lots: viewFishLots(room) }),
} satisfies Services<'fish.species' | 'fishLot.receive' | 'fishLot.list'>;

type Receiving = Parsed<'fishLot.receive'>;

/** Fish warmer than this was not received raw: the figure is a slip. */
const WARMEST_RAW_TICKS = exactTicks(120, 'F');
/** Fish received longer ago than this has a wrong year in its date. */
const OLDEST_MS = 366 * 24 * 3_600_000;

function receiveFishLot(room: BookRoom, input: Receiving): Output<'fishLot.receive'> {
  const species = speciesOf(room, input.speciesId);
  const mass = unwrap(massFromText(input.mass.text, input.mass.unit, 'mass'));
  if (input.source.kind === 'guest' && input.source.guestId !== undefined) room.book.shelf('guests').need(input.source.guestId);
  refuseWrongTimes(room, input);
  const lot: StoredFishLot = {
    id: room.newId(), code: nextCode(room, input.receivedAtMs), source: input.source, speciesId: species.id, form: input.form, mass,
    pieces: input.pieces, caughtAtMs: input.caughtAtMs, icedAtMs: input.icedAtMs, receivedAtMs: input.receivedAtMs,
    temperatureTicks: rawTemperature(input), note: input.note, receivedBy: actingPerson(room).initials,
  };
  room.book.shelf('fishLots').put(lot);
  room.book.record({
    kind: 'fishLot.receive', subjectId: lot.id, happenedAtMs: lot.receivedAtMs,
    summary: `Received ${lot.mass.text} ${lot.mass.unit} of ${species.marketName} as fish lot ${lot.code}, ${sayingFrom(input)}.`,
    after: lot,
  });
  room.changed('fish', [lot.id]);
  return { lot: viewFishLot(room, lot) };
}

function sayingFrom({ source }: Receiving): string {
  return source.kind === 'guest' ? `${source.ownerName}’s own catch` : `from ${source.supplierName}, their lot ${source.supplierLot}`;
}

/** Caught, iced, received, in this order and none of them still to come. */
function refuseWrongTimes(room: BookRoom, input: Receiving): void {
  refuseFuture(room, input.receivedAtMs, ['receivedAtMs']);
  if (input.receivedAtMs < room.clock.nowMs() - OLDEST_MS) {
    refuseInput(`Received at ${sayInstant(room, input.receivedAtMs)} is more than a year ago.`, ['receivedAtMs'], 'Check the year.');
  }
  if (input.caughtAtMs !== null) refuseFuture(room, input.caughtAtMs, ['caughtAtMs']);
  if (input.icedAtMs !== null) {
    refuseFuture(room, input.icedAtMs, ['icedAtMs']);
    refuseBefore(room, input.icedAtMs, 'Icing', { what: 'the catch', atMs: input.caughtAtMs }, ['icedAtMs']);
    refuseBefore(room, input.receivedAtMs, 'Receiving', { what: 'icing', atMs: input.icedAtMs }, ['receivedAtMs']);
  }
  refuseBefore(room, input.receivedAtMs, 'Receiving', { what: 'the catch', atMs: input.caughtAtMs }, ['receivedAtMs']);
}

/** A temperature between two ticks counts as the warmer: raw fish is judged by a maximum. */
function rawTemperature(input: Receiving): number | null {
  if (input.temperature === null) return null;
  const { highTicks, text } = readTypedTemperature(input.temperature, ['temperature']);
  if (highTicks > WARMEST_RAW_TICKS) refuseInput(`${text} °${input.temperature.unit} can’t be raw fish.`, ['temperature'], 'Check the unit and the point.');
  return highTicks;
}

function nextCode(room: BookRoom, receivedAtMs: number): string {
  const zone = zoneOf(room);
  const receivedOn = localDay(receivedAtMs, zone);
  const lots = room.book.shelf('fishLots');
  let number = lots.all().filter((lot) => localDay(lot.receivedAtMs, zone) === receivedOn).length + 1;
  let code = unwrap(makeFishLotCode({ receivedOn, number }));
  // After a change of the kitchen's zone a lot of that day may count to its neighbour.
  while (lots.where('code', code).length > 0) code = unwrap(makeFishLotCode({ receivedOn, number: (number += 1) }));
  return code;
}
