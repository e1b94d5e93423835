import { describe, expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { addGuest, frozenOnTray, handOverInput, moveAt, packedKitchen, readPlace, trayInput, type PackedKitchen, type PackedOptions } from './packed-kitchen.ts';
import { refusal } from './smoke-kitchen.ts';

type Shop = Awaited<ReturnType<typeof addGuest>>;

/** Two packs, on a tray and solid unless it is said otherwise, the clock at hour 20, the freezer read, and a shop that buys. */
async function readyForShop(options: PackedOptions & { readonly onTray?: boolean } = {}): Promise<PackedKitchen & { shop: Shop }> {
  const packed = await packedKitchen({ packs: 2, ...options });
  const shop = await addGuest(packed, { kind: 'buyer', name: 'Harbour Shop' });
  if (options.onTray !== false) await frozenOnTray(packed);
  return { ...packed, shop };
}

function give(packed: PackedKitchen & { shop: Shop }, from = 0, more: object = {}) {
  return packed.kitchen.reply('handOver.make', handOverInput(packed, packed.shop, packed.packs.slice(from, from + 1), more));
}

function serve({ kitchen, packs }: PackedKitchen, atMs = kitchen.clock.nowMs()) {
  return kitchen.reply('pack.move', { packIds: packs.slice(0, 1).map(({ id }) => id), what: 'served', placeId: null, spot: '', atMs, why: '' });
}

describe('a pack that was frozen', () => {
  it('leaves no more once it lay in a cooler, back in the freezer or not; it is served within 48 hours', async () => {
    const packed = await readyForShop();
    const { kitchen, packs, smoke, sealedMs } = packed;
    await readPlace(packed, [20], '34', smoke.coolerId);
    await moveAt(packed, 21, packs.slice(0, 1), 'into-store', smoke.coolerId);
    kitchen.clock.set(sealedMs + 30 * HOUR_MS);
    await readPlace(packed, [26, 30]);
    expect((await refusal(give(packed))).message).toContain('it came out of the freezer at');
    await moveAt(packed, 31, packs.slice(0, 1), 'into-store', smoke.freezerId);
    const back = await refusal(give(packed));
    expect(back).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('it came out of the freezer at'), remedy: expect.stringContaining('is not frozen again') });
    expect((await kitchen.ask('handOver.prepare', { guestId: packed.shop.id })).batches[0]?.packs.map(({ why }) => why === null)).toEqual([false, true]);
    // What lay beside it all the time may go.
    expect((await give(packed, 1)).ok).toBe(true);
    kitchen.clock.set(sealedMs + 69 * HOUR_MS + MINUTE_MS);
    await readPlace(packed, [40, 50, 60, 69]);
    await readPlace(packed, [22, 24, 26, 28, 30, 31], '34', smoke.coolerId);
    expect((await refusal(serve(packed))).message).toContain('more than 48 hours before');
    kitchen.clock.set(sealedMs + 69 * HOUR_MS);
    expect((await serve(packed)).ok).toBe(true);
  });

  it('may be moved for up to half an hour, out and back or out to whoever takes it', async () => {
    const packed = await readyForShop();
    const { packs, smoke } = packed;
    await moveAt(packed, 20, packs, 'out-of-store');
    await moveAt(packed, 20.5, packs, 'into-store', smoke.freezerId);
    await moveAt(packed, 22, packs, 'out-of-store');
    packed.kitchen.clock.advance(30 * MINUTE_MS);
    expect((await give(packed)).ok).toBe(true);
    packed.kitchen.clock.advance(MINUTE_MS);
    expect((await refusal(give(packed, 1))).message).toContain('it came out of the freezer at');
  });

  it('is not frozen again on another tray', async () => {
    const packed = await readyForShop();
    const { kitchen, packs, sealedMs } = packed;
    const [tray] = (await kitchen.ask('tray.list', { batchId: packed.batchId })).trays;
    await kitchen.ask('tray.mark', { trayId: tray?.id ?? '', what: 'out', atMs: kitchen.clock.nowMs(), how: null });
    kitchen.clock.set(sealedMs + 30 * HOUR_MS);
    const again = await kitchen.ask('tray.make', trayInput(packed, packs, { atMs: kitchen.clock.nowMs() }));
    kitchen.clock.set(sealedMs + 44 * HOUR_MS);
    await readPlace(packed, [26, 30, 36, 44]);
    await kitchen.ask('tray.mark', { trayId: again.tray.id, what: 'frozen', atMs: sealedMs + 42 * HOUR_MS, how: 'touch' });
    expect((await refusal(give(packed))).message).toContain('it came out of the freezer at');
  });

  it('is not what was taken to the cooler before its tray was marked solid', async () => {
    const packed = await readyForShop({ onTray: false });
    const { kitchen, packs, smoke, sealedMs } = packed;
    const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs));
    await moveAt(packed, 5, packs.slice(0, 1), 'into-store', smoke.coolerId);
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
    await readPlace(packed, [0, 6, 12, 16, 20]);
    expect((await refusal(give(packed))).message).toContain('before it was marked frozen solid');
    expect((await refusal(serve(packed))).message).toContain('before it was marked frozen solid');
    expect((await give(packed, 1)).ok).toBe(true);
  });
});

