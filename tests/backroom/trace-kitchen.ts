/** A kitchen with a smoked batch in 24 packs: half of them handed to a party, half in the freezer, as the book keeps it. */
import { randomUUID } from 'node:crypto';
import type { Output } from '../../app/contract/contract.ts';
import type { HandOver, PackMove } from '../../app/contract/requests/packs-where.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import type { OpenBook } from '../../main/backroom/room.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { openSmokeKitchen, releaseInput, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';

type Pack = Output<'pack.seal'>['packs'][number];

export interface PackedKitchen extends Omit<SmokeKitchen, 'kitchen'> {
  readonly kitchen: TestKitchen;
  readonly packs: readonly Pack[];
  readonly guestId: string;
  readonly handOverId: string;
  readonly loadId: string;
}

/** Packs 1 to 12 of a quarter of a pound go to the party, 13 to 24 into the chest freezer. */
export async function openPackedKitchen(batch: Parameters<typeof openSmokeKitchen>[0] = {}, lot: Parameters<typeof openSmokeKitchen>[1] = {}): Promise<PackedKitchen> {
  const smoke = await openSmokeKitchen(batch, lot);
  const { load } = await smokeAndCool(smoke);
  await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
  const { packs } = await smoke.kitchen.ask('pack.seal', {
    batchId: smoke.batchId, weights: Array.from({ length: 24 }, () => ({ text: '0.25', unit: 'lb' as const })), sealedAtMs: smoke.kitchen.clock.nowMs(),
  });
  const atMs = smoke.kitchen.clock.nowMs();
  const guestId = randomUUID();
  const handOver: HandOver = {
    id: randomUUID(), guestId, atMs, packIds: packs.slice(0, 12).map(({ id }) => id), of: 12, frozenHard: { how: 'touch', ticks: null, text: '' },
    box: 'foam box', travelHours: 6, missed: [], signature: { path: 'M10 10L60 40', name: 'Per Lund' }, sheetGiven: true, why: '', initials: 'MG',
  };
  const kitchen = await writeInto(smoke.kitchen, atMs, (book) => {
    book.shelf('guests').put({ id: guestId, kind: 'party', name: 'Lund party', contact: '555 0144', address: '', room: '7', checkoutDay: null });
    book.shelf('handOvers').put(handOver);
    for (const [index, pack] of packs.entries()) book.shelf('packMoves').put(moveOf(pack.id, index < 12 ? { what: 'handed-over', handOverId: handOver.id } : { what: 'into-store', placeId: smoke.freezerId, spot: 'basket 2' }, atMs));
    book.record({ kind: 'handOver.make', subjectId: handOver.id, happenedAtMs: atMs, summary: 'Handed 12 packs to Lund party.', after: handOver });
  });
  return { ...smoke, kitchen, packs, guestId, handOverId: handOver.id, loadId: load.id };
}

function moveOf(packId: string, more: Pick<PackMove, 'what'> & Partial<PackMove>, atMs: number): PackMove {
  return { id: randomUUID(), packId, atMs, placeId: null, spot: '', handOverId: null, why: '', initials: 'MG', ...more };
}

/** One more move of a pack, as the cold store keeps it. */
export async function movePack(kitchen: TestKitchen, packId: string, more: Pick<PackMove, 'what'> & Partial<PackMove>): Promise<TestKitchen> {
  return writeInto(kitchen, kitchen.clock.nowMs(), (book) => {
    const move = moveOf(packId, more, kitchen.clock.nowMs());
    book.shelf('packMoves').put(move);
    book.record({ kind: 'pack.move', subjectId: packId, happenedAtMs: move.atMs, summary: 'Moved a pack.', after: move });
  });
}

/** Closes the kitchen, writes into its book, and opens it again. */
export async function writeInto(kitchen: TestKitchen, nowMs: number, write: (book: OpenBook) => void): Promise<TestKitchen> {
  await kitchen.close();
  const handle = openBookFile(kitchen.file, { clock: { nowMs: () => nowMs } });
  handle.command((as) => write(as({ personId: null, initials: 'MG', device: 'this computer', commandId: null, nowMs: () => nowMs, newId: randomUUID })));
  handle.close();
  return openTestKitchen({ bookFile: kitchen.file, nowMs });
}
