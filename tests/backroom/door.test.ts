import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type Door, type DoorOptions, type Heard, type LogLine, openDoor } from '../../main/backroom/door.ts';
import { makeBookFolder } from '../support/book-folder.ts';
import { callerOf } from '../support/small-room.ts';

const WORKER = new URL('../../main/backroom/worker.ts', import.meta.url);
const HAND = new URL('../../main/backroom/hands/hand.ts', import.meta.url);
const nobody = callerOf(null);
const START = {
  kitchen: {
    name: 'Door Kitchen', address: { street: '1 Dock Road', city: 'Rainy Point', region: 'Minnesota', postalCode: '56600' },
    timeZone: 'America/Chicago', temperatureUnit: 'F', massUnit: 'lb', kind: 'food-service', decidingSetId: 'lodge-default',
  },
  people: [{ initials: 'MG', name: 'Maja Grant', role: 'manager' }],
};

interface Opened {
  readonly door: Door;
  readonly heard: Heard[];
  readonly lines: LogLine[];
}

function open(options: Partial<DoorOptions>): Opened {
  const lines: LogLine[] = [];
  const heard: Heard[] = [];
  const door = openDoor({ workerFile: null, handFile: null, bookFile: null, dataFolder: null, demo: false, version: '1.2.3', log: (line) => lines.push(line), ...options });
  door.subscribe((event) => heard.push(event));
  onTestFinished(() => door.close());
  return { door, heard, lines };
}

/** A value of an answer that must be good. */
async function valueOf(door: Door, name: string, input: unknown = {}): Promise<Record<string, unknown>> {
  const reply = await door.ask(name, input, nobody);
  if (!reply.ok) throw new Error(`${name}: ${reply.error.code} ${reply.error.message}`);
  return reply.value as Record<string, unknown>;
}

describe.each([
  ['in its own thread', { workerFile: WORKER, handFile: HAND }],
  ['in this thread', { workerFile: null, handFile: null }],
])('the door, with the back room %s', (_where, where) => {
  it('begins without a book, starts one in the data folder, and closes it to one file', async () => {
    const folder = makeBookFolder();
    const { door, heard, lines } = open({ ...where, dataFolder: folder });
    expect(await valueOf(door, 'book.status')).toMatchObject({ state: 'none', version: '1.2.3', fault: null });
    expect(await valueOf(door, 'book.start', START)).toMatchObject({ state: 'open', kitchen: { name: 'Door Kitchen', demo: false }, people: [{ initials: 'MG' }] });
    expect(heard.at(-1)).toMatchObject({ subject: 'book' });
    expect(await door.takeFile('log.csv', Uint8Array.of(65, 66))).toMatchObject({ ok: true });
    expect(lines.map((line) => line.what)).toEqual(expect.arrayContaining(['book.status', 'book.start', 'take file']));
    await door.close();
    expect(readdirSync(folder)).toEqual(['kitchen.alderbook']);
  });
  it('gives a reply as text, whether it is an answer or a refusal', async () => {
    const { door } = open({ ...where, dataFolder: makeBookFolder() });
    for (const [name, input] of [['fish.species', {}], ['nothing.like.it', {}], ['batch.get', { batchId: 'ä' }]] as const) {
      const text = new TextDecoder().decode(await door.askText(name, input, nobody));
      const reply = await door.ask(name, input, nobody);
      expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(reply)));
    }
  });
  it('opens the book that is there', async () => {
    const folder = makeBookFolder();
    const first = open({ ...where, dataFolder: folder }).door;
    await valueOf(first, 'book.start', START);
    await first.close();
    expect(await valueOf(open({ ...where, dataFolder: folder }).door, 'book.status')).toMatchObject({ state: 'open', kitchen: { name: 'Door Kitchen' } });
  });
  it('does not start a second book beside the open one, nor over a file', async () => {
    const folder = makeBookFolder();
    const { door } = open({ ...where, bookFile: join(folder, 'one.alderbook') });
    await valueOf(door, 'book.start', START);
    expect(await door.ask('book.start', START, nobody)).toMatchObject({ ok: false, error: { code: 'CONFLICT', message: 'one.alderbook is open already.' } });
    expect(readdirSync(folder).filter((name) => name.endsWith('.alderbook'))).toEqual(['one.alderbook']);
  });
  it('says why a file can’t be opened, and never writes over it', async () => {
    const folder = makeBookFolder();
    const file = join(folder, 'letter.alderbook');
    writeFileSync(file, 'Dear guests');
    const { door } = open({ ...where, bookFile: file });
    expect(await valueOf(door, 'book.status')).toMatchObject({ state: 'refused', fault: { code: 'BOOK_DAMAGED', message: 'letter.alderbook is not an Alderbook book.' } });
    expect(await door.ask('book.start', START, nobody)).toMatchObject({ ok: false, error: { code: 'BOOK_DAMAGED' } });
    expect(readdirSync(folder)).toEqual(['letter.alderbook']);
  });
  it('opens the demonstration kitchen when told to, making its book once', async () => {
    const folder = makeBookFolder();
    const first = open({ ...where, dataFolder: folder, demo: true }).door;
    const made = await valueOf(first, 'book.status');
    expect(made).toMatchObject({ state: 'open', kitchen: { demo: true } });
    await first.close();
    expect(readdirSync(folder)).toEqual(['demonstration.alderbook']);
    const again = await valueOf(open({ ...where, dataFolder: folder, demo: true }).door, 'book.status');
    expect(again['people']).toEqual(made['people']);
  });
  it('backs the open book up', async () => {
    const folder = makeBookFolder();
    const { door } = open({ ...where, dataFolder: folder });
    await valueOf(door, 'book.start', START);
    const { fileName, bytes } = await valueOf(door, 'book.backUp');
    expect(fileName).toMatch(/^kitchen-\d{4}-\d\d-\d\d-1\.backup\.alderbook$/);
    expect(Number(bytes)).toBeGreaterThan(1000);
    expect(readdirSync(folder)).toContain(fileName);
  });
});
