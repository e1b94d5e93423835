/** A kitchen for benches: the back room behind its door as the program runs it, on a book in a folder of its own. */
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { type Door, openDoor } from '../../main/backroom/door.ts';

const HOUR_MS = 3_600_000;
const MAIN = new URL('../../main/', import.meta.url);

/** 14 July 2026, 05:00 in the kitchen: no clock changes for months. */
export const LOAD_START_MS = Date.UTC(2026, 6, 14, 10);

export interface BenchKitchen {
  readonly door: Door;
  readonly file: string;
  /** Answers the value; throws where the request is refused. */
  ask<N extends RequestName>(name: N, input: Input<N>): Promise<Output<N>>;
  takeFile(fileName: string, bytes: Uint8Array): Promise<string>;
  /** Closes the book, so that it is one file, and leaves it there. */
  close(): Promise<void>;
  /** Closes the book and removes its folder. */
  remove(): Promise<void>;
}

/**
 * Opens a book, making it if it isn't there: with the back room and its helper in threads of their own, from source.
 * @param bookFile left out: a new one
 */
export async function openBenchKitchen(bookFile?: string): Promise<BenchKitchen> {
  const folder = bookFile === undefined ? mkdtempSync(join(tmpdir(), 'alderbook-bench-')) : null;
  const file = bookFile ?? join(folder ?? '', 'kitchen.alderbook');
  const problems: string[] = [];
  const door = openDoor({
    bookFile: file, dataFolder: null, demo: false, version: 'bench',
    workerFile: new URL('backroom/worker.ts', MAIN), handFile: new URL('backroom/hands/hand.ts', MAIN),
    log: (line) => { if (line.level === 'error') problems.push(line.detail ?? line.what); },
  });
  let personId: string | null = null;
  async function ask<N extends RequestName>(name: N, input: Input<N>): Promise<Output<N>> {
    const reply = await door.ask(name, input, { front: 'window', device: 'this computer', personId, commandId: randomUUID() });
    if (!reply.ok) throw new Error(`${name}: ${reply.error.message} ${problems.join('\n')}`);
    // Dispatch has parsed the value by the request's own output schema.
    return reply.value as Output<N>;
  }
  const status = await ask('book.status', {});
  if (status.people.length === 0) await ask('book.start', { kitchen: KITCHEN, people: [{ initials: 'MG', name: 'Maja Grant', role: 'manager' }] });
  personId = (await ask('book.status', {})).people[0]?.id ?? null;
  return {
    door, file, ask,
    async takeFile(fileName, bytes) {
      const reply = await door.takeFile(fileName, bytes);
      if (!reply.ok) throw new Error(reply.error.message);
      return reply.value.fileId;
    },
    close: () => door.close(),
    async remove() {
      await door.close();
      if (folder !== null) rmSync(folder, { recursive: true, force: true });
    },
  };
}

const KITCHEN: Input<'book.start'>['kitchen'] = {
  name: 'Bench Kitchen', address: { street: '1 Dock Road', city: 'Rainy Point', region: 'Minnesota', postalCode: '56600' },
  timeZone: 'America/Chicago', temperatureUnit: 'F', massUnit: 'lb', kind: 'food-service', decidingSetId: 'lodge-default',
};

type Load = Output<'load.open'>['load'];

/** A batch that was brined before `LOAD_START_MS`, in a load of so many pieces, each with a thermometer of its own, and the chamber. */
export async function openBenchLoad(kitchen: BenchKitchen, pieces: number): Promise<Load> {
  const { ask } = kitchen;
  const instrument = async (name: string): Promise<string> => (await ask('office.addInstrument', { name, kind: 'wired-probe', error: { text: '1', unit: 'F' } })).id;
  const probeIds: string[] = [];
  for (let piece = 1; piece <= pieces; piece += 1) probeIds.push(await instrument(`Probe ${piece} of ${randomUUID().slice(0, 8)}`));
  const chamberInstrumentId = await instrument(`Chamber probe ${randomUUID().slice(0, 8)}`);
  const smoker = await ask('office.addSmoker', { name: `Smoker ${randomUUID().slice(0, 8)}`, chamberInstrumentId, probeIds });
  const { lot } = await ask('fishLot.receive', {
    source: { kind: 'supplier', supplierName: 'Grey Rock Fishery', supplierLot: 'GR-1' }, speciesId: 'Coregonus clupeaformis', form: 'fillet-skin-on', pieces: 24,
    caughtAtMs: null, icedAtMs: null, receivedAtMs: LOAD_START_MS - 4 * HOUR_MS, mass: { text: '10', unit: 'lb' }, temperature: null, note: '',
  });
  const { batch } = await ask('batch.make', {
    recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' }, thickestMm: 25, skin: 'on', process: 'hot', pack: 'vacuum', store: 'frozen',
  });
  await ask('soak.log', { batchId: batch.id, what: 'start', atMs: LOAD_START_MS - 3 * HOUR_MS, brine: { text: '38', unit: 'F' }, room: null, brineReused: false });
  await ask('soak.log', { batchId: batch.id, what: 'end', atMs: LOAD_START_MS - HOUR_MS, brine: { text: '38', unit: 'F' }, room: null });
  const { load } = await ask('load.open', {
    smokerId: smoker.id, batchIds: [batch.id], chamberInstrumentId: null,
    pieces: probeIds.map((instrumentId, index) => ({ name: `Piece ${index + 1}`, batchId: batch.id, thicknessMm: 25, rackPlace: '', instrumentId })),
  });
  return load;
}
