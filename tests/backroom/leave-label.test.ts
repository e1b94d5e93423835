import { describe, expect, it } from 'vitest';
import { guest, LAKE_TROUT } from './fish-and-brine.ts';
import { addGuest, frozenOnTray, handOverInput, packedKitchen } from './packed-kitchen.ts';
import { refusal } from './smoke-kitchen.ts';

describe('a pack whose label no longer says what is in it', () => {
  it('stays until it is labelled anew: its species was corrected', async () => {
    const packed = await packedKitchen({ packs: 2 });
    await frozenOnTray(packed);
    const { kitchen, packs, batchId } = packed;
    const shop = await addGuest(packed, { kind: 'buyer', name: 'Harbour Shop' });
    const give = (from: number) => kitchen.reply('handOver.make', handOverInput(packed, shop, packs.slice(from, from + 1)));
    const lotId = (await kitchen.ask('fishLot.list', {})).lots[0]?.id ?? '';
    await kitchen.ask('fishLot.correct', { lotId, speciesId: LAKE_TROUT, ownerName: null, why: 'The tag said so.' });
    expect(await refusal(give(0))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringMatching(/its label says “.*Lake Whitefish.*”, and by the record it is “.*Lake Trout.*”/i) });
    expect((await kitchen.ask('handOver.prepare', { guestId: shop.id })).batches[0]?.packs.map(({ why }) => why === null)).toEqual([false, false]);
    await kitchen.ask('label.printed', { packIds: packs.slice(0, 1).map(({ id }) => id), stockId: '4x6in', why: 'The species was corrected.' });
    expect((await give(0)).ok).toBe(true);
    expect((await refusal(give(1))).message).toContain('its label says');
    expect((await kitchen.ask('batch.get', { batchId })).batch.marketName).toBe('Lake Trout');
  });

  it('stays until it is labelled anew: it is another guest’s', async () => {
    const packed = await packedKitchen({ packs: 1, lot: { source: guest('Ivo Brandt') } });
    await frozenOnTray(packed);
    const { kitchen, packs } = packed;
    const ada = await addGuest(packed, { kind: 'guest', name: 'Ada Lind' });
    await kitchen.ask('fishLot.correct', { lotId: (await kitchen.ask('fishLot.list', {})).lots[0]?.id ?? '', speciesId: null, ownerName: 'Ada Lind', why: 'Two tags were swapped.' });
    const toAda = () => kitchen.reply('handOver.make', handOverInput(packed, ada, packs));
    expect((await refusal(toAda())).message).toContain('its label says “Owner: Ivo Brandt”, and by the record it is “Owner: Ada Lind”.');
    await kitchen.ask('label.printed', { packIds: packs.map(({ id }) => id), stockId: '4x6in', why: 'The owner was corrected.' });
    expect((await toAda()).ok).toBe(true);
  });
});
