/** One way in for every request, whichever front it comes from: name, input, right to ask, work, output. */
import type { z } from 'zod';
import { contract } from '../../app/contract/contract.ts';
import type { Endpoint, RoleName } from '../../app/contract/endpoint.ts';
import type { Failure } from '../../app/contract/envelope.ts';
import type { RequestName } from '../../app/contract/names.ts';
import type { Person } from '../../app/contract/requests/office.ts';
import type { BookHandle } from './book/handle.ts';
import { type Announce, collectChanges } from './changes.ts';
import { refuseInput } from './input-faults.ts';
import type { Keeping } from './keeper.ts';
import { Refusal } from './refusal.ts';
import type { BookRoom, Caller, Room } from './room.ts';
import type { Services } from './service.ts';

export interface DispatchParts {
  readonly services: Services;
  readonly keeping: Keeping;
  readonly announce: Announce;
  roomFor(caller: Caller): Room;
}

/** A use case as dispatch calls it: its room and input are checked here, at run time. */
interface LooseService {
  prepare(room: Room, input: unknown): Promise<unknown>;
  commit(room: Room, input: unknown, prepared: unknown): unknown;
}

/** Answers one request; refuses by throwing. The input may be anything at all. */
export async function dispatch(parts: DispatchParts, name: unknown, input: unknown, caller: Caller): Promise<unknown> {
  const known = knownName(name);
  const endpoint: Endpoint = contract[known];
  const parsed = parseInput(endpoint.input, input);
  const service = looseService(parts.services, known);
  const room = parts.roomFor(caller);
  if (endpoint.book === 'none') {
    if (endpoint.kind === 'command') await parts.keeping.ready();
    const value = await service.commit(room, parsed, await service.prepare(room, parsed));
    return parseOutput(endpoint.output, value, known);
  }
  const handle = needBook(parts.keeping);
  const asked = { known, endpoint, service, parsed, room, handle };
  return endpoint.kind === 'query' ? runQuery(asked) : runCommand(asked, parts.announce);
}

interface Asked {
  readonly known: RequestName;
  readonly endpoint: Endpoint;
  readonly service: LooseService;
  readonly parsed: unknown;
  readonly room: Room;
  readonly handle: BookHandle;
}

async function runQuery({ known, endpoint, service, parsed, room, handle }: Asked): Promise<unknown> {
  const bookRoom: BookRoom = { ...room, book: handle.reader(), person: personOf(handle, room.caller), changed: changesNothing };
  return parseOutput(endpoint.output, await service.commit(bookRoom, parsed, undefined), known);
}

async function runCommand({ known, endpoint, service, parsed, room, handle }: Asked, announce: Announce): Promise<unknown> {
  const person = needPerson(handle, endpoint, room.caller);
  const { commandId, device } = room.caller;
  const asked = commandId === null ? null : { commandId, name: known, input: parsed };
  const before = asked === null ? undefined : handle.answered(asked);
  if (before !== undefined) return before.reply;
  const readingRoom: BookRoom = { ...room, book: handle.reader(), person, changed: changesNothing };
  const prepared = await service.prepare(readingRoom, parsed);
  const changes = collectChanges();
  const author = { personId: person.id, initials: person.initials, device, commandId, nowMs: room.clock.nowMs, newId: room.newId };
  const reply = handle.command((as) => {
    // Asked twice at the same time, both may have been prepared: the first to get here is the one that counts.
    const earlier = asked === null ? undefined : handle.answered(asked);
    if (earlier !== undefined) return earlier.reply;
    const bookRoom: BookRoom = { ...room, book: as(author), person, changed: changes.add };
    const value = parseOutput(endpoint.output, service.commit(bookRoom, parsed, prepared), known);
    if (asked !== null) handle.keepAnswer(asked, value, room.clock.nowMs());
    return value;
  });
  changes.announce(announce);
  return reply;
}

function knownName(name: unknown): RequestName {
  if (typeof name === 'string' && isRequestName(name)) return name;
  const shown = typeof name === 'string' ? `There is no request “${name.slice(0, 60)}”.` : 'A request needs a name.';
  throw new Refusal('UNKNOWN_REQUEST', shown, { remedy: 'Ask for the list with --list.' });
}

function isRequestName(name: string): name is RequestName {
  return Object.hasOwn(contract, name);
}

function parseInput(schema: z.ZodType, input: unknown): unknown {
  const parsed = schema.safeParse(input);
  if (!parsed.success) throw refuseInput(parsed.error);
  return parsed.data;
}

/** An answer that doesn't fit the contract is our bug, and nobody's input. */
function parseOutput(schema: z.ZodType, value: unknown, name: RequestName): unknown {
  const parsed = schema.safeParse(value);
  if (!parsed.success) throw new Error(`The answer of ${name} does not fit the contract: ${JSON.stringify(parsed.error.issues.slice(0, 5))}`);
  return parsed.data;
}

/** The table ties each service to its request at compile time; here the name is known only at run time. */
function looseService(services: Services, name: RequestName): LooseService {
  const service: unknown = services[name];
  if (typeof service === 'function') return { prepare: async () => undefined, commit: (room, input) => (service as (room: Room, input: unknown) => unknown)(room, input) };
  return service as LooseService;
}

function needBook(keeping: Keeping): BookHandle {
  const handle = keeping.handle();
  if (handle !== null) return handle;
  const fault: Failure | null = keeping.fault();
  if (fault !== null) throw new Refusal(fault.code, fault.message, { remedy: fault.remedy });
  throw new Refusal('NO_BOOK', keeping.named === null ? 'No book is open.' : `No book is open: ${keeping.named} is not there.`, { remedy: 'Open the demonstration kitchen or start your own book.' });
}

function personOf(handle: BookHandle, caller: Caller): Person | null {
  return caller.personId === null ? null : (handle.reader().shelf('people').get(caller.personId) ?? null);
}

const ROLE_WORDS: Readonly<Record<RoleName, string>> = { hand: 'a kitchen hand', chef: 'a chef', manager: 'a manager' };

function needPerson(handle: BookHandle, endpoint: Endpoint, caller: Caller): Person {
  if (handle.readOnly) throw new Refusal('BOOK_READ_ONLY', `${handle.fileName} can only be looked at: its file or folder is read-only.`, { remedy: 'Copy it to a folder you can write to, and open the copy.' });
  const person = personOf(handle, caller);
  if (person === null) {
    throw new Refusal('NOT_ALLOWED', 'Nobody is named for this entry.', { remedy: caller.front === 'ask' ? 'Say who acts with --as INITIALS.' : 'Tap who you are first.' });
  }
  if (endpoint.roles !== null && !endpoint.roles.includes(person.role)) {
    const may = endpoint.roles.map((role) => ROLE_WORDS[role]).join(' or ');
    throw new Refusal('NOT_ALLOWED', `This needs ${may}; ${person.initials} is ${ROLE_WORDS[person.role]}.`, { remedy: `Ask ${may} to do it.` });
  }
  return person;
}

function changesNothing(): never {
  throw new Error('A query announced a change.');
}
