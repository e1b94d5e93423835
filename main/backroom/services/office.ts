/** The office: the kitchen, its people, instruments, smokers and places. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { massFromText } from '../../../app/measures/mass.ts';
import { isTimeZone } from '../../../app/measures/zone.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { refuseInput } from './field-refusal.ts';
import { instrumentError } from './instrument-error.ts';
import { kitchenOf } from './kitchen.ts';
import { needDecidingSet } from './limit-standing.ts';

export const officeServices = {
  'office.get': getOffice,
  'office.addPerson': addPerson,
  'office.addInstrument': addInstrument,
  'office.addSmoker': addSmoker,
  'office.addPlace': addPlace,
  'office.saveKitchen': saveKitchen,
} satisfies Services<
  'office.get' | 'office.addPerson' | 'office.addInstrument' | 'office.addSmoker' | 'office.addPlace' | 'office.saveKitchen'
>;

const KIND_WORDS = { hand: 'kitchen hand', chef: 'chef', manager: 'manager' } as const;
const INSTRUMENT_WORDS = {
  'wired-probe': 'wired probe', 'hand-thermometer': 'hand thermometer', logger: 'logger', 'maximum-minimum': 'maximum–minimum thermometer',
} as const;
const PLACE_WORDS = { 'brining-room': 'brining room', cooler: 'cooler', freezer: 'freezer' } as const;

function getOffice(room: BookRoom): Output<'office.get'> {
  const { book } = room;
  return {
    kitchen: kitchenOf(book),
    people: book.shelf('people').all(),
    instruments: book.shelf('instruments').all(),
    smokers: book.shelf('smokers').all(),
    places: book.shelf('places').all().map((place) => {
      const last = book.lastReading(place.id);
      return { ...place, lastTicks: last?.lowTicks ?? null, lastAtMs: last?.atMs ?? null };
    }),
    backupHint: `The whole book is one file, ${book.fileName}. “Back up” writes a copy beside it; carry that copy to another disk.`,
  };
}

function addPerson(room: BookRoom, input: Parsed<'office.addPerson'>): Output<'office.addPerson'> {
  const people = room.book.shelf('people');
  const taken = people.all().find((person) => sameInitials(person.initials, input.initials));
  if (taken !== undefined) {
    refuseInput(
      `The initials ${input.initials} belong to ${taken.name === '' ? `the ${KIND_WORDS[taken.role]} ${taken.initials}` : taken.name} already.`,
      ['initials'], 'The record knows people by their initials: add a letter.',
    );
  }
  const person = { id: room.newId(), ...input };
  people.put(person);
  room.book.record({
    kind: 'office.addPerson', subjectId: person.id, happenedAtMs: null,
    summary: `Added ${person.initials}${person.name === '' ? '' : ` (${person.name})`}, ${KIND_WORDS[person.role]}.`, after: person,
  });
  room.changed('office', [person.id]);
  return { id: person.id };
}

/** Initials are told apart without regard to capitals. */
export function sameInitials(one: string, other: string): boolean {
  return one.trim().toUpperCase() === other.trim().toUpperCase();
}

function addInstrument(room: BookRoom, input: Parsed<'office.addInstrument'>): Output<'office.addInstrument'> {
  const instruments = room.book.shelf('instruments');
  refuseTakenName(instruments.all(), input.name, 'instrument');
  const instrument = { id: room.newId(), name: input.name, kind: input.kind, ...instrumentError(input.error), resolution: input.resolution ?? null, accuracyClass: input.accuracyClass ?? null };
  instruments.put(instrument);
  room.book.record({
    kind: 'office.addInstrument', subjectId: instrument.id, happenedAtMs: null,
    summary: `Added the ${INSTRUMENT_WORDS[instrument.kind]} “${instrument.name}”; error: ${instrument.errorGround}.`, after: instrument,
  });
  room.changed('office', [instrument.id]);
  return { id: instrument.id };
}

