import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { HOUR_MS, makeBatch } from './fish-and-brine.ts';
import { addGuest, frozenOnTray, handOverInput, packedKitchen, readPlace, type PackedKitchen } from './packed-kitchen.ts';
import { refusal, releaseInput } from './smoke-kitchen.ts';

type Shop = Awaited<ReturnType<typeof addGuest>>;

/** Four packs that may leave, the clock at hour 20, and a shop that buys. */
async function ready(): Promise<PackedKitchen & { shop: Shop }> {
  const packed = await packedKitchen({ packs: 4 });
  await frozenOnTray(packed);
  return { ...packed, shop: await addGuest(packed, { kind: 'buyer', name: 'Harbour Shop' }) };
}

function give(packed: PackedKitchen & { shop: Shop }, from: number, more: Partial<Input<'handOver.make'>> = {}) {
  return packed.kitchen.reply('handOver.make', handOverInput(packed, packed.shop, packed.packs.slice(from, from + 1), more));
}

async function recall({ kitchen, batchId }: PackedKitchen, isDrill = false): Promise<string> {
  return (await kitchen.ask('recall.start', { isDrill, kind: 'batch', id: batchId })).recall.id;
}

describe('while a recall runs', () => {
  it('nothing of it is released; a drill is in nobody’s way', async () => {
    const packed = await ready();
    const { kitchen, batchId } = packed;
    await recall(packed, true);
    expect((await kitchen.reply('batch.decide', releaseInput(batchId))).ok).toBe(true);
    const recallId = await recall(packed);
    expect(await refusal(kitchen.reply('batch.decide', releaseInput(batchId)))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringMatching(/^WF26329A9 is part of the recall of WF26329A9, which began at/) });
    await kitchen.ask('recall.finish', { recallId, note: 'It was another lot.' });
    expect((await refusal(give(packed, 0))).message).toContain('is on HOLD');
    expect((await kitchen.reply('batch.decide', releaseInput(batchId))).ok).toBe(true);
    expect((await give(packed, 0)).ok).toBe(true);
  });

  it('what was made of its lot since is not released, though nobody looked at the recall again', async () => {
    const packed = await ready();
    const { kitchen } = packed;
    const lotId = (await kitchen.ask('fishLot.list', {})).lots[0]?.id ?? '';
    await kitchen.ask('recall.start', { isDrill: false, kind: 'fish-lot', id: lotId });
    const later = await makeBatch(kitchen, [lotId], { fillets: { text: '0.5', unit: 'lb' } });
    expect((await refusal(kitchen.reply('batch.decide', releaseInput(later.id)))).message).toContain('is part of the recall of');
    expect((await kitchen.reply('batch.decide', releaseInput(later.id, { decision: 'hold', reason: 'Recalled.' }))).ok).toBe(true);
  });
});

describe('a released batch', () => {
  it('is kept from the moment that a correction says it took from the bag that is called back', async () => {
    const packed = await ready();
    const { kitchen, batchId, packs } = packed;
    const lotId = (await kitchen.ask('fishLot.list', {})).lots[0]?.id ?? '';
    const other = await makeBatch(kitchen, [lotId], { fillets: { text: '0.5', unit: 'lb' } });
    const saltId = other.card.lines.find((line) => line.saltGrams > 0)?.ingredientId ?? '';
    const { lot } = await kitchen.ask('ingredientLot.receive', { ingredientId: saltId, lotCode: 'S-1', supplierName: '', receivedAtMs: kitchen.clock.nowMs(), inUse: false });
    await kitchen.ask('ingredientLot.correct', { lotId: lot.id, batchId: other.id, used: true, why: 'Its bag was open.' });
    const { recall: { id: recallId } } = await kitchen.ask('recall.start', { isDrill: false, kind: 'ingredient-lot', id: lot.id });
    expect((await give(packed, 0)).ok).toBe(true);
    await kitchen.ask('ingredientLot.correct', { lotId: lot.id, batchId, used: true, why: 'From the same bag.' });
    expect((await refusal(give(packed, 1))).message).toContain('is part of the recall of');
    expect((await refusal(kitchen.reply('label.forPacks', { packIds: packs.slice(1).map(({ id }) => id), stockId: '4x6in' }))).message).toContain('is part of the recall of');
    await kitchen.ask('recall.finish', { recallId, note: 'The salt was clean.' });
    expect((await refusal(give(packed, 1))).message).toContain('is on HOLD');
  });
});

describe('after a recall', () => {
  it('a pack that was ticked as anything but in store stays here, the others may go', async () => {
    const packed = await ready();
    const { kitchen, packs, batchId } = packed;
    const recallId = await recall(packed);
    for (const [index, where] of (['destroyed', 'not-found', 'with-them', 'in-store'] as const).entries()) {
      await kitchen.ask('recall.found', { recallId, packIds: [packs[index]?.id ?? ''], where });
    }
    await kitchen.ask('recall.finish', { recallId, note: 'Nothing was wrong.' });
    await kitchen.ask('batch.decide', releaseInput(batchId));
    for (const [index, said] of ['destroyed', 'not found', 'with those who have it'].entries()) expect((await refusal(give(packed, index))).message).toContain(`it was ticked as ${said}`);
    expect((await give(packed, 3)).ok).toBe(true);
  });

  it('a drill’s ticks keep nothing back', async () => {
    const packed = await ready();
    const recallId = await recall(packed, true);
    await packed.kitchen.ask('recall.found', { recallId, packIds: [packed.packs[0]?.id ?? ''], where: 'destroyed' });
    expect((await give(packed, 0)).ok).toBe(true);
  });
});

describe('a hand-over entered later than it happened', () => {
  it('is refused for a time at which the batch was on HOLD, released again or not', async () => {
    const packed = await ready();
    const { kitchen, batchId, packs, sealedMs } = packed;
    await kitchen.ask('batch.decide', releaseInput(batchId, { decision: 'hold', reason: 'A guest felt ill.' }));
    const heldMs = kitchen.clock.nowMs();
    kitchen.clock.set(sealedMs + 30 * HOUR_MS);
    await readPlace(packed, [25, 30]);
    await kitchen.ask('batch.decide', releaseInput(batchId));
    expect(await refusal(give(packed, 0, { atMs: heldMs + 2 * HOUR_MS }))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('it was on HOLD (MG: A guest felt ill.)') });
    expect(await refusal(give(packed, 0, { atMs: sealedMs - HOUR_MS }))).toMatchObject({ code: 'INVALID_INPUT', message: expect.stringContaining('the last move of pack') });
    const served = { packIds: packs.slice(0, 1).map(({ id }) => id), what: 'served', placeId: null, spot: '', atMs: heldMs, why: '' } as const;
    expect((await refusal(kitchen.reply('pack.move', served))).message).toContain('it was on HOLD');
    expect((await give(packed, 0, { atMs: heldMs - HOUR_MS })).ok).toBe(true);
    expect((await give(packed, 1)).ok).toBe(true);
  });
});
