import { describe, expect, it, onTestFinished } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import type { BookRoom, OpenBook } from '../../main/backroom/room.ts';
import { describe as describeNode } from '../../main/backroom/services/trace-words.ts';
import { traceOf } from '../../main/backroom/services/trace.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { COHO, guest, HOUR_MS, makeBatch, receive, soakInput } from './fish-and-brine.ts';
import { refusal } from './smoke-kitchen.ts';
import { movePack, openPackedKitchen, type PackedKitchen } from './trace-kitchen.ts';

type Trace = Output<'trace.get'>;

function finishSteps<T>(work: Generator<undefined, T>): T {
  let step = work.next();
  while (step.done !== true) step = work.next();
  return step.value;
}

/** How many things of each kind, by the side they are on. */
function counts({ nodes }: Trace): Record<string, number> {
  const found: Record<string, number> = {};
  for (const { kind, side } of nodes) found[`${side} ${kind}`] = (found[`${side} ${kind}`] ?? 0) + 1;
  return found;
}

function firstPack({ packs }: PackedKitchen): { id: string; code: string } {
  const [pack] = packs;
  if (pack === undefined) throw new Error('no pack');
  return pack;
}

describe('a trace', () => {
  it('from one pack goes back to the supplier and forward to who has it, with the load and its thermometers beside it', async () => {
    const packed = await openPackedKitchen();
    const pack = firstPack(packed);
    const trace = await packed.kitchen.ask('trace.get', { kind: 'pack', id: pack.id });
    expect(counts(trace)).toEqual({
      'start pack': 1, 'back batch': 1, 'back fish-lot': 1, 'back supplier': 1, 'forward recipient': 1, 'beside recipe': 1, 'beside load': 1, 'beside thermometer': 4,
    });
    expect(trace.nodes.find(({ kind }) => kind === 'recipient')).toMatchObject({ title: 'Lund party', facts: ['party', '555 0144', 'room 7'] });
    expect(trace.nodes.find(({ kind }) => kind === 'supplier')).toMatchObject({ title: 'Grey Rock Fishery' });
    expect(trace.nodes.find(({ kind }) => kind === 'pack')?.facts.at(-1)).toMatch(/^handed to Lund party, /);
    expect(trace.edges).toContainEqual({ from: `batch:${packed.batchId}`, to: `pack:${pack.id}` });
  });

  it('from its lot, supplier, load, recipe, thermometer, guest, day and person reaches all 24 packs and where they are', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    const lot = (await kitchen.ask('fishLot.list', {})).lots[0];
    const smokedOn = '2026-11-25';
    for (const start of [
      { kind: 'batch', id: packed.batchId }, { kind: 'fish-lot', id: lot?.id ?? '' }, { kind: 'supplier', id: '  grey rock FISHERY ' }, { kind: 'load', id: packed.loadId },
      { kind: 'recipe', id: 'plain-brine' }, { kind: 'recipe', id: 'plain-brine@1' }, { kind: 'thermometer', id: packed.probeIds[1] ?? '' }, { kind: 'day', id: smokedOn }, { kind: 'person', id: 'MG' },
    ] as const) {
      const trace = await kitchen.ask('trace.get', start);
      expect([start.kind, trace.packs], start.id).toEqual([start.kind, 24]);
      expect(trace.nodes.filter(({ kind }) => kind === 'recipient' || kind === 'place').map(({ title }) => title).sort(), start.kind).toEqual(['Chest freezer', 'Lund party']);
    }
    expect((await kitchen.ask('trace.get', { kind: 'guest', id: packed.guestId })).packs).toBe(12);
  });

  it('keeps a guest in it who gave a pack back', async () => {
    const packed = await openPackedKitchen();
    const pack = firstPack(packed);
    packed.kitchen.clock.advance(HOUR_MS);
    const kitchen = await movePack(packed.kitchen, pack.id, { what: 'returned', why: 'soft' });
    const trace = await kitchen.ask('trace.get', { kind: 'pack', id: pack.id });
    expect(trace.nodes.filter(({ side }) => side === 'forward').map(({ title }) => title)).toEqual(['Lund party', 'Back in the kitchen']);
  });

  it('from a guest who brought fish goes forward to its packs too', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen, { source: guest('Ida Moen') });
    await makeBatch(kitchen, [lot.id]);
    const trace = await kitchen.ask('trace.get', { kind: 'owner', id: 'ida moen' });
    expect(counts(trace)).toEqual({ 'start owner': 1, 'forward fish-lot': 1, 'forward batch': 1, 'beside recipe': 1 });
    expect(trace.title).toBe('Ida Moen');
  });

  it('from one pack looks everything up by id or key, and never through a whole shelf', async () => {
    const { kitchen, packs } = await openPackedKitchen();
    await kitchen.close();
    const handle = openBookFile(kitchen.file, { clock: kitchen.clock });
    onTestFinished(() => handle.close());
    const book = handle.reader();
    const keyed: OpenBook = {
      ...book,
      shelf: (name) => ({ ...book.shelf(name), all: () => { throw new Error(`the whole shelf ${name} was read`); } }),
    };
    // The walk reaches for the book and the catalogue alone.
    const room = { book: keyed, catalogue } as BookRoom;
    const { trace, shelf } = finishSteps(traceOf(room, 'pack', packs[0]?.id ?? ''));
    expect(trace.found.map(({ ref }) => describeNode(room, shelf, ref).title)).toContain('Lund party');
    expect(() => finishSteps(traceOf(room, 'supplier', 'Grey Rock Fishery'))).toThrow('the whole shelf fishLots was read');
  });

  it('is refused for what the book doesn’t have, with a sentence', async () => {
    const kitchen = await openTestKitchen();
    for (const start of [{ kind: 'pack', id: 'nowhere' }, { kind: 'supplier', id: 'Nobody' }, { kind: 'day', id: '2026-11-24' }, { kind: 'recipe', id: 'plain-brine' }] as const) {
      expect(await refusal(kitchen.reply('trace.get', start)), start.kind).toMatchObject({ code: 'NOT_FOUND', remedy: expect.any(String) });
    }
    expect(await refusal(kitchen.reply('trace.get', { kind: 'day', id: '2026-02-30' }))).toMatchObject({ code: 'INVALID_INPUT' });
  });
});

