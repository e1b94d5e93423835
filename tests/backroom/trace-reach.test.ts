/** Traces from a thermometer, a day and a person: whatever they had to do with. */
import { describe, expect, it } from 'vitest';
import { HOUR_MS, makeBatch, receive, soakInput } from './fish-and-brine.ts';
import { movePack, openPackedKitchen, type PackedKitchen, writeInto } from './trace-kitchen.ts';

const DAY_MS = 24 * HOUR_MS;

/** A new hand thermometer. */
async function addThermometer({ kitchen }: PackedKitchen): Promise<string> {
  return (await kitchen.ask('office.addInstrument', { name: 'Spare', kind: 'hand-thermometer', error: { text: '1', unit: 'F' } })).id;
}

async function read({ kitchen }: PackedKitchen, pointId: string, instrumentId: string): Promise<void> {
  await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId, atMs: kitchen.clock.nowMs(), value: { text: '-2', unit: 'F' }, instrumentId }] });
}

describe('a trace from a thermometer', () => {
  it('has the packs on a tray whose probe it is, and those in a freezer that isn’t the batch’s last', async () => {
    const packed = await openPackedKitchen();
    const probeId = await addThermometer(packed);
    const readId = (await packed.kitchen.ask('office.addInstrument', { name: 'Wall', kind: 'hand-thermometer', error: { text: '1', unit: 'F' } })).id;
    const { id: otherId } = await packed.kitchen.ask('office.addPlace', { name: 'Second freezer', kind: 'freezer' });
    const nowMs = packed.kitchen.clock.nowMs();
    await packed.kitchen.ask('tray.make', { batchId: packed.batchId, name: '', packIds: packed.packs.slice(12, 18).map(({ id }) => id), placeId: otherId, spot: '', atMs: nowMs, probe: { in: 'fish', instrumentId: probeId } });
    await packed.kitchen.ask('tray.make', { batchId: packed.batchId, name: '', packIds: packed.packs.slice(18).map(({ id }) => id), placeId: packed.freezerId, spot: '', atMs: nowMs, probe: null });
    await read(packed, otherId, readId);
    for (const id of [probeId, readId]) expect((await packed.kitchen.ask('trace.get', { kind: 'thermometer', id })).packs).toBe(24);
    const { table } = await packed.kitchen.ask('record.batch', { batchId: packed.batchId });
    expect(table.points.slice(4).map(({ name, readings }) => [name, readings])).toEqual([['Second freezer', 1], ['Chest freezer', 0], ['Probe in a fish, Tray 1', 0]]);
  });

  it('has a batch that soaked where it read, though nobody said in which room its tub stands', async () => {
    const packed = await openPackedKitchen();
    const id = await addThermometer(packed);
    const soaking = await makeBatch(packed.kitchen, [(await receive(packed.kitchen)).id]);
    await packed.kitchen.ask('soak.log', soakInput(soaking.id, 'start', packed.kitchen.clock.nowMs()));
    await read(packed, packed.roomId, id);
    const { nodes } = await packed.kitchen.ask('trace.get', { kind: 'thermometer', id });
    expect(nodes.filter(({ kind }) => kind === 'batch').map((node) => node.id)).toEqual([soaking.id]);
  });
});

describe('a trace from a day', () => {
  it('has fish that smoked through it, though nothing was marked on it', async () => {
    const packed = await openPackedKitchen();
    const kitchen = await writeInto(packed.kitchen, packed.kitchen.clock.nowMs(), (book) => {
      const load = book.shelf('loads').need(packed.loadId);
      book.shelf('loads').put({ ...load, outAtMs: (load.outAtMs ?? 0) + 4 * DAY_MS, cooledAtMs: null });
      book.record({ kind: 'test.write', subjectId: 'book', happenedAtMs: null, summary: 'A long smoke.', after: {} });
    });
    expect((await kitchen.ask('trace.get', { kind: 'day', id: '2026-11-27' })).packs).toBe(24);
    expect((await kitchen.reply('trace.get', { kind: 'day', id: '2026-11-24' })).ok).toBe(false);
  });

  it('has fish that still soaks, and a bag that was delivered', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    const soaking = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    await kitchen.ask('soak.log', soakInput(soaking.id, 'start', kitchen.clock.nowMs()));
    kitchen.clock.advance(2 * DAY_MS);
    const ingredientId = soaking.card.lines[0]?.ingredientId ?? '';
    const { lot } = await kitchen.ask('ingredientLot.receive', { ingredientId, lotCode: 'B-1', supplierName: '', receivedAtMs: kitchen.clock.nowMs(), inUse: false });
    const { nodes } = await kitchen.ask('trace.get', { kind: 'day', id: '2026-11-27' });
    expect(nodes.filter(({ side }) => side === 'start').map(({ id }) => id)).toEqual([lot.id, soaking.id]);
  });

  it('has the packs that were moved on it, and their batch isn’t recalled without the rest', async () => {
    const packed = await openPackedKitchen();
    packed.kitchen.clock.advance(3 * DAY_MS);
    const kitchen = await movePack(packed.kitchen, packed.packs[20]?.id ?? '', { what: 'out-of-store' });
    expect((await kitchen.ask('trace.get', { kind: 'day', id: '2026-11-28' })).packs).toBe(1);
    expect((await kitchen.ask('recall.start', { isDrill: true, kind: 'day', id: '2026-11-28' })).recall.packs).toHaveLength(24);
  });
});

