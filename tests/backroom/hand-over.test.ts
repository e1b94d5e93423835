import { describe, expect, it } from 'vitest';
import { reachedByPoints } from '../../main/backroom/services/rejudging-reach.ts';
import { guest, HOUR_MS } from './fish-and-brine.ts';
import { addGuest, breakCooling, frozenOnTray, handOverInput, packedKitchen, readPlace, trayInput, type PackedKitchen } from './packed-kitchen.ts';
import { roomOn } from './room-on-file.ts';
import { refusal, releaseInput } from './smoke-kitchen.ts';

/** Ivo Brandt's own catch in six packs, frozen on a tray, and Ivo Brandt on file. */
async function readyToGo(): Promise<PackedKitchen & { owner: Awaited<ReturnType<typeof addGuest>>; trayId: string }> {
  const packed = await packedKitchen({ lot: { source: guest('Ivo Brandt', 'MN-1') } });
  const owner = await addGuest(packed);
  return { ...packed, owner, trayId: await frozenOnTray(packed) };
}

describe('handing packs to their owner', () => {
  it('keeps what was looked at, who signed, and of how many; the packs are with them then', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs } = packed;
    const before = await kitchen.ask('handOver.prepare', { guestId: owner.id });
    expect(before).toMatchObject({ of: 6, given: 0, batches: [{ refusal: null, line: 'May leave.' }] });
    const { handOver } = await kitchen.ask('handOver.make', handOverInput(packed, owner, packs), 'HA');
    expect(handOver).toMatchObject({ of: 6, missed: [], travelHours: 6, frozenHard: { how: 'touch' }, initials: 'HA', signature: { name: 'Ivo Brandt' } });
    const { pack } = await kitchen.ask('pack.find', { text: packs[0]?.code ?? '' });
    expect(pack).toMatchObject({ state: 'handed-over', where: expect.stringContaining('handed to Ivo Brandt at') });
    expect((await kitchen.ask('pack.stock', {})).packs).toEqual([]);
    const shown = await kitchen.ask('handOver.get', { handOverId: handOver.id });
    expect(shown.handOver.codes).toHaveLength(6);
    expect(shown.handOver.codes[0]).toMatchObject({ isCustom: true, store: 'frozen' });
  });

  it('records what was missed, and wants a word why', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs } = packed;
    const careless = handOverInput(packed, owner, packs.slice(0, 4), { frozenHard: { how: 'not-checked', reading: null }, box: '', travelHours: '', signature: null, sheetGiven: false });
    expect(await refusal(kitchen.reply('handOver.make', careless))).toMatchObject({ code: 'INVALID_INPUT', fields: [{ path: ['why'] }], message: expect.stringContaining('Nobody signed.') });
    const { handOver } = await kitchen.ask('handOver.make', { ...careless, why: 'The boat was leaving.' });
    expect(handOver).toMatchObject({ of: 6, why: 'The boat was leaving.', missed: [
      'Whether the packs were frozen hard was not checked.', 'The box they travel in is not named.', 'How many hours they travel was not asked.', 'Nobody signed.', 'The sheet on keeping and thawing was not given.',
    ] });
    expect((await kitchen.ask('handOver.prepare', { guestId: owner.id }))).toMatchObject({ of: 2, given: 4 });
  });

  it('counts a reading over 0 °F as missed, and takes none of a pack that is thawing', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs } = packed;
    const read = (text: string) => handOverInput(packed, owner, packs, { frozenHard: { how: 'reading', reading: { text, unit: 'F' } } });
    expect((await refusal(kitchen.reply('handOver.make', read('12')))).message).toBe('Not everything was looked at: The packs read 12.0 °F, over 0.0 °F.');
    expect((await refusal(kitchen.reply('handOver.make', { ...read('28'), why: 'It is fine.' }))).message).toContain('thawing');
    expect((await kitchen.ask('handOver.make', read('0'))).handOver).toMatchObject({ missed: [], frozenHard: { ticks: expect.any(Number), text: '0 °F' } });
  });
});