describe('finding where to start a trace', () => {
  it('knows a scanned pack, a lot, a fish lot and a day by their whole text', async () => {
    const packed = await openPackedKitchen();
    const pack = firstPack(packed);
    const lot = (await packed.kitchen.ask('fishLot.list', {})).lots[0];
    const lotCode = pack.code.slice(0, 9);
    for (const [text, kind] of [[pack.code, 'pack'], [`]d1${pack.code.toLowerCase()}`, 'pack'], [`(01)09520123456788(3103)000113(10)${lotCode}(21)001`, 'pack'], [lotCode, 'batch'], [lot?.code ?? '', 'fish-lot'], ['2026-11-25', 'day']] as const) {
      const found = await packed.kitchen.ask('trace.find', { text });
      expect(found.exact?.kind, text).toBe(kind);
    }
  });

  it('finds guests, suppliers, recipes, thermometers, people and ingredients’ lots by the beginning of a word', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    const ingredientId = (await kitchen.ask('ingredient.list', {})).ingredients[0]?.id ?? '';
    await kitchen.ask('ingredientLot.receive', { ingredientId, lotCode: 'DK-551', supplierName: 'Harbour Dry Goods', receivedAtMs: kitchen.clock.nowMs(), inUse: true });
    const kinds = async (text: string): Promise<string[]> => [...new Set((await kitchen.ask('trace.find', { text })).hits.map(({ kind }) => kind))];
    expect(await kinds('lund')).toEqual(['guest']);
    expect(await kinds('rock')).toEqual(['supplier']);
    expect(await kinds('plain')).toEqual(['recipe']);
    expect(await kinds('probe 2')).toEqual(['thermometer']);
    expect(await kinds('maja')).toEqual(['person']);
    expect(await kinds('gr-1')).toEqual(['fish-lot']);
    expect(await kinds('dk-551')).toEqual(['ingredient-lot']);
    expect(await kinds('dry goods')).toEqual(['supplier']);
  });

  it('says why a code leads nowhere', async () => {
    const kitchen = await openTestKitchen();
    const remark = async (text: string): Promise<string> => (await kitchen.ask('trace.find', { text })).remark;
    expect(await remark('CO26195AE-007')).toBe('CO26195AE-007 is no lot or pack of this book: it may come from another kitchen.');
    expect(await remark('CO26195AF-007')).toMatch(/check character/);
    expect(await remark('zander')).toBe('Nothing in the book is called “zander”.');
  });
});

describe('a complaint', () => {
  it('stands in the trace of its pack and on the record, with what came of it later', async () => {
    const packed = await openPackedKitchen();
    const { kitchen, batchId } = packed;
    const pack = firstPack(packed);
    const { complaint } = await kitchen.ask('complaint.add', { batchId, packId: pack.id, atMs: kitchen.clock.nowMs(), fromName: 'Per Lund', contact: '555 0144', what: 'Bag was blown up.' });
    const node = async () => (await kitchen.ask('trace.get', { kind: 'pack', id: pack.id })).nodes.find(({ kind }) => kind === 'complaint');
    expect(await node()).toMatchObject({ title: 'Complaint of Per Lund', side: 'forward', facts: expect.arrayContaining(['Bag was blown up.', 'not closed']) });
    await kitchen.ask('complaint.close', { complaintId: complaint.id, text: 'Seal was torn; pack destroyed.' });
    expect((await node())?.facts.at(-1)).toContain('Seal was torn');
    expect((await kitchen.ask('record.batch', { batchId })).complaints).toMatchObject([{ id: complaint.id, outcome: { initials: 'MG' } }]);
    expect(await refusal(kitchen.reply('complaint.close', { complaintId: complaint.id, text: 'Again.' }))).toMatchObject({ code: 'CONFLICT' });
    expect((await kitchen.ask('trace.find', { text: 'lund' })).hits.map(({ kind }) => kind)).toEqual(['guest', 'complaint']);
    expect((await kitchen.ask('trace.get', { kind: 'complaint', id: complaint.id })).nodes.some(({ kind, side }) => kind === 'fish-lot' && side === 'back')).toBe(true);
  });

  it('is refused about a pack of another batch, and before the pack was sealed', async () => {
    const packed = await openPackedKitchen();
    const { kitchen, batchId } = packed;
    const pack = firstPack(packed);
    const other = await makeBatch(kitchen, [(await receive(kitchen, { speciesId: COHO })).id]);
    const about = { packId: pack.id, fromName: 'X', contact: '', what: 'Y' };
    expect((await refusal(kitchen.reply('complaint.add', { ...about, batchId: other.id, atMs: kitchen.clock.nowMs() }))).message).toMatch(/is not of/);
    expect((await refusal(kitchen.reply('complaint.add', { ...about, batchId, atMs: kitchen.clock.nowMs() - 48 * HOUR_MS }))).message).toContain('the sealing of the pack was at');
  });
});