describe('a trace from a person', () => {
  it('has what they marked of a load, and the packs they moved', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    expect((await kitchen.reply('trace.get', { kind: 'person', id: 'HA' })).ok).toBe(false);
    await kitchen.ask('pack.move', { packIds: packed.packs.slice(12, 14).map(({ id }) => id), what: 'out-of-store', placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: '' }, 'HA');
    expect((await kitchen.ask('trace.get', { kind: 'person', id: 'HA' })).packs).toBe(2);
    await kitchen.ask('batch.weigh', { batchId: packed.batchId, what: 'finished', mass: { text: '6', unit: 'lb' }, atMs: kitchen.clock.nowMs() }, 'HA');
    expect((await kitchen.ask('trace.get', { kind: 'person', id: 'HA' })).packs).toBe(24);
  });
});

describe('brine that was used again', () => {
  it('leads from the bag of the first brine to the batch that lay in it later', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    const first = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    const ingredientId = first.card.lines.find((line) => line.saltGrams > 0)?.ingredientId ?? '';
    const { lot: bag } = await kitchen.ask('ingredientLot.receive', { ingredientId, lotCode: 'S-9', supplierName: '', receivedAtMs: kitchen.clock.nowMs(), inUse: true });
    await kitchen.ask('soak.log', soakInput(first.id, 'start', kitchen.clock.nowMs(), { tub: 'Blue' }));
    kitchen.clock.advance(HOUR_MS);
    await kitchen.ask('soak.log', soakInput(first.id, 'end', kitchen.clock.nowMs()));
    await kitchen.ask('ingredientLot.use', { lotId: bag.id, inUse: false });
    const later = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    kitchen.clock.advance(HOUR_MS);
    await kitchen.ask('soak.log', soakInput(later.id, 'start', kitchen.clock.nowMs(), { tub: 'blue ', brineReused: true }));
    const trace = await kitchen.ask('trace.get', { kind: 'ingredient-lot', id: bag.id });
    expect(trace.nodes.filter(({ kind }) => kind === 'batch').map(({ id }) => id)).toEqual([first.id, later.id]);
    expect(trace.nodes.find(({ id }) => id === later.id)?.facts).toContain(`its brine was used before, for ${first.shortName}`);
  });
});

describe('a soak that was entered late', () => {
  it('counts the bag that was in use then and the one that is now', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    const batch = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    const ingredientId = batch.card.lines.find((line) => line.saltGrams > 0)?.ingredientId ?? '';
    const bag = async (lotCode: string) => (await kitchen.ask('ingredientLot.receive', { ingredientId, lotCode, supplierName: '', receivedAtMs: kitchen.clock.nowMs(), inUse: true })).lot;
    await bag('S-1');
    kitchen.clock.advance(HOUR_MS);
    await bag('S-2');
    kitchen.clock.advance(HOUR_MS);
    const startMs = kitchen.clock.nowMs();
    kitchen.clock.advance(HOUR_MS);
    await bag('S-3');
    await kitchen.ask('soak.log', soakInput(batch.id, 'start', startMs));
    const { lots } = await kitchen.ask('ingredientLot.list', {});
    expect(lots.filter(({ usedIn }) => usedIn.length > 0).map(({ lotCode }) => lotCode).sort()).toEqual(['S-2', 'S-3']);
  });
});