describe('a pack that came back', () => {
  it('is never given again, wherever it was put since', async () => {
    const packed = await readyForShop();
    const { kitchen, packs, smoke } = packed;
    await kitchen.ask('handOver.make', handOverInput(packed, packed.shop, packs));
    await moveAt(packed, 21, packs, 'returned');
    await moveAt(packed, 21, packs, 'into-store', smoke.freezerId);
    for (const reply of [give(packed), serve(packed)]) expect((await refusal(reply)).message).toContain('nothing shows how it was kept in between');
    expect((await kitchen.ask('pack.stock', {})).packs.map(({ state }) => state)).toEqual(['into-store', 'into-store']);
  });

  it('does not open its store’s record again: what the freezer showed while it was away says nothing of it', async () => {
    const packed = await readyForShop();
    const { kitchen, packs, batchId } = packed;
    await kitchen.ask('handOver.make', handOverInput(packed, packed.shop, packs));
    await moveAt(packed, 60, packs.slice(0, 1), 'returned');
    await readPlace(packed, [40, 50, 60], '45');
    expect((await kitchen.ask('worklist.get', {})).items).toEqual([]);
    expect((await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find(({ checkId }) => checkId === 'FROZEN-0F')?.verdict).toBe('meets');
  });
});

describe('a batch without trays, by its own marks', () => {
  async function markedFrozen(): Promise<PackedKitchen & { shop: Shop }> {
    const packed = await readyForShop({ onTray: false });
    const { kitchen, batchId, smoke, sealedMs } = packed;
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: sealedMs, placeId: smoke.freezerId });
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, placeId: null });
    await readPlace(packed, [0, 6, 12, 16, 20]);
    return packed;
  }

  it('gives packs no longer than half an hour after they were marked out', async () => {
    const packed = await markedFrozen();
    const { kitchen, batchId } = packed;
    await kitchen.ask('batch.mark', { batchId, what: 'out-of-freezer', atMs: kitchen.clock.nowMs(), placeId: null });
    kitchen.clock.advance(30 * MINUTE_MS);
    expect((await give(packed)).ok).toBe(true);
    kitchen.clock.advance(MINUTE_MS);
    expect((await refusal(give(packed, 1))).message).toContain('it came out of the freezer at');
  });

  it('keeps what was sealed after it went into the freezer', async () => {
    const packed = await markedFrozen();
    const { kitchen, batchId } = packed;
    const late = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '0.3', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() });
    await kitchen.ask('label.printed', { packIds: late.packs.map(({ id }) => id), stockId: '4x6in' });
    const error = await refusal(kitchen.reply('handOver.make', handOverInput(packed, packed.shop, late.packs)));
    expect(error.message).toContain('it was sealed after');
    expect((await give(packed)).ok).toBe(true);
  });

  it('is judged by every freezer that its packs were put into', async () => {
    const packed = await markedFrozen();
    const { kitchen, packs, batchId, sealedMs } = packed;
    const { id: otherId } = await kitchen.ask('office.addPlace', { name: 'Upright freezer', kind: 'freezer' });
    await readPlace(packed, [0, 6, 12, 18], '-8', otherId);
    await moveAt(packed, 21, packs, 'into-store', otherId);
    kitchen.clock.set(sealedMs + 24 * HOUR_MS);
    await readPlace(packed, [24]);
    await readPlace(packed, [24], '30', otherId);
    expect((await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find(({ checkId }) => checkId === 'FROZEN-0F')).toMatchObject({ verdict: 'misses', reason: expect.stringContaining('Upright freezer read 30 °F') });
    expect((await kitchen.ask('worklist.get', {})).items.map(({ what }) => what)).toContain('decide-again');
  });
});

