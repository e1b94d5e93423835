import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { guest, HOUR_MS } from './fish-and-brine.ts';
import { addGuest, breakCooling, frozenOnTray, handOverInput, moveAt, packedKitchen, readPlace, trayInput, type PackedKitchen } from './packed-kitchen.ts';

type Packs = PackedKitchen['packs'];

async function storeOf({ kitchen, batchId }: PackedKitchen): Promise<string | undefined> {
  return checkOf(await kitchen.ask('batch.verdict', { batchId }), 'FROZEN-0F')?.verdict;
}

function checkOf({ deciding }: Output<'batch.verdict'>, checkId: string) {
  return deciding.checks.find((one) => one.checkId === checkId);
}

async function leaveOf({ kitchen, batchId }: PackedKitchen) {
  return (await kitchen.ask('batch.verdict', { batchId })).gates[3];
}

/** A tray of these packs that goes in at one hour and is solid at another; the clock stands there. */
async function trayAt(packed: PackedKitchen, packs: Packs, inHour: number, solidHour: number, placeId = packed.smoke.freezerId): Promise<string> {
  const { kitchen, sealedMs } = packed;
  kitchen.clock.set(Math.max(kitchen.clock.nowMs(), sealedMs + solidHour * HOUR_MS));
  const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs, { atMs: sealedMs + inHour * HOUR_MS, placeId }));
  await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + solidHour * HOUR_MS, how: 'touch' });
  return tray.id;
}

async function anotherFreezer({ kitchen }: PackedKitchen): Promise<string> {
  return (await kitchen.ask('office.addPlace', { name: 'Upright freezer', kind: 'freezer' })).id;
}

describe('the store of packs on trays', () => {
  it('is judged from when the first of them were solid: a tray that goes in later hides nothing that was read before', async () => {
    const packed = await packedKitchen();
    const { packs } = packed;
    await trayAt(packed, packs.slice(0, 3), 0, 12);
    packed.kitchen.clock.advance(60 * HOUR_MS);
    await readPlace(packed, [0, 12, 24, 36, 60, 72]);
    await readPlace(packed, [48], '20');
    await trayAt(packed, packs.slice(3), 72, 84);
    await readPlace(packed, [84]);
    expect(await storeOf(packed)).toBe('misses');
  });

  it('goes on in the freezer that packs were moved to, when their tray is marked out of the first', async () => {
    const packed = await packedKitchen();
    const { kitchen, packs, sealedMs } = packed;
    const otherId = await anotherFreezer(packed);
    const trayId = await trayAt(packed, packs, 0, 12);
    await moveAt(packed, 14, packs.slice(0, 2), 'into-store', otherId);
    kitchen.clock.set(sealedMs + 15 * HOUR_MS);
    await kitchen.ask('tray.mark', { trayId, what: 'out', atMs: kitchen.clock.nowMs(), how: null });
    kitchen.clock.set(sealedMs + 24 * HOUR_MS);
    const hours = [0, 6, 12, 15, 24];
    await readPlace(packed, hours);
    await readPlace(packed, hours, '-8', otherId);
    expect(await storeOf(packed)).toBe('open');
    kitchen.clock.set(sealedMs + 30 * HOUR_MS);
    await readPlace(packed, [30], '25', otherId);
    expect(await storeOf(packed)).toBe('misses');
    expect((await kitchen.ask('worklist.get', {})).items.map(({ what }) => what)).toContain('decide-again');
  });

  it('is not proven where nothing was read for more than a day before the last pack was gone', async () => {
    const packed = await packedKitchen({ packs: 2 });
    await frozenOnTray(packed);
    await moveAt(packed, 60, packed.packs, 'destroyed');
    expect(await storeOf(packed)).toBe('not-proven');
  });

  it('waits for no tray all of whose packs were destroyed', async () => {
    const packed = await packedKitchen({ packs: 4 });
    const { kitchen, packs, sealedMs } = packed;
    await trayAt(packed, packs.slice(0, 2), 0, 12);
    await kitchen.ask('tray.make', trayInput(packed, packs.slice(2)));
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    await readPlace(packed, [0, 6, 12, 16, 20]);
    expect((await leaveOf(packed))?.line).toContain('freeze record');
    await moveAt(packed, 20, packs.slice(2), 'destroyed');
    expect(await leaveOf(packed)).toMatchObject({ state: 'may' });
  });

  it('is judged in the tray’s freezer also where the fish was frozen before it was sealed in another', async () => {
    const packed = await packedKitchen({ packs: 2 });
    const { kitchen, batchId, packs, smoke, sealedMs, smoked } = packed;
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: smoked.outMs, placeId: smoke.freezerId });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: sealedMs - 60_000, placeId: null });
    const otherId = await anotherFreezer(packed);
    await trayAt(packed, packs, 0, 1, otherId);
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    await readPlace(packed, [0, 6, 12, 20]);
    await readPlace(packed, [0, 6, 12, 20], '30', otherId);
    expect(await storeOf(packed)).toBe('misses');
  });
});

describe('packs that are with guests', () => {
  it('are called for when more of the record breaks while the batch waits to be decided again, each guest by a line of their own', async () => {
    const packed = await packedKitchen({ lot: { source: guest('Ivo Brandt', 'MN-1') } });
    const { kitchen, packs, sealedMs } = packed;
    const owner = await addGuest(packed);
    await frozenOnTray(packed);
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs.slice(0, 2)));
    kitchen.clock.advance(5 * 60_000);
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs.slice(2, 4)));
    kitchen.clock.set(sealedMs + 60 * HOUR_MS);
    await readPlace(packed, [21]);
    await readPlace(packed, [40, 50, 60], '45');
    const calls = async () => (await kitchen.ask('worklist.get', {})).items.filter(({ what }) => what === 'call');
    expect(await calls()).toEqual([]);
    await breakCooling(packed);
    const asked = await calls();
    expect(asked.map(({ text }) => text.includes(packs[0]?.code ?? 'none'))).toEqual([true, false]);
    expect(asked[1]?.text).toContain(packs[2]?.code);
    const [first] = asked;
    await kitchen.ask('worklist.done', { itemId: first?.id ?? '', how: 'Spoke to Ivo.' });
    // What was done is not asked for again by the next reading.
    await readPlace(packed, [59], '45');
    expect(await calls()).toHaveLength(2);
  });
});