describe('what is not handed over', () => {
  it('is a pack given already, one named twice, or one whose signature has no strokes', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs } = packed;
    const [first] = packs;
    if (first === undefined) throw new Error('no pack');
    expect((await refusal(kitchen.reply('handOver.make', handOverInput(packed, owner, [first, first])))).message).toBe(`Pack ${first.code} was scanned twice.`);
    for (const [path, said] of [['', 'no strokes'], ['M5,5', 'no strokes'], ['M5,5 L6,6', 'only a dot'], ['<svg onload=x>', 'can’t be read']] as const) {
      expect((await refusal(kitchen.reply('handOver.make', handOverInput(packed, owner, packs, { signature: { path, name: 'Ivo Brandt' } })))).message).toContain(said);
    }
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs.slice(0, 1)));
    expect(await refusal(kitchen.reply('handOver.make', handOverInput(packed, owner, packs)))).toMatchObject({ code: 'CONFLICT', message: expect.stringMatching(/^Pack .*-001 was handed to Ivo Brandt at .* already\.$/) });
  });

  it('is a guest’s own catch to anybody else, least of all to a buyer', async () => {
    const packed = await readyToGo();
    const shop = await addGuest(packed, { kind: 'buyer', name: 'Harbour Shop', contact: '', room: '' });
    const error = await refusal(packed.kitchen.reply('handOver.make', handOverInput(packed, shop, packed.packs)));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('Ivo Brandt’s own catch, not Harbour Shop’s'), remedy: 'A guest’s own catch is not for sale.' });
  });

  it('is a pack of a batch on HOLD, or of one that must be decided again', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs, batchId } = packed;
    await breakCooling(packed);
    expect((await refusal(kitchen.reply('handOver.make', handOverInput(packed, owner, packs)))).message).toContain('must be decided again');
    await kitchen.ask('batch.decide', releaseInput(batchId, { decision: 'hold', reason: 'The probe read high.', keptWhere: 'red tub' }));
    expect((await refusal(kitchen.reply('handOver.make', handOverInput(packed, owner, packs)))).message).toContain('is on HOLD (MG: The probe read high.)');
    expect((await kitchen.ask('handOver.prepare', { guestId: owner.id })).batches[0]?.refusal?.message).toContain('is on HOLD');
  });

  it('is a miss of the freezer, whatever a manager says', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs } = packed;
    await readPlace(packed, [18], '31');
    const error = await refusal(kitchen.reply('handOver.make', handOverInput(packed, owner, packs, { initialsForError: true, why: 'I take it upon me.' }), 'MG'));
    expect(error.code).toBe('RULE_BLOCKS');
    expect(error.message).toContain('FROZEN-0F');
  });

  it('is a pack that lies on no tray, or on one that is not frozen or was taken out', async () => {
    const packed = await packedKitchen({ lot: { source: guest('Ivo Brandt') } });
    const { kitchen, packs, sealedMs } = packed;
    const owner = await addGuest(packed);
    const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs.slice(0, 3)));
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    await readPlace(packed, [0, 6, 12, 16, 20]);
    await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
    const give = (from: number, to: number) => kitchen.reply('handOver.make', handOverInput(packed, owner, packs.slice(from, to)));
    expect((await refusal(give(3, 4))).message).toContain('none of the batch’s trays');
    await kitchen.ask('tray.mark', { trayId: tray.id, what: 'out', atMs: sealedMs + 19 * HOUR_MS, how: null });
    expect((await refusal(give(0, 1))).message).toContain('came out of the freezer');
  });

  it('is anything over the thermometer’s error without a manager’s initials', async () => {
    const packed = await packedKitchen({ lot: { source: guest('Ivo Brandt') } });
    const { kitchen, packs, sealedMs } = packed;
    const owner = await addGuest(packed);
    const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs));
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
    await readPlace(packed, [0, 6, 12, 16, 20], '-0.5');
    const give = (initialsForError: boolean, as: string) => kitchen.reply('handOver.make', handOverInput(packed, owner, packs, { initialsForError }), as);
    expect((await refusal(give(false, 'MG'))).message).toContain('only within the thermometer’s error');
    expect((await refusal(give(true, 'HA'))).message).toContain('only within the thermometer’s error');
    expect((await give(true, 'MG')).ok).toBe(true);
  });
});

