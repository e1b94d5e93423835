/** A back room with made-up use cases behind real requests: for tests of the way in, not of the trade. */
import { join } from 'node:path';
import type { RequestName } from '../../app/contract/names.ts';
import type { Subject } from '../../app/contract/events.ts';
import type { Person } from '../../app/contract/requests/office.ts';
import { type BackRoom, openBackRoom } from '../../main/backroom/backroom.ts';
import type { Catalogue } from '../../main/backroom/catalogue.ts';
import { handsInProcess } from '../../main/backroom/hands/hands.ts';
import type { LogLine } from '../../main/backroom/log.ts';
import type { Caller } from '../../main/backroom/room.ts';
import type { Services } from '../../main/backroom/service.ts';
import { makeBook, makeBookFolder, TEST_CLOCK } from './book-folder.ts';

export const MANAGER: Person = { id: 'person-mg', initials: 'MG', name: 'Maja Grant', role: 'manager' };
export const HAND: Person = { id: 'person-ha', initials: 'HA', name: 'Hana Aho', role: 'hand' };

export interface SmallRoom {
  readonly room: BackRoom;
  readonly file: string;
  readonly lines: LogLine[];
  readonly announced: { subject: Subject; ids: readonly string[] }[];
}

/** Who asks, as a front would say it. */
export function callerOf(person: Person | null, more: Partial<Caller> = {}): Caller {
  return { front: 'browser', device: 'this computer', personId: person?.id ?? null, commandId: null, ...more };
}

/** Opens a room whose only use cases are the given ones; with a book of two people unless told otherwise. */
export async function openSmallRoom(services: Partial<Services>, options: { book?: boolean; prepareFile?: (file: string) => void } = {}): Promise<SmallRoom> {
  const file = join(makeBookFolder(), 'kitchen.alderbook');
  if (options.book ?? true) makeBook(file, (book) => [MANAGER, HAND].forEach((person) => book.shelf('people').put(person)));
  options.prepareFile?.(file);
  const lines: LogLine[] = [];
  const announced: { subject: Subject; ids: readonly string[] }[] = [];
  const room = await openBackRoom({ bookFile: file, dataFolder: null, demo: false, version: 'test' }, {
    // A request that the test does not ask has no use case here.
    services: services as Services,
    catalogue: {} as Catalogue,
    clock: TEST_CLOCK,
    hands: handsInProcess(),
    log: (line) => lines.push(line),
    announce: (subject, ids) => announced.push({ subject, ids }),
  });
  return { room, file, lines, announced };
}

/** The failure of a request that should be refused. */
export async function refused(small: SmallRoom, name: RequestName | string, input: unknown, caller: Caller = callerOf(null)) {
  const reply = await small.room.ask(name, input, caller);
  if (reply.ok) throw new Error(`${name} was answered: ${JSON.stringify(reply.value)}`);
  return reply.error;
}
