import { chmodSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { BookRoom } from '../../main/backroom/room.ts';
import { callerOf, HAND, MANAGER, openSmallRoom, refused } from '../support/small-room.ts';

const place = { name: 'Walk-in', kind: 'cooler' };
const person = { initials: 'NE', name: 'New', role: 'hand' };

/** A command that keeps a place, records it, and says what it was called with. */
function addPlace(room: BookRoom, input: { name: string; kind: 'cooler' | 'freezer' | 'brining-room' }): { id: string } {
  const id = room.newId();
  room.book.shelf('places').put({ id, ...input });
  room.book.record({ kind: 'office.addPlace', subjectId: id, happenedAtMs: null, summary: `Added ${input.name}`, after: input });
  room.changed('office', [id]);
  return { id };
}

describe('a request on the book', () => {
  it('is refused with NO_BOOK while there is none', async () => {
    const small = await openSmallRoom({}, { book: false });
    for (const [name, input] of [['recipe.list', {}], ['office.addPlace', place]] as const) {
      expect(await refused(small, name, input, callerOf(MANAGER))).toMatchObject({ code: 'NO_BOOK', message: 'No book is open: kitchen.alderbook is not there.', remedy: 'Open the demonstration kitchen or start your own book.' });
    }
  });
  it('is refused with the reason when the book could not be opened', async () => {
    const small = await openSmallRoom({}, { book: false, prepareFile: (file) => writeFileSync(file, 'a letter, not a book'.repeat(20)) });
    expect(await refused(small, 'recipe.list', {})).toMatchObject({ code: 'BOOK_DAMAGED', message: 'kitchen.alderbook is not an Alderbook book.' });
  });
  it('may not write while it only asks', async () => {
    const small = await openSmallRoom({ 'recipe.list': (room) => {
      room.changed('office', []);
      return { recipes: [] };
    } });
    expect(await refused(small, 'recipe.list', {})).toMatchObject({ code: 'INTERNAL' });
  });
  it('knows the person who asks, and nobody where nobody was tapped', async () => {
    const seen: (string | undefined)[] = [];
    const small = await openSmallRoom({ 'recipe.list': (room) => {
      seen.push(room.person?.initials);
      return { recipes: [] };
    } });
    await small.room.ask('recipe.list', {}, callerOf(HAND));
    await small.room.ask('recipe.list', {}, callerOf(null));
    await small.room.ask('recipe.list', {}, callerOf(null, { personId: 'somebody' }));
    expect(seen).toEqual(['HA', undefined, undefined]);
  });
});

describe('a command', () => {
  it('needs a person', async () => {
    const small = await openSmallRoom({ 'office.addPlace': addPlace });
    expect(await refused(small, 'office.addPlace', place)).toMatchObject({ code: 'NOT_ALLOWED', message: 'Nobody is named for this entry.', remedy: 'Tap who you are first.' });
    expect(await refused(small, 'office.addPlace', place, callerOf(null, { front: 'ask' }))).toMatchObject({ code: 'NOT_ALLOWED', remedy: 'Say who acts with --as INITIALS.' });
    expect(await refused(small, 'office.addPlace', place, callerOf(null, { personId: 'nobody' }))).toMatchObject({ code: 'NOT_ALLOWED' });
  });
  it('needs the role that the contract asks, and says which', async () => {
    const small = await openSmallRoom({ 'office.addPerson': () => ({ id: 'p' }) });
    expect(await refused(small, 'office.addPerson', person, callerOf(HAND))).toMatchObject({ code: 'NOT_ALLOWED', message: 'This needs a manager; HA is a kitchen hand.', remedy: 'Ask a manager to do it.' });
    expect(await small.room.ask('office.addPerson', person, callerOf(MANAGER))).toEqual({ ok: true, value: { id: 'p' } });
  });
  it('writes under the person’s name and device, and is announced once it stands', async () => {
    const small = await openSmallRoom({
      'office.addPlace': addPlace,
      'recipe.list': (room) => {
        expect(room.book.entriesAbout([String(small.announced[0]?.ids[0])])).toMatchObject([{ person: 'HA', device: 'tablet', summary: 'Added Walk-in' }]);
        return { recipes: [] };
      },
    });
    small.announced.length = 0;
    const reply = await small.room.ask('office.addPlace', place, callerOf(HAND, { device: 'tablet' }));
    expect(reply.ok).toBe(true);
    expect(small.announced).toEqual([{ subject: 'office', ids: [expect.any(String)] }]);
    expect((await small.room.ask('recipe.list', {}, callerOf(null))).ok).toBe(true);
  });
  it('that fails leaves nothing and announces nothing', async () => {
    const small = await openSmallRoom({
      'office.addPlace': (room, input) => {
        addPlace(room, input);
        throw new Error('too late');
      },
      'recipe.list': (room) => {
        expect(room.book.shelf('places').all()).toEqual([]);
        expect(room.book.checkChain().entries).toBe(0);
        return { recipes: [] };
      },
    });
    small.announced.length = 0;
    expect((await refused(small, 'office.addPlace', place, callerOf(HAND))).code).toBe('INTERNAL');
    expect(small.announced).toEqual([]);
    expect((await small.room.ask('recipe.list', {}, callerOf(null))).ok).toBe(true);
  });
  it('whose answer does not fit the contract leaves nothing either', async () => {
    const small = await openSmallRoom({
      'office.addPlace': (room, input) => ({ ...addPlace(room, input), extra: 1 }) as { id: string },
      'recipe.list': (room) => {
        expect(room.book.shelf('places').all()).toEqual([]);
        return { recipes: [] };
      },
    });
    expect((await refused(small, 'office.addPlace', place, callerOf(HAND))).code).toBe('INTERNAL');
    expect((await small.room.ask('recipe.list', {}, callerOf(null))).ok).toBe(true);
  });
  it('is prepared outside its transaction, and prepared things reach it', async () => {
    const small = await openSmallRoom({
      'office.addPlace': {
        prepare: async (room, input) => {
          expect(() => room.book.record({ kind: 'x', subjectId: 'x', happenedAtMs: null, summary: '', after: null })).toThrow('A query tried to write');
          await new Promise((resolve) => setTimeout(resolve, 5));
          return `${input.name}!`;
        },
        commit: (room, input, prepared) => addPlace(room, { ...input, name: String(prepared) }),
      },
      'recipe.list': (room) => {
        expect(room.book.shelf('places').all().map(({ name }) => name)).toEqual(['Walk-in!']);
        return { recipes: [] };
      },
    });
    expect((await small.room.ask('office.addPlace', place, callerOf(HAND))).ok).toBe(true);
    expect((await small.room.ask('recipe.list', {}, callerOf(null))).ok).toBe(true);
  });
});

describe('a command sent twice under one id', () => {
  it('is done once and gets the first answer', async () => {
    const small = await openSmallRoom({ 'office.addPlace': addPlace });
    small.announced.length = 0;
    const first = await small.room.ask('office.addPlace', place, callerOf(HAND, { commandId: 'c-1' }));
    const second = await small.room.ask('office.addPlace', { ...place }, callerOf(HAND, { commandId: 'c-1' }));
    const third = await small.room.ask('office.addPlace', place, callerOf(HAND, { commandId: 'c-2' }));
    expect(second).toEqual(first);
    expect(third).not.toEqual(first);
    expect(small.announced).toHaveLength(2);
  });
  it('is done once even when both are under way together', async () => {
    const small = await openSmallRoom({
      'office.addPlace': { prepare: () => new Promise((resolve) => setTimeout(resolve, 10)), commit: (room, input) => addPlace(room, input) },
    });
    const caller = callerOf(HAND, { commandId: 'c-1' });
    const [first, second] = await Promise.all([small.room.ask('office.addPlace', place, caller), small.room.ask('office.addPlace', place, caller)]);
    expect(first.ok).toBe(true);
    expect(second).toEqual(first);
  });
  it('is refused when it says something else', async () => {
    const small = await openSmallRoom({ 'office.addPlace': addPlace });
    await small.room.ask('office.addPlace', place, callerOf(HAND, { commandId: 'c-1' }));
    expect(await refused(small, 'office.addPlace', { ...place, name: 'Other' }, callerOf(HAND, { commandId: 'c-1' }))).toMatchObject({ code: 'CONFLICT' });
  });
  it('may be sent again after it was refused', async () => {
    let isReady = false;
    const small = await openSmallRoom({
      'office.addPlace': (room, input) => {
        if (!isReady) throw new Error('not yet');
        return addPlace(room, input);
      },
    });
    const caller = callerOf(HAND, { commandId: 'c-1' });
    expect((await small.room.ask('office.addPlace', place, caller)).ok).toBe(false);
    isReady = true;
    expect((await small.room.ask('office.addPlace', place, caller)).ok).toBe(true);
  });
});

describe('a book that may only be looked at', () => {
  it('answers questions and refuses commands and files with a sentence', async () => {
    const small = await openSmallRoom({ 'recipe.list': () => ({ recipes: [] }), 'office.addPlace': addPlace }, { prepareFile: (file) => chmodSync(file, 0o444) });
    expect(await small.room.ask('recipe.list', {}, callerOf(null))).toEqual({ ok: true, value: { recipes: [] } });
    expect(await refused(small, 'office.addPlace', place, callerOf(MANAGER))).toMatchObject({ code: 'BOOK_READ_ONLY', message: 'kitchen.alderbook can only be looked at: its file or folder is read-only.' });
    expect(await small.room.takeFile('log.csv', Uint8Array.of(1))).toMatchObject({ ok: false, error: { code: 'BOOK_READ_ONLY' } });
  });
});

describe('a file for the inbox', () => {
  it('needs an open book', async () => {
    const small = await openSmallRoom({}, { book: false });
    expect(await small.room.takeFile('log.csv', Uint8Array.of(1))).toMatchObject({ ok: false, error: { code: 'NO_BOOK' } });
  });
  it('gets one id for the same bytes', async () => {
    const small = await openSmallRoom({});
    const first = await small.room.takeFile('a.csv', Uint8Array.of(1, 2));
    expect(first).toMatchObject({ ok: true });
    expect(await small.room.takeFile('b.csv', Uint8Array.of(1, 2))).toEqual(first);
    expect(await small.room.takeFile('c.csv', Uint8Array.of(2))).not.toEqual(first);
  });
});
