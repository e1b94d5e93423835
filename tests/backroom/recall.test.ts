import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive } from './fish-and-brine.ts';
import { refusal } from './smoke-kitchen.ts';
import { movePack, openPackedKitchen, type PackedKitchen } from './trace-kitchen.ts';

type View = Output<'recall.get'>;

async function startDrill(packed: PackedKitchen): Promise<View> {
  return packed.kitchen.ask('recall.start', { isDrill: true, kind: 'pack', id: packed.packs[0]?.id ?? '' });
}

describe('a recall drill', () => {
  it('begun from one pack takes the whole batch, says where the book has each pack, and whom to call', async () => {
    const packed = await openPackedKitchen();
    const { recall, balance, expected } = await startDrill(packed);
    expect(recall).toMatchObject({ isDrill: true, startedBy: 'MG', about: { kind: 'batch', id: packed.batchId, label: expect.stringContaining('the batch of pack') } });
    expect(recall.packs.map(({ code }) => code)).toEqual(packed.packs.map(({ code }) => code));
    expect(expected).toEqual([{ where: 'handed to Lund party', packs: 12 }, { where: 'in the freezer Chest freezer, basket 2', packs: 12 }]);
    expect(recall.calls).toEqual([{ guestId: packed.guestId, name: 'Lund party', contact: '555 0144', packs: 12, reached: null }]);
    expect(balance).toMatchObject({ packs: 24, accounted: 0, open: 24, percent: '0.0 %', isWhole: false });
  });

  it('ends at 100 % within its time when all 24 are found, keeps the result, and takes no more', async () => {
    const packed = await openPackedKitchen();
    const { kitchen, packs, guestId } = packed;
    const recallId = (await startDrill(packed)).recall.id;
    kitchen.clock.advance(30 * MINUTE_MS);
    await kitchen.ask('recall.found', { recallId, packIds: packs.slice(12).map(({ id }) => id), where: 'in-store' }, 'HA');
    await kitchen.ask('recall.reached', { recallId, guestId, note: 'All in their freezer.' });
    kitchen.clock.advance(30 * MINUTE_MS);
    const whole = await kitchen.ask('recall.found', { recallId, packIds: packs.slice(0, 12).map(({ id }) => id), where: 'with-them' });
    expect(whole.balance).toMatchObject({ accounted: 24, percent: '100 %', isWhole: true, byWhere: [{ where: 'in-store', packs: 12 }, { where: 'with-them', packs: 12 }] });
    expect(whole.limits.map(({ state }) => state)).toEqual(['met', 'met', 'met', 'met', 'met']);
    // Whoever writes the note a day later changes nothing of the time it took.
    kitchen.clock.advance(24 * HOUR_MS);
    const ended = await kitchen.ask('recall.finish', { recallId, note: 'Found all.' });
    expect(ended.limits[0]?.state).toBe('met');
    expect((await kitchen.ask('recall.list', {})).recalls).toMatchObject([{ id: recallId, isDrill: true, packs: 24, percent: '100 %', finishedAtMs: kitchen.clock.nowMs() }]);
    for (const reply of [
      kitchen.reply('recall.found', { recallId, packIds: [packs[0]?.id ?? ''], where: 'eaten' }), kitchen.reply('recall.finish', { recallId, note: 'Again.' }),
      kitchen.reply('recall.reached', { recallId, guestId, note: '' }),
    ]) expect(await refusal(reply)).toMatchObject({ code: 'CONFLICT' });
    expect((await kitchen.ask('recall.get', { recallId })).recall.packs[0]?.found).toMatchObject({ where: 'with-them', initials: 'MG' });
  });

  it('misses with one pack not found, and a tick can be taken back while it runs', async () => {
    const packed = await openPackedKitchen();
    const { kitchen, packs } = packed;
    const recallId = (await startDrill(packed)).recall.id;
    const ids = packs.map(({ id }) => id);
    await kitchen.ask('recall.found', { recallId, packIds: ids.slice(1), where: 'in-store' });
    await kitchen.ask('recall.found', { recallId, packIds: [ids[0] ?? ''], where: 'eaten' });
    expect((await kitchen.ask('recall.found', { recallId, packIds: [ids[0] ?? ''], where: null })).balance).toMatchObject({ open: 1, percent: '95.8 %' });
    await kitchen.ask('recall.found', { recallId, packIds: [ids[0] ?? ''], where: 'not-found' });
    const ended = await kitchen.ask('recall.finish', { recallId, note: 'One is missing.' });
    expect(ended.balance).toMatchObject({ notFound: 1, isWhole: false });
    expect(ended.limits.map(({ state }) => state)).toEqual(['missed', 'missed', 'met', 'missed', 'missed']);
  });

  it('of a fish lot reaches a batch of it that isn’t packed, and calls a guest who once had a pack', async () => {
    const packed = await openPackedKitchen();
    const other = await makeBatch(packed.kitchen, [(await packed.kitchen.ask('fishLot.list', {})).lots[0]?.id ?? ''], { fillets: { text: '0.5', unit: 'lb' } });
    packed.kitchen.clock.advance(HOUR_MS);
    let { kitchen } = packed;
    for (const pack of packed.packs.slice(0, 12)) kitchen = await movePack(kitchen, pack.id, { what: 'returned', why: 'recalled' });
    const lotId = (await kitchen.ask('fishLot.list', {})).lots[0]?.id ?? '';
    const view = await kitchen.ask('recall.start', { isDrill: false, kind: 'fish-lot', id: lotId });
    expect(view.unpacked).toEqual([other.shortName]);
    expect(view.recall).toMatchObject({ isDrill: false, calls: [{ name: 'Lund party', packs: 12 }] });
    expect(view.expected[0]).toEqual({ where: 'back in the kitchen', packs: 12 });
    expect(view.weights.find((line) => line.startsWith('WF26329A'))).toMatch(/9\.00 lb of fillets in, 6\.00 lb in 24 packs \(66\.7 % of the fillets\)\. Too few other batches \(0\)/);
  });

  it('refuses a pack that isn’t part of it, and what no fish came of', async () => {
    const packed = await openPackedKitchen();
    const recallId = (await startDrill(packed)).recall.id;
    expect(await refusal(packed.kitchen.reply('recall.found', { recallId, packIds: ['elsewhere'], where: 'in-store' }))).toMatchObject({ code: 'NOT_FOUND' });
    const lot = await receive(packed.kitchen);
    expect(await refusal(packed.kitchen.reply('recall.start', { isDrill: true, kind: 'fish-lot', id: lot.id }))).toMatchObject({ code: 'NOT_FOUND', message: expect.stringContaining(lot.code) });
  });
});