function addSmoker(room: BookRoom, input: Parsed<'office.addSmoker'>): Output<'office.addSmoker'> {
  const smokers = room.book.shelf('smokers');
  const instruments = room.book.shelf('instruments');
  refuseTakenName(smokers.all(), input.name, 'smoker');
  if (new Set(input.probeIds).size !== input.probeIds.length) refuseInput('A probe is named twice.', ['probeIds'], 'Name each probe once.');
  if (input.chamberInstrumentId !== null && input.probeIds.includes(input.chamberInstrumentId)) {
    refuseInput('The chamber’s probe can’t be a piece’s probe too.', ['chamberInstrumentId'], 'Choose another probe for the chamber.');
  }
  for (const id of [...input.probeIds, ...(input.chamberInstrumentId === null ? [] : [input.chamberInstrumentId])]) instruments.need(id);
  const { largestLoad, coldestPlace = '', warmestPlace = '', ...named } = input;
  const largestLoadGrams = largestLoad === undefined || largestLoad === null ? null : unwrap(massFromText(largestLoad.text, largestLoad.unit, 'largestLoad.text')).grams;
  const smoker = { id: room.newId(), ...named, coldestPlace, warmestPlace, largestLoadGrams };
  smokers.put(smoker);
  room.book.record({
    kind: 'office.addSmoker', subjectId: smoker.id, happenedAtMs: null,
    summary: `Added the smoker “${smoker.name}” with ${smoker.probeIds.length} ${smoker.probeIds.length === 1 ? 'probe' : 'probes'}.`, after: smoker,
  });
  room.changed('office', [smoker.id]);
  return { id: smoker.id };
}

function addPlace(room: BookRoom, input: Parsed<'office.addPlace'>): Output<'office.addPlace'> {
  const places = room.book.shelf('places');
  refuseTakenName(places.all(), input.name, 'place');
  const place = { id: room.newId(), ...input };
  places.put(place);
  room.book.record({
    kind: 'office.addPlace', subjectId: place.id, happenedAtMs: null,
    summary: `Added the ${PLACE_WORDS[place.kind]} “${place.name}”.`, after: place,
  });
  room.changed('office', [place.id]);
  return { id: place.id };
}

function saveKitchen(room: BookRoom, input: Parsed<'office.saveKitchen'>): Output<'office.saveKitchen'> {
  refuseUnknownZone(input.timeZone, ['timeZone']);
  needDecidingSet(room, input.decidingSetId, ['decidingSetId']);
  const before = kitchenOf(room.book);
  const kitchen = { ...input, demo: before.demo, ...(before.labels === undefined ? {} : { labels: before.labels }) };
  room.book.shelf('kitchen').put({ id: 'kitchen', ...kitchen });
  room.book.record({
    kind: 'office.saveKitchen', subjectId: 'kitchen', happenedAtMs: null,
    summary: `Changed the kitchen’s settings: ${kitchen.name}, ${kitchen.timeZone}, °${kitchen.temperatureUnit}, ${kitchen.massUnit}.`,
    before, after: kitchen,
  });
  room.changed('office', ['kitchen']);
  room.changed('book', []);
  return { kitchen };
}

/** Refuses a zone that this computer's data doesn't know. */
export function refuseUnknownZone(timeZone: string, path: readonly string[]): void {
  if (isTimeZone(timeZone)) return;
  refuseInput(`“${timeZone}” is not a time zone this computer knows.`, path, 'Choose one from the list, such as America/Chicago.');
}

function refuseTakenName(others: readonly { readonly name: string }[], name: string, what: string): void {
  if (!others.some((other) => other.name.toLowerCase() === name.toLowerCase())) return;
  const message = `There is ${what === 'instrument' ? 'an' : 'a'} ${what} called “${name}” already.`;
  throw new Refusal('CONFLICT', message, { remedy: 'Give this one another name.', fields: [{ path: ['name'], message }] });
}
