/** The book itself: how it stands, starting one, the demonstration kitchen, and backups. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom, Room } from '../room.ts';
import type { Services } from '../service.ts';
import { fillDemoBook } from './demo/fill-demo-book.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';
import { needDecidingSet } from './limit-standing.ts';
import { beginBook } from './new-book.ts';
import { refuseUnknownZone, sameInitials } from './office.ts';
import { proposeSet } from './set-proposal.ts';

export const bookLifeServices = {
  'book.status': bookStatus,
  'book.propose': proposeSet,
  'book.start': startBook,
  'book.openDemo': openDemo,
  'book.backUp': (room: BookRoom): Promise<Output<'book.backUp'>> => room.book.backUp(),
} satisfies Services<'book.status' | 'book.propose' | 'book.start' | 'book.openDemo' | 'book.backUp'>;

function bookStatus(room: Room): Output<'book.status'> {
  const book = room.keeper.current();
  return {
    ...room.keeper.state(),
    readOnly: book?.readOnly ?? false,
    kitchen: book === null ? null : kitchenOf(book),
    people: book?.shelf('people').all() ?? [],
    nowMs: room.clock.nowMs(),
    version: room.version,
  };
}

function startBook(room: Room, input: Parsed<'book.start'>): Output<'book.start'> {
  refuseUnknownZone(input.kitchen.timeZone, ['kitchen', 'timeZone']);
  refuseBadCrew(input.people);
  needDecidingSet({ catalogue: room.catalogue, book: null, clock: room.clock }, input.kitchen.decidingSetId, ['kitchen', 'decidingSetId']);
  room.keeper.start((at) => {
    beginBook(at(room.clock.nowMs(), null), { kitchen: { ...input.kitchen, demo: false }, people: input.people });
  }, 'own');
  return bookStatus(room);
}

/** Initials name one person, and without a manager nothing could ever be released. */
function refuseBadCrew(people: Parsed<'book.start'>['people']): void {
  for (const [index, person] of people.entries()) {
    if (people.findIndex((other) => sameInitials(other.initials, person.initials)) === index) continue;
    refuseInput(`The initials ${person.initials} are given twice.`, ['people', index, 'initials'], 'The record knows people by their initials: add a letter.');
  }
  if (people.some((person) => person.role === 'manager')) return;
  refuseInput('Nobody is a manager.', ['people'], 'Make one person a manager: only a manager releases a batch or adds people.');
}

/** Opens the demonstration kitchen, making it first where it isn't there yet. */
function openDemo(room: Room): Output<'book.openDemo'> {
  const open = room.keeper.current();
  if (open !== null && !kitchenOf(open).demo) {
    throw new Refusal('CONFLICT', `The book of ${kitchenOf(open).name} is open.`, { remedy: 'Close Alderbook and start it again to open the demonstration kitchen.' });
  }
  if (room.keeper.exists('demo')) room.keeper.open('demo');
  else room.keeper.start((at) => fillDemoBook(at, room.clock.nowMs()), 'demo');
  return bookStatus(room);
}