describe('a delivery of an ingredient', () => {
  it('in use goes into every brine begun from then on, and a trace from it reaches their packs', async () => {
    const kitchen = await openTestKitchen();
    const before = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    await kitchen.ask('soak.log', soakInput(before.id, 'start', kitchen.clock.nowMs()));
    const saltId = before.card.lines.find((line) => line.saltGrams > 0)?.ingredientId ?? '';
    const first = (await kitchen.ask('ingredientLot.receive', { ingredientId: saltId, lotCode: 'S-1', supplierName: 'Harbour Dry Goods', receivedAtMs: kitchen.clock.nowMs(), inUse: true })).lot;
    await kitchen.ask('ingredientLot.receive', { ingredientId: saltId, lotCode: 'S-0', supplierName: 'Harbour Dry Goods', receivedAtMs: kitchen.clock.nowMs(), inUse: false });
    const after = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    await kitchen.ask('soak.log', soakInput(after.id, 'start', kitchen.clock.nowMs()), 'HA');
    const second = (await kitchen.ask('ingredientLot.receive', { ingredientId: saltId, lotCode: 'S-2', supplierName: 'Harbour Dry Goods', receivedAtMs: kitchen.clock.nowMs(), inUse: true })).lot;
    const { lots } = await kitchen.ask('ingredientLot.list', {});
    expect(lots.find(({ id }) => id === first.id)).toMatchObject({ inUseSinceMs: null, usedIn: [{ batchId: after.id, initials: 'HA' }] });
    expect(lots.find(({ lotCode }) => lotCode === 'S-0')).toMatchObject({ inUseSinceMs: null, usedIn: [] });
    expect(lots.find(({ id }) => id === second.id)).toMatchObject({ inUseSinceMs: kitchen.clock.nowMs(), usedIn: [] });
    const trace = await kitchen.ask('trace.get', { kind: 'ingredient-lot', id: first.id });
    expect(trace.nodes.filter(({ kind }) => kind === 'batch').map(({ id }) => id)).toEqual([after.id]);
    expect(trace.nodes.find(({ kind }) => kind === 'supplier')).toMatchObject({ title: 'Harbour Dry Goods', side: 'back' });
    expect((await kitchen.ask('record.batch', { batchId: after.id })).ingredientLots).toMatchObject([{ lotCode: 'S-1' }]);
  });

  it('is corrected with a reason, and refused twice or for what the brine doesn’t have', async () => {
    const kitchen = await openTestKitchen();
    const batch = await makeBatch(kitchen, [(await receive(kitchen)).id]);
    const saltId = batch.card.lines.find((line) => line.saltGrams > 0)?.ingredientId ?? '';
    const delivery = { ingredientId: saltId, lotCode: 'S-1', supplierName: '', receivedAtMs: kitchen.clock.nowMs(), inUse: false };
    const { lot } = await kitchen.ask('ingredientLot.receive', delivery);
    expect(await refusal(kitchen.reply('ingredientLot.receive', delivery))).toMatchObject({ code: 'CONFLICT' });
    expect(await refusal(kitchen.reply('ingredientLot.receive', { ...delivery, ingredientId: 'moon-dust' }))).toMatchObject({ code: 'NOT_FOUND' });
    expect((await kitchen.ask('ingredientLot.correct', { lotId: lot.id, batchId: batch.id, used: true, why: 'Bag was open' })).lot.usedIn).toMatchObject([{ batchId: batch.id }]);
    expect((await kitchen.ask('ingredientLot.correct', { lotId: lot.id, batchId: batch.id, used: false, why: 'Wrong bag' })).lot.usedIn).toEqual([]);
    const sugar = (await kitchen.ask('ingredient.list', {})).ingredients.find(({ id }) => !batch.card.lines.some((line) => line.ingredientId === id));
    const other = (await kitchen.ask('ingredientLot.receive', { ...delivery, ingredientId: sugar?.id ?? '', lotCode: 'X' })).lot;
    expect((await refusal(kitchen.reply('ingredientLot.correct', { lotId: other.id, batchId: batch.id, used: true, why: 'x' }))).message).toMatch(/has no /);
  });
});
