import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { Connection } from '../../main/backroom/book/connection.ts';
import { knowDocuments } from '../../main/backroom/book/known-documents.ts';
import { connect } from '../../main/backroom/book/open.ts';
import { rememberAnswers } from '../../main/backroom/book/remembered-answers.ts';
import { makeBook, makeBookFolder, openForTest, recordOne, write } from '../support/book-folder.ts';

/** Answers of a shelf that is a plain value here, and how often it was looked at. */
function shelfOf(database: Pick<Connection, 'inTransaction'>) {
  const answers = rememberAnswers(database);
  let [value, looks] = ['first', 0];
  return {
    ask: (question = 'all') => answers.of(question, () => {
      looks += 1;
      return value;
    }),
    put(next: string): void {
      answers.forget();
      value = next;
    },
    looks: () => looks,
  };
}

function connectNew(): Connection {
  const file = join(makeBookFolder(), 'kitchen.alderbook');
  makeBook(file);
  const database = connect(file);
  onTestFinished(() => { database.close(); });
  return database;
}

describe('What a shelf answered', () => {
  it('is given again without looking, each question by itself, until something is put on it', () => {
    const shelf = shelfOf({ inTransaction: false });
    expect([shelf.ask(), shelf.ask(), shelf.ask('id a'), shelf.looks()]).toEqual(['first', 'first', 'first', 2]);
    shelf.put('second');
    expect([shelf.ask(), shelf.ask('id a'), shelf.looks()]).toEqual(['second', 'second', 4]);
  });
  it('is remembered too where it was that there is nothing', () => {
    const answers = rememberAnswers({ inTransaction: false });
    let looks = 0;
    const ask = (): unknown => answers.of('id a', () => {
      looks += 1;
      return undefined;
    });
    expect([ask(), ask(), looks]).toEqual([undefined, undefined, 1]);
  });
  it('within a command is not remembered: it is gone where the command is taken back', () => {
    const database = connectNew();
    const shelf = shelfOf(database);
    expect(shelf.ask()).toBe('first');
    expect(() => database.transaction(() => {
      shelf.put('in vain');
      expect([shelf.ask(), shelf.ask('id a')]).toEqual(['in vain', 'in vain']);
      throw new Error('taken back');
    })()).toThrow('taken back');
    expect(shelf.looks()).toBe(3);
    shelf.ask();
    shelf.ask('id a');
    expect(shelf.looks()).toBe(5);
  });
  it('is no answer where looking failed, and is looked for again', () => {
    const answers = rememberAnswers({ inTransaction: false });
    const damaged = (): never => { throw new Error('damaged'); };
    expect(() => answers.of('all', damaged)).toThrow('damaged');
    expect(answers.of('all', () => 'read')).toBe('read');
  });
});

describe('Documents known by their text', () => {
  it('are parsed once a text, and anew where the text is another or was another in between', () => {
    const known = knowDocuments();
    let parsed = 0;
    const ask = (body: string): unknown => known.of('a', body, (text) => {
      parsed += 1;
      return { text };
    });
    const first = ask('one');
    expect(ask('one')).toBe(first);
    expect(ask('two')).toEqual({ text: 'two' });
    expect(ask('one')).toEqual({ text: 'one' });
    expect(parsed).toBe(3);
  });
  it('are told apart by their ids, though the text be the same', () => {
    const known = knowDocuments();
    const of = (id: string): unknown => known.of(id, 'same', () => ({ id }));
    expect([of('a'), of('b'), of('a')]).toEqual([{ id: 'a' }, { id: 'b' }, { id: 'a' }]);
  });
  it('stay as they were where a new text can’t be read', () => {
    const known = knowDocuments();
    known.of('a', 'good', () => ({ fine: true }));
    expect(() => known.of('a', 'bad', () => { throw new Error('damaged'); })).toThrow('damaged');
    expect(known.of('a', 'good', () => ({ fine: false }))).toEqual({ fine: true });
  });
  it('are kept whole though one alone is more than there is room for', () => {
    const known = knowDocuments(3);
    let parsed = 0;
    const ask = (id: string): unknown => known.of(id, 'longer', () => (parsed += 1));
    expect([ask('a'), ask('a'), ask('b'), ask('b'), ask('a')]).toEqual([1, 1, 2, 2, 3]);
  });
});

describe('Two books in one program', () => {
  it('remember nothing of each other', () => {
    const folder = makeBookFolder();
    const [one, other] = ['one', 'other'].map((name) => {
      const file = join(folder, `${name}.alderbook`);
      makeBook(file);
      const handle = openForTest(file);
      write(handle, (book) => {
        book.shelf('places').put({ id: 'place-1', name, kind: 'cooler' });
        book.keepReadings({ pointId: 'place-1', instrumentId: null, how: 'by-hand', source: 'typed', unit: 'C', rows: [{ atMs: 1000, lowTicks: name.length, highTicks: name.length, text: '0' }] });
        recordOne(book);
      });
      return () => [handle.reader().shelf('places').need('place-1').name, handle.reader().readings('place-1')[0]?.lowTicks, handle.reader().seriesOf('place-1').lowTicks[0]];
    });
    expect([one?.(), other?.(), one?.()]).toEqual([['one', 3, 3], ['other', 5, 5], ['one', 3, 3]]);
  });
});