describe('packs that went out, when the record of their batch changes', () => {
  it('make a line to call whoever has them, by name and contact, beside those that are still here', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs } = packed;
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs.slice(0, 4)));
    await kitchen.ask('pack.move', { packIds: packs.slice(4, 5).map(({ id }) => id), what: 'served', placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: '' });
    await breakCooling(packed);
    const { items } = await kitchen.ask('worklist.get', {});
    const find = items.find(({ what }) => what === 'packs')?.text ?? '';
    expect(find).toContain(`In Chest freezer, shelf 2: ${packs[5]?.code ?? ''}.`);
    expect(find).not.toContain(packs[0]?.code ?? 'none');
    const calls = items.filter(({ what }) => what === 'call').map(({ text }) => text).join('\n');
    expect(calls).toContain('Call Ivo Brandt (555-0177)');
    for (const pack of packs.slice(0, 4)) expect(calls).toContain(pack.code);
    expect(calls).toContain(`Served here: ${packs[4]?.code ?? ''}`);
  });

  it('are not reached by later readings of the freezer once the last of them is gone', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs, batchId, sealedMs } = packed;
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs));
    kitchen.clock.set(sealedMs + 60 * HOUR_MS);
    await readPlace(packed, [40, 50, 60], '45');
    expect((await kitchen.ask('worklist.get', {})).items).toEqual([]);
    expect((await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find(({ checkId }) => checkId === 'FROZEN-0F')?.verdict).toBe('meets');
  });

  it('are reached as long as one is still here', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs, sealedMs } = packed;
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs.slice(0, 5)));
    kitchen.clock.set(sealedMs + 60 * HOUR_MS);
    await readPlace(packed, [40, 50, 60], '45');
    const { items } = await kitchen.ask('worklist.get', {});
    expect(items.map(({ what }) => what)).toContain('decide-again');
    // The freezer read cold when they left: those who took them needn’t be called for what came later.
    expect(items.map(({ what }) => what)).not.toContain('call');
  });

  it('are called for where the freezer was warm before they left, or may have been', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs, sealedMs } = packed;
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs.slice(0, 5)));
    await readPlace(packed, [19], '45');
    expect((await kitchen.ask('worklist.get', {})).items.map(({ what }) => what)).toContain('call');
    const late = await readyToGo();
    late.kitchen.clock.set(late.sealedMs + 22 * HOUR_MS);
    await late.kitchen.ask('handOver.make', handOverInput(late, late.owner, late.packs.slice(0, 5)));
    late.kitchen.clock.set(sealedMs + 30 * HOUR_MS);
    // Cold at hour 20, warm at hour 24: at hour 22 nobody knows.
    await readPlace(late, [24, 30], '45');
    expect((await late.kitchen.ask('worklist.get', {})).items.map(({ what }) => what)).toContain('call');
  });

  it('are judged no more for readings of a freezer they left, be they good or bad', async () => {
    const packed = await readyToGo();
    const { kitchen, owner, packs, batchId, sealedMs, smoke } = packed;
    await kitchen.ask('handOver.make', handOverInput(packed, owner, packs));
    await kitchen.close();
    const { room, close } = roomOn(kitchen.file, kitchen.clock.nowMs());
    const reached = (fromHour: number, toHour: number) => reachedByPoints(room, [room.book.shelf('points').need(smoke.freezerId)], { fromMs: sealedMs + fromHour * HOUR_MS, toMs: sealedMs + toHour * HOUR_MS }).map(({ id }) => id);
    expect(reached(21, 60)).toEqual([]);
    expect(reached(19, 60)).toEqual([batchId]);
    close();
  });
});

describe('chilled packs', () => {
  it('are judged by the cooler they were put into, and by no other once all of them are put somewhere', async () => {
    const packed = await packedKitchen({ batch: { store: 'refrigerated' }, release: { store: 'refrigerated' }, lab: true });
    const { kitchen, packs, smoke, sealedMs, batchId } = packed;
    const { id: otherId } = await kitchen.ask('office.addPlace', { name: 'Bar cooler', kind: 'cooler' });
    const hours = [0, 1, 2, 3, 4];
    kitchen.clock.set(sealedMs + 4 * HOUR_MS);
    await readPlace(packed, hours, '34', smoke.coolerId);
    await readPlace(packed, hours, '44', otherId);
    const store = async () => (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find(({ checkId }) => checkId === 'STORE-38')?.verdict;
    expect(await store()).toBe('misses');
    await kitchen.ask('pack.move', { packIds: packs.map(({ id }) => id), what: 'into-store', placeId: smoke.coolerId, spot: '', atMs: sealedMs, why: '' });
    expect(await store()).toBe('open');
  });
});