describe('what is entered later than it happened', () => {
  it('is judged as it stood when the packs left: not by what was read or marked since', async () => {
    const packed = await readyForShop();
    const { sealedMs } = packed;
    expect((await refusal(give(packed, 0, { atMs: sealedMs + 5 * HOUR_MS }))).message).toContain('freeze record');
    expect((await refusal(serve(packed, sealedMs + 5 * HOUR_MS))).message).toContain('freeze record');
    expect((await give(packed, 0, { atMs: sealedMs + 18 * HOUR_MS })).ok).toBe(true);
  });
});

describe('a chilled pack', () => {
  const chilled: PackedOptions = { packs: 2, batch: { store: 'refrigerated' }, release: { store: 'refrigerated' }, lab: true };

  it('stays where it was in no cooler for longer than half an hour', async () => {
    const packed = await readyForShop({ ...chilled, onTray: false });
    const { kitchen, packs, smoke, sealedMs } = packed;
    await moveAt(packed, 0, packs, 'into-store', smoke.coolerId);
    await moveAt(packed, 1, packs.slice(0, 1), 'out-of-store');
    await moveAt(packed, 3, packs.slice(0, 1), 'into-store', smoke.coolerId);
    kitchen.clock.set(sealedMs + 4 * HOUR_MS);
    await readPlace(packed, [0, 1, 2, 3, 4], '34', smoke.coolerId);
    const cold = { frozenHard: { how: 'reading', reading: { text: '34', unit: 'F' } } };
    expect((await refusal(give(packed, 0, cold))).message).toContain('it was in no cooler from');
    expect((await give(packed, 1, cold)).ok).toBe(true);
  });

  it('is judged by every cooler until somebody put it somewhere', async () => {
    const packed = await readyForShop({ ...chilled, onTray: false });
    const { kitchen, packs, smoke, sealedMs, batchId } = packed;
    const { id: otherId } = await kitchen.ask('office.addPlace', { name: 'Bar cooler', kind: 'cooler' });
    kitchen.clock.set(sealedMs + 4 * HOUR_MS);
    await readPlace(packed, [0, 1, 2, 3, 4], '34', smoke.coolerId);
    await readPlace(packed, [0, 1, 2, 3, 4], '44', otherId);
    await moveAt(packed, 4, packs, 'into-store', smoke.coolerId);
    expect((await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find(({ checkId }) => checkId === 'STORE-38')?.verdict).toBe('misses');
  });
});

describe('packs within the thermometer’s error', () => {
  it('are served on a manager’s initials alone, and the record says so', async () => {
    const packed = await readyForShop();
    const { kitchen, packs, batchId } = packed;
    await readPlace(packed, [18], '-0.5');
    const served = (initialsForError: boolean, as: string) => kitchen.reply('pack.move', { packIds: packs.map(({ id }) => id), what: 'served', placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: '', initialsForError }, as);
    for (const [initials, as] of [[false, 'MG'], [true, 'HA']] as const) expect((await refusal(served(initials, as))).message).toContain('only within the thermometer’s error');
    expect((await served(true, 'MG')).ok).toBe(true);
    const { entries } = await kitchen.ask('record.batch', { batchId });
    expect(entries.at(-1)?.summary).toMatch(/^2 packs of .* served; MG initialled what meets within the thermometer’s error at /);
  });
});
