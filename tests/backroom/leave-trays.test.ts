import { describe, expect, it } from 'vitest';
import { HOUR_MS } from './fish-and-brine.ts';
import { addGuest, frozenOnTray, handOverInput, packedKitchen, readPlace, trayInput, type PackedKitchen } from './packed-kitchen.ts';
import { refusal } from './smoke-kitchen.ts';

/** Four packs: two on a tray that is solid at hour 20, two put beside them then. */
async function halfFrozen(placeId?: string) {
  const packed = await packedKitchen({ packs: 4 });
  const shop = await addGuest(packed, { kind: 'buyer', name: 'Harbour Shop' });
  const solid: PackedKitchen = { ...packed, packs: packed.packs.slice(0, 2) };
  await frozenOnTray(solid);
  const fresh = packed.packs.slice(2);
  const { tray } = await packed.kitchen.ask('tray.make', { ...trayInput(packed, fresh), atMs: packed.kitchen.clock.nowMs(), ...(placeId === undefined ? {} : { placeId }) });
  const give = (packs: PackedKitchen['packs']) => packed.kitchen.reply('handOver.make', handOverInput(packed, shop, packs));
  return { packed, shop, solid: solid.packs, fresh, tray, give };
}

describe('packs of one batch on several trays', () => {
  it('leave from a tray that is solid while another one still freezes, and not from that', async () => {
    const { packed, shop, solid, fresh, give } = await halfFrozen();
    const prepared = await packed.kitchen.ask('handOver.prepare', { guestId: shop.id });
    expect(prepared.batches[0]).toMatchObject({ refusal: null });
    expect(prepared.batches[0]?.packs.map(({ why }) => why === null)).toEqual([true, true, false, false]);
    expect((await refusal(give(fresh))).code).toBe('RULE_BLOCKS');
    expect((await refusal(give([...solid, ...fresh]))).code).toBe('RULE_BLOCKS');
    expect((await give(solid)).ok).toBe(true);
  });

  it('leave not from a tray whose freezer was not read, whatever the other tray shows', async () => {
    const { packed, solid, fresh, tray, give } = await halfFrozen();
    packed.kitchen.clock.set(packed.sealedMs + 90 * HOUR_MS);
    await packed.kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: packed.kitchen.clock.nowMs(), how: 'touch' });
    // From hour 20 to 90 nobody read the freezer.
    expect((await refusal(give(solid))).code).toBe('RULE_BLOCKS');
    expect((await refusal(give(fresh))).code).toBe('RULE_BLOCKS');
    await readPlace(packed, [30, 40, 50, 60, 70, 80, 90]);
    expect((await give([...solid, ...fresh])).ok).toBe(true);
  });
});
