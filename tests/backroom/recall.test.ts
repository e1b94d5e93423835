import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';
import { refusal } from './smoke-kitchen.ts';
import { movePack, openPackedKitchen, type PackedKitchen, writeInto } from './trace-kitchen.ts';

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
    expect(expected).toEqual([{ where: 'handed to Lund party', packs: 12 }, { where: 'in Chest freezer, basket 2', packs: 12 }]);
    expect(recall.packs.map(({ bookedAs }) => bookedAs)).toEqual([...Array<string>(12).fill('with-them'), ...Array<string>(12).fill('in-store')]);
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
    expect(view.expected[0]).toEqual({ where: 'brought back', packs: 12 });
    expect(view.weights.find((line) => line.startsWith('WF26329A'))).toMatch(/9\.00 lb of fillets in, 6\.00 lb in 24 packs \(66\.7 % of the fillets\)\. Too few other batches \(0\)/);
  });

  it('from a guest takes the whole batch of what they were given', async () => {
    const packed = await openPackedKitchen();
    const { recall } = await packed.kitchen.ask('recall.start', { isDrill: true, kind: 'guest', id: packed.guestId });
    expect(recall).toMatchObject({ batchIds: [packed.batchId], packs: { length: 24 } });
  });

  it('says where a pack went last as it was entered, though two moves were typed to one minute', async () => {
    const packed = await openPackedKitchen();
    const [pack] = packed.packs.slice(12);
    const kitchen = await movePack(packed.kitchen, pack?.id ?? '', { what: 'destroyed', why: 'torn', atMs: packed.kitchen.clock.nowMs() - 30_000 });
    const { recall } = await kitchen.ask('recall.start', { isDrill: true, kind: 'batch', id: packed.batchId });
    expect(recall.packs.find(({ packId }) => packId === pack?.id)).toMatchObject({ expected: 'destroyed', bookedAs: 'destroyed' });
  });

  it('goes on with what is sealed, given away or made of the lot while it runs', async () => {
    const packed = await openPackedKitchen();
    const { kitchen: first, packs, batchId } = packed;
    const lotId = (await first.ask('fishLot.list', {})).lots[0]?.id ?? '';
    const recallId = (await first.ask('recall.start', { isDrill: true, kind: 'fish-lot', id: lotId })).recall.id;
    first.clock.advance(HOUR_MS);
    expect((await first.ask('recall.found', { recallId, packIds: packs.map(({ id }) => id), where: 'in-store' })).balance).toMatchObject({ packs: 24, isWhole: true });
    await first.ask('recall.reached', { recallId, guestId: packed.guestId, note: '' });
    const { packs: [later, again] } = await first.ask('pack.seal', { batchId, weights: [{ text: '0.25', unit: 'lb' }, { text: '0.25', unit: 'lb' }], sealedAtMs: first.clock.nowMs() });
    const other = await makeBatch(first, [lotId], { fillets: { text: '0.5', unit: 'lb' } });
    const kitchen = await writeInto(first, first.clock.nowMs(), (book) => {
      book.shelf('guests').put({ id: 'late', kind: 'buyer', name: 'Late Buyer', contact: '', address: '', room: '', checkoutDay: null });
      book.shelf('handOvers').put({ ...book.shelf('handOvers').need(packed.handOverId), id: 'late-hand-over', guestId: 'late', packIds: [later?.id ?? ''] });
      book.shelf('handOvers').put({ ...book.shelf('handOvers').need(packed.handOverId), id: 'second-hand-over', packIds: [again?.id ?? ''] });
      book.record({ kind: 'handOver.make', subjectId: 'late-hand-over', happenedAtMs: null, summary: 'Handed 1 pack to Late Buyer.', after: {} });
    });
    const moved = await movePack(await movePack(kitchen, later?.id ?? '', { what: 'handed-over', handOverId: 'late-hand-over' }), again?.id ?? '', { what: 'handed-over', handOverId: 'second-hand-over' });
    const view = await moved.ask('recall.get', { recallId });
    expect(view.balance).toMatchObject({ packs: 26, open: 2, percent: '92.3 %', isWhole: false });
    expect(view.recall.packs.at(24)).toMatchObject({ code: later?.code, expected: 'handed to Late Buyer' });
    // Who was reached and got one more since is to be called again.
    expect(view.recall.calls).toMatchObject([{ name: 'Lund party', packs: 13, reached: null }, { name: 'Late Buyer', packs: 1, reached: null }]);
    expect(view.unpacked).toEqual([other.shortName]);
    expect((await moved.ask('recall.list', {})).recalls).toMatchObject([{ packs: 26, percent: '92.3 %' }]);
    const ended = await moved.ask('recall.finish', { recallId, note: 'One was sold meanwhile.' });
    expect(ended.balance).toMatchObject({ packs: 26, open: 2 });
    expect((await moved.ask('recall.get', { recallId })).recall.packs).toHaveLength(26);
  });

  it('in earnest puts on HOLD what is still here, so that no pack of it leaves; a drill does not', async () => {
    const packed = await openPackedKitchen();
    const { kitchen, batchId } = packed;
    const decisions = async () => (await kitchen.ask('record.batch', { batchId })).decisions.map(({ decision, reason }) => [decision, reason]);
    await startDrill(packed);
    expect(await decisions()).toEqual([['release', 'Record read through.']]);
    await kitchen.ask('recall.start', { isDrill: false, kind: 'batch', id: batchId }, 'HA');
    expect(await decisions()).toEqual([['release', 'Record read through.'], ['hold', expect.stringMatching(/^Recalled: WF26329A/)]]);
    expect(await refusal(kitchen.reply('pack.seal', { batchId, weights: [{ text: '0.25', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() }))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('is on HOLD') });
    const served = { packIds: packed.packs.slice(12, 13).map(({ id }) => id), what: 'served', placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: '' } as const;
    expect(await refusal(kitchen.reply('pack.move', served))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('is on HOLD') });
    // It is held once: what stands isn't decided again.
    await kitchen.ask('recall.start', { isDrill: false, kind: 'batch', id: batchId });
    expect(await decisions()).toHaveLength(2);
  });

  it('in earnest holds a batch that was made of the lot after it began', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    const lotId = (await kitchen.ask('fishLot.list', {})).lots[0]?.id ?? '';
    const { recall: { id: recallId } } = await kitchen.ask('recall.start', { isDrill: false, kind: 'fish-lot', id: lotId });
    const later = await makeBatch(kitchen, [lotId], { fillets: { text: '0.5', unit: 'lb' } });
    await kitchen.ask('recall.found', { recallId, packIds: [packed.packs[0]?.id ?? ''], where: 'with-them' });
    expect((await kitchen.ask('record.batch', { batchId: later.id })).decisions).toMatchObject([{ decision: 'hold' }]);
  });

  it('names batches whose brine was used before where nothing says for which', async () => {
    const packed = await openPackedKitchen();
    const { kitchen } = packed;
    const lot = await receive(kitchen);
    const other = await makeBatch(kitchen, [lot.id]);
    await kitchen.ask('soak.log', soakInput(other.id, 'start', kitchen.clock.nowMs(), { brineReused: true }));
    expect((await kitchen.ask('recall.start', { isDrill: true, kind: 'batch', id: packed.batchId })).brines).toEqual([other.shortName]);
    expect((await kitchen.ask('recall.start', { isDrill: true, kind: 'fish-lot', id: lot.id })).brines).toEqual([]);
    const node = (await kitchen.ask('trace.get', { kind: 'batch', id: other.id })).nodes.find(({ kind }) => kind === 'batch');
    expect(node?.facts).toContain('its brine was used before, the book can’t say for which batch');
  });

  it('refuses a pack that isn’t part of it, and what no fish came of', async () => {
    const packed = await openPackedKitchen();
    const recallId = (await startDrill(packed)).recall.id;
    expect(await refusal(packed.kitchen.reply('recall.found', { recallId, packIds: ['elsewhere'], where: 'in-store' }))).toMatchObject({ code: 'NOT_FOUND' });
    const lot = await receive(packed.kitchen);
    expect(await refusal(packed.kitchen.reply('recall.start', { isDrill: true, kind: 'fish-lot', id: lot.id }))).toMatchObject({ code: 'NOT_FOUND', message: expect.stringContaining(lot.code) });
  });
});
