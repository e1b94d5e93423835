import { describe, expect, it } from 'vitest';
import { guest, HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { addGuest, frozenOnTray, handOverInput, moveAt, packedKitchen, readPlace, type PackedKitchen, type PackedOptions } from './packed-kitchen.ts';
import { refusal, saveKitchen } from './smoke-kitchen.ts';

const CHILLED: PackedOptions = { batch: { store: 'refrigerated' }, release: { store: 'refrigerated' }, lab: true };

/** Two packs, on a tray and solid, the clock at hour 20, the freezer read. */
async function frozen(): Promise<PackedKitchen> {
  const packed = await packedKitchen({ packs: 2 });
  await frozenOnTray(packed);
  return packed;
}

async function give(packed: PackedKitchen, more: object = {}) {
  const known = (await packed.kitchen.ask('guest.list', {})).guests[0];
  return packed.kitchen.reply('handOver.make', handOverInput(packed, known ?? await addGuest(packed, { kind: 'buyer', name: 'Harbour Shop' }), packed.packs.slice(0, 1), more));
}

/** Every two hours from one hour after the sealing to another. */
function everyTwoHours(from: number, to: number): number[] {
  return Array.from({ length: (to - from) / 2 + 1 }, (_value, index) => from + 2 * index);
}

function serve({ kitchen, packs }: PackedKitchen, more: object = {}, as = 'MG') {
  return kitchen.reply('pack.move', { packIds: packs.slice(0, 1).map(({ id }) => id), what: 'served', placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: '', ...more }, as);
}

describe('a pack that thawed here', () => {
  it('is not served where nothing shows where it lay', async () => {
    const packed = await frozen();
    await moveAt(packed, 21, packed.packs, 'out-of-store');
    packed.kitchen.clock.advance(30 * MINUTE_MS);
    await readPlace(packed, [21.5]);
    expect((await serve(packed)).ok).toBe(true);
    packed.kitchen.clock.advance(MINUTE_MS);
    const error = await refusal(packed.kitchen.reply('pack.move', { packIds: packed.packs.slice(1).map(({ id }) => id), what: 'served', placeId: null, spot: '', atMs: packed.kitchen.clock.nowMs(), why: '' }));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('nothing shows that it thawed cold') });
  });

  it('is not served out of a freezer that its batch was only marked out of', async () => {
    const packed = await packedKitchen({ packs: 2 });
    const { kitchen, batchId, smoke, sealedMs } = packed;
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: sealedMs, placeId: smoke.freezerId });
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, placeId: null });
    await readPlace(packed, [0, 6, 12, 16, 20]);
    await kitchen.ask('batch.mark', { batchId, what: 'out-of-freezer', atMs: kitchen.clock.nowMs(), placeId: null });
    kitchen.clock.advance(31 * MINUTE_MS);
    expect((await refusal(serve(packed))).message).toContain('nothing shows that it thawed cold');
  });

  it.each([
    ['60', false, 'MG', 'is not shown'], [null, false, 'MG', 'is not shown'], ['60', true, 'MG', 'is not shown'], ['37.5', false, 'MG', 'only within the thermometer’s error'],
    ['37.5', true, 'HA', 'only within the thermometer’s error'], ['37.5', true, 'MG', null], ['34', false, 'MG', null],
  ] as const)(
    'in a cooler that read %s °F, with initials (%s) by %s: %s', async (degreesF, initialsForError, as, said) => {
      const packed = await frozen();
      await moveAt(packed, 21, packed.packs, 'into-store', packed.smoke.coolerId);
      packed.kitchen.clock.set(packed.sealedMs + 45 * HOUR_MS);
      await readPlace(packed, [21, 33, 45]);
      if (degreesF !== null) await readPlace(packed, everyTwoHours(21, 45), degreesF, packed.smoke.coolerId);
      const reply = serve(packed, { initialsForError }, as);
      if (said === null) expect((await reply).ok).toBe(true);
      else expect((await refusal(reply)).message).toContain(said);
    });
});

describe('a frozen pack', () => {
  it('that comes and goes by half hours, back for minutes only, was out all the time', async () => {
    const packed = await frozen();
    for (const hour of [20, 20.6]) {
      await moveAt(packed, hour, packed.packs, 'out-of-store');
      await moveAt(packed, hour + 0.5, packed.packs, 'into-store', packed.smoke.freezerId);
    }
    await readPlace(packed, [21]);
    expect((await refusal(give(packed))).message).toContain('it came out of the freezer at');
  });
});

describe('a chilled pack', () => {
  it('that reads over 41 °F stays, whatever is said', async () => {
    const packed = await packedKitchen({ packs: 2, ...CHILLED });
    const { kitchen, packs, smoke, sealedMs } = packed;
    await moveAt(packed, 0, packs, 'into-store', smoke.coolerId);
    kitchen.clock.set(sealedMs + 4 * HOUR_MS);
    await readPlace(packed, [0, 1, 2, 3, 4], '34', smoke.coolerId);
    const reading = (text: string) => give(packed, { frozenHard: { how: 'reading', reading: { text, unit: 'F' } }, why: 'They are in a hurry.' });
    expect((await refusal(reading('41.1'))).message).toContain('the packs are warm');
    expect((await reading('41')).ok).toBe(true);
  });

  it.each([['MI', false], ['OR', true]] as const)('in %s leaves after the last day that the law wants on its label: %s', async (region, leaves) => {
    const packed = await packedKitchen({ packs: 2, ...CHILLED });
    const { kitchen, packs, smoke, sealedMs } = packed;
    await saveKitchen(kitchen, { address: { street: '1 River Rd', city: 'Anytown', region, postalCode: '49999' } });
    await moveAt(packed, 0, packs, 'into-store', smoke.coolerId);
    const cold = { frozenHard: { how: 'reading', reading: { text: '34', unit: 'F' } } };
    kitchen.clock.set(sealedMs + 15 * 24 * HOUR_MS);
    await readPlace(packed, everyTwoHours(0, 15 * 24), '34', smoke.coolerId);
    const reply = await give(packed, cold);
    expect(reply.ok ? '' : reply.error.message).toMatch(leaves ? /^$/ : /its shelf life ended on 8 Dec 2026/);
  });
});

describe('a guest’s own catch', () => {
  it('goes to no buyer, though the buyer has the owner’s name', async () => {
    const packed = await packedKitchen({ packs: 2, lot: { source: guest('Ivo Brandt') } });
    await frozenOnTray(packed);
    const shop = await addGuest(packed, { kind: 'buyer', name: 'ivo brandt' });
    expect(await refusal(packed.kitchen.reply('handOver.make', handOverInput(packed, shop, packed.packs)))).toMatchObject({ code: 'RULE_BLOCKS', remedy: 'A guest’s own catch is not for sale.' });
  });
});
