import { copyFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hybridCheckCharacter, DIGITS_AND_LETTERS } from '../../app/packs/check-character.ts';
import { gs1CheckDigit } from '../../app/packs/pack-code.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { HOUR_MS, lotInput, receive } from './fish-and-brine.ts';
import { addGuest, breakCooling, frozenOnTray, handOverInput, moveAt, packedKitchen, readPlace, trayInput } from './packed-kitchen.ts';
import { refusal, releaseInput } from './smoke-kitchen.ts';

const DAY_MS = 24 * HOUR_MS;

describe('packs in and out of the cold store', () => {
  it('are where they were put, and stand in the stock by species, owner and place, the oldest first', async () => {
    const packed = await packedKitchen({ packs: 4 });
    const { kitchen, packs, smoke, sealedMs } = packed;
    kitchen.clock.advance(HOUR_MS);
    const into = { what: 'into-store' as const, placeId: smoke.freezerId, spot: 'basket 1', atMs: sealedMs + HOUR_MS, why: '' };
    await kitchen.ask('pack.move', { packIds: packs.slice(0, 3).map(({ id }) => id), ...into });
    const stock = await kitchen.ask('pack.stock', {});
    expect(stock.packs.map(({ code, state }) => [code.slice(-3), state])).toEqual([['001', 'into-store'], ['002', 'into-store'], ['003', 'into-store'], ['004', 'at-table']]);
    expect(stock.byPlace.map(({ name, packs: count }) => [name, count])).toEqual([['', 1], ['Chest freezer', 3]]);
    expect(stock.bySpecies).toMatchObject([{ packs: 4 }]);
    expect(stock.spots).toEqual([{ placeId: smoke.freezerId, spot: 'basket 1' }]);
    expect(stock.packs[0]?.where).toMatch(/^in Chest freezer, basket 1, since /);
    await kitchen.ask('pack.move', { packIds: [packs[0]?.id ?? ''], what: 'out-of-store', placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: '' });
    expect((await kitchen.ask('pack.find', { text: packs[0]?.code ?? '' })).pack).toMatchObject({ state: 'out-of-store', where: expect.stringContaining('out of Chest freezer, basket 1') });
  });

  it('are said to come out of each place that they lay in', async () => {
    const packed = await packedKitchen({ packs: 2 });
    const { kitchen, packs, smoke, batchId } = packed;
    await moveAt(packed, 1, packs.slice(0, 1), 'into-store', smoke.freezerId);
    await moveAt(packed, 1, packs.slice(1), 'into-store', smoke.coolerId);
    await moveAt(packed, 2, packs, 'out-of-store');
    const { entries } = await kitchen.ask('record.batch', { batchId });
    expect(entries.at(-1)?.summary).toContain('out of Chest freezer and Walk-in cooler at');
  });

  it('are here again in a book that was saved before they left', async () => {
    const packed = await packedKitchen({ packs: 1 });
    const { kitchen } = packed;
    const nowMs = kitchen.clock.nowMs();
    await kitchen.close();
    const saved = join(dirname(kitchen.file), 'saved.alderbook');
    copyFileSync(kitchen.file, saved);
    const later = await openTestKitchen({ bookFile: kitchen.file, nowMs });
    await later.ask('pack.move', { packIds: packed.packs.map(({ id }) => id), what: 'destroyed', placeId: null, spot: '', atMs: nowMs, why: 'Bag burst.' });
    expect((await later.ask('pack.stock', {})).packs).toEqual([]);
    await later.close();
    const before = await openTestKitchen({ bookFile: saved, nowMs });
    expect((await before.ask('pack.stock', {})).packs).toHaveLength(1);
  });

  it('name as expiring what is within a fortnight of its date, by the label’s own date', async () => {
    const packed = await packedKitchen({ packs: 1 });
    const { kitchen, packs, sealedMs } = packed;
    const label = (await kitchen.ask('label.forPacks', { packIds: packs.map(({ id }) => id), stockId: '4x6in' })).labels[0];
    const stock = await kitchen.ask('pack.stock', {});
    const printed = label?.blocks.map(({ text }) => text).join('\n') ?? '';
    const [, month = '', day = ''] = (stock.packs[0]?.bestBy ?? '').split('-');
    expect(printed).toMatch(new RegExp(`${Number(day)} ${['Jan', 'Feb', 'Mar'][Number(month) - 1] ?? ''}`, 'i'));
    expect(stock.expiring).toEqual([]);
    kitchen.clock.set(sealedMs + 77 * DAY_MS);
    expect((await kitchen.ask('pack.stock', {})).expiring).toEqual([packs[0]?.id]);
  });

  it('refuse what can’t be: twice the same, a brining room, a pack gone, nothing said of a destroyed one', async () => {
    const packed = await packedKitchen({ packs: 2 });
    const { kitchen, packs, smoke } = packed;
    const [first, second] = packs;
    if (first === undefined || second === undefined) throw new Error('no packs');
    const move = (packIds: string[], more: object = {}) => kitchen.reply('pack.move', { packIds, what: 'into-store', placeId: smoke.freezerId, spot: '', atMs: kitchen.clock.nowMs(), why: '', ...more });
    expect(await refusal(move([first.id, first.id]))).toMatchObject({ code: 'INVALID_INPUT', message: `Pack ${first.code} was scanned twice.`, fields: [{ path: ['packIds', 1] }] });
    expect((await refusal(move([first.id], { placeId: smoke.roomId }))).message).toBe('Brining room is a brining room.');
    await move([first.id]);
    expect((await refusal(move([first.id]))).message).toMatch(/^Pack .*-001 is in Chest freezer, since .* already\.$/);
    expect((await refusal(move([second.id], { what: 'out-of-store' }))).message).toContain('lies in no cold place');
    expect((await refusal(move([second.id], { what: 'destroyed' }))).message).toBe('Nothing says why it is destroyed.');
    expect((await move([second.id], { what: 'destroyed', why: 'Bag burst.' })).ok).toBe(true);
    expect(await refusal(move([second.id]))).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('destroyed at') });
    expect((await refusal(move([second.id], { what: 'returned', why: 'x' }))).message).toContain('was not given away');
    expect((await refusal(move([first.id], { what: 'out-of-store', atMs: kitchen.clock.nowMs() - DAY_MS }))).message).toContain('the last move of pack');
  });

  it('let a pack on HOLD be moved to cold, and serve nothing that may not leave', async () => {
    const packed = await packedKitchen({ packs: 2 });
    const { kitchen, packs, smoke, batchId } = packed;
    const packIds = packs.map(({ id }) => id);
    const move = (what: 'into-store' | 'served') => kitchen.reply('pack.move', { packIds, what, placeId: what === 'served' ? null : smoke.coolerId, spot: '', atMs: kitchen.clock.nowMs(), why: '' });
    expect((await refusal(move('served'))).message).toContain('can’t be served');
    await kitchen.ask('batch.decide', releaseInput(batchId, { decision: 'hold', reason: 'In doubt.' }));
    expect((await refusal(move('served'))).message).toContain('is on HOLD');
    expect((await move('into-store')).ok).toBe(true);
  });

  it('keep what came back from a guest from being given again', async () => {
    const packed = await packedKitchen({ packs: 1 });
    const { kitchen, packs } = packed;
    const shop = await addGuest(packed, { kind: 'buyer', name: 'Harbour Shop' });
    await frozenOnTray(packed);
    await kitchen.ask('handOver.make', handOverInput(packed, shop, packs));
    await kitchen.ask('pack.move', { packIds: packs.map(({ id }) => id), what: 'returned', placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: 'One too many' });
    expect((await refusal(kitchen.reply('handOver.make', handOverInput(packed, shop, packs)))).message).toContain('nothing shows how it was kept');
  });
});

describe('a code that is scanned', () => {
  it('is found as typed, in small letters, grouped, and with a scanner’s own signs before it', async () => {
    const { kitchen, packs } = await packedKitchen({ packs: 1 });
    const code = packs[0]?.code ?? '';
    for (const text of [code, code.toLowerCase(), `]d1${code}\r`, ` ${code.slice(0, 2)} ${code.slice(2, 7)} ${code.slice(7, 8)}-${code.slice(8)}`]) {
      expect((await kitchen.ask('pack.find', { text })).pack.code).toBe(code);
    }
  });

  it('is refused in a sentence when it is from elsewhere', async () => {
    const { kitchen, packs } = await packedKitchen({ packs: 1 });
    const code = packs[0]?.code ?? '';
    const elsewhere = `CO26195B${hybridCheckCharacter('CO26195B', DIGITS_AND_LETTERS)}-007`;
    const gtin = `1234567890123${gs1CheckDigit('1234567890123')}`;
    const cases: readonly (readonly [string, string, string])[] = [
      [elsewhere, 'NOT_FOUND', 'is no pack of this kitchen'],
      [`${code.slice(0, 8)}${code.charAt(8) === 'A' ? 'B' : 'A'}${code.slice(9)}`, 'INVALID_INPUT', 'check character'],
      [code.slice(0, 9), 'INVALID_INPUT', 'is a lot, not one pack'],
      [`${code.slice(0, 9)}-900`, 'NOT_FOUND', 'has no pack 900'],
      [`01${gtin}310300034110${code.slice(0, 9)}\u001d21001`, 'INVALID_INPUT', 'which is not this kitchen’s'],
      [`0112345678901235${code.slice(0, 9)}`, 'INVALID_INPUT', 'check digit'],
      ['4006381333931', 'INVALID_INPUT', 'trade item number, not a pack'],
      ['https://example.org/x', 'INVALID_INPUT', 'is no code of a pack'],
      ['   ', 'INVALID_INPUT', 'Nothing was scanned.'],
    ];
    for (const [text, errorCode, said] of cases) expect(await refusal(kitchen.reply('pack.find', { text }))).toMatchObject({ code: errorCode, message: expect.stringContaining(said) });
  });
});

describe('the portioning table', () => {
  it('says before the first pack what the pack must say and rests on, and how the weights add up', async () => {
    const packed = await packedKitchen({ packs: 2 });
    const { kitchen, batchId, sealedMs } = packed;
    const before = await kitchen.ask('portion.get', { batchId });
    expect(before).toMatchObject({ refusal: null, openPacks: 2, gate: { gate: 'pack', state: 'may' } });
    expect(before.says.some(({ text }) => text.includes('KEEP FROZEN'))).toBe(true);
    expect(before.says.some(({ text }) => /^WPS-ROP-3\.5.*not asked of packs kept frozen/.test(text))).toBe(true);
    await kitchen.ask('batch.weigh', { batchId, what: 'finished', mass: { text: '0.7', unit: 'lb' }, atMs: sealedMs });
    const close = { batchId, remainder: null, trim: { text: '0.05', unit: 'lb' as const }, atMs: sealedMs, target: null, tare: null, why: '' };
    const error = await refusal(kitchen.reply('portion.close', close));
    expect(error).toMatchObject({ code: 'INVALID_INPUT', fields: [{ path: ['why'] }], message: 'The weights don’t add up: 0.05 lb of 0.70 lb is missing, 7.1 %; up to 2 % is this kitchen’s tolerance.' });
    const { balance, portioning } = await kitchen.ask('portion.close', { ...close, remainder: { text: '0.04', unit: 'lb' } });
    expect(portioning).toMatchObject({ why: '', packIds: packed.packs.map(({ id }) => id) });
    expect(balance.unaccountedPercent).toBeCloseTo(1.43, 1);
    expect(balance.yieldOfFinishedPercent).toBeCloseTo(85.7, 1);
    expect((await refusal(kitchen.reply('portion.close', { ...close, trim: null }))).message).toContain('was weighed since the last portioning');
  });

  it('asks why where the finished fish wasn’t weighed, and takes a reason', async () => {
    const { kitchen, batchId, sealedMs } = await packedKitchen({ packs: 1 });
    const close = { batchId, remainder: null, trim: null, atMs: sealedMs, target: null, tare: null, why: '' };
    expect((await refusal(kitchen.reply('portion.close', close))).message).toContain('was not weighed');
    expect((await kitchen.ask('portion.close', { ...close, why: 'Scale was broken.' })).portioning.why).toBe('Scale was broken.');
  });

  it('takes the bag off a gross weight, and refuses a pack heavier than what is left', async () => {
    const packed = await packedKitchen({ packs: 1 });
    const { kitchen, batchId, sealedMs } = packed;
    await kitchen.ask('batch.weigh', { batchId, what: 'finished', mass: { text: '1.0', unit: 'lb' }, atMs: sealedMs });
    const seal = (text: string, more: object = {}) => kitchen.reply('pack.seal', { batchId, sealedAtMs: sealedMs, weights: [{ text, unit: 'lb' }], ...more });
    expect(await refusal(seal('0.8'))).toMatchObject({ message: 'Pack 2 weighs 0.8 lb, but of the 1.00 lb of finished fish only 0.70 lb is left: 0.30 lb is packed.', fields: [{ path: ['weights', 0, 'text'] }] });
    expect((await refusal(seal('0.02', { weighed: 'gross', tare: { text: '0.03', unit: 'lb' } }))).message).toContain('is no more than the bag weighs');
    expect((await refusal(seal('0.5', { weighed: 'gross' }))).message).toContain('empty bag is missing');
    const reply = await seal('0.53', { weighed: 'gross', tare: { text: '0.03', unit: 'lb' } });
    expect(reply).toMatchObject({ ok: true, value: { packs: [{ net: { text: '0.5', unit: 'lb' } }] } });
  });

  it('shows at once that nothing may be sealed, with what helps', async () => {
    const packed = await packedKitchen({ packs: 1 });
    await breakCooling(packed);
    const { refusal: stopped } = await packed.kitchen.ask('portion.get', { batchId: packed.batchId });
    expect(stopped?.message).toContain('must be decided again');
    expect(stopped?.remedy).not.toBe('');
  });
});

describe('guests', () => {
  it('are told apart by contact or room, and keep a name of 200 characters in any script to the letter', async () => {
    const packed = await packedKitchen({ packs: 1 });
    const { kitchen } = packed;
    await addGuest(packed);
    const again = { guestId: null, draft: { kind: 'guest' as const, name: 'ivo brandt', contact: '555-0177', address: '', room: '4', checkoutDay: null } };
    expect((await refusal(kitchen.reply('guest.save', again))).message).toBe('Ivo Brandt is known already, in room 4.');
    const name = `<b>魚</b> ${'ż'.repeat(191)}`;
    expect(name).toHaveLength(200);
    const { guest } = await kitchen.ask('guest.save', { ...again, draft: { ...again.draft, name } });
    expect((await kitchen.ask('guest.list', {})).guests.find(({ id }) => id === guest.id)?.name).toBe(name);
    expect((await refusal(kitchen.reply('guest.save', { ...again, draft: { ...again.draft, name: `${name}x` } }))).code).toBe('INVALID_INPUT');
  });
});

describe('the owner named at fish in', () => {
  it('is a guest on file, and another once the lot is corrected', async () => {
    const kitchen = await openTestKitchen();
    const wrong = await addGuest({ kitchen });
    const right = await addGuest({ kitchen }, { name: 'Noor Haddad', room: '9' });
    const lot = await receive(kitchen, { source: { kind: 'guest', ownerName: 'Ivo Brandt', guestId: wrong.id } });
    const lotsOf = async () => (await kitchen.ask('guest.list', {})).guests.map(({ id, lots }) => [id, lots]);
    expect(await lotsOf()).toEqual([[right.id, 0], [wrong.id, 1]]);
    await kitchen.ask('fishLot.correct', { lotId: lot.id, speciesId: null, ownerName: 'Noor Haddad', why: 'Wrong name.' });
    expect(await lotsOf()).toEqual([[right.id, 1], [wrong.id, 0]]);
    expect((await refusal(kitchen.reply('fishLot.receive', lotInput(kitchen, { source: { kind: 'guest', ownerName: 'X', guestId: 'nobody' } })))).code).toBe('NOT_FOUND');
  });
});

describe('a cold place’s own record', () => {
  it('is judged by the check its packs are held to', async () => {
    const packed = await packedKitchen({ packs: 1 });
    const { kitchen, smoke, sealedMs } = packed;
    kitchen.clock.set(sealedMs + 48 * HOUR_MS);
    await readPlace(packed, [0, 12, 24, 36, 48]);
    expect((await kitchen.ask('place.verdict', { placeId: smoke.freezerId })).checks).toMatchObject([{ checkId: 'FROZEN-0F', verdict: 'open' }]);
    await readPlace(packed, [30], '12');
    expect((await kitchen.ask('place.verdict', { placeId: smoke.freezerId })).checks).toMatchObject([{ checkId: 'FROZEN-0F', verdict: 'misses', reason: expect.stringContaining('12') }]);
    expect((await kitchen.ask('place.verdict', { placeId: smoke.roomId })).checks).toEqual([]);
  });

  it('serves trays: a probe on one must have shown it frozen', async () => {
    const packed = await packedKitchen({ packs: 2 });
    const { kitchen, packs, sealedMs, smoke } = packed;
    const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs, { probe: { in: 'dummy', instrumentId: smoke.handId } }));
    expect((await refusal(kitchen.reply('tray.make', trayInput(packed, packs)))).message).toContain('lies on Tray 1 already');
    kitchen.clock.set(sealedMs + 20 * HOUR_MS);
    const mark = (how: 'probe-in-dummy' | 'probe-in-fish', hour: number) => kitchen.reply('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + hour * HOUR_MS, how });
    expect((await refusal(mark('probe-in-fish', 12))).message).toContain('No probe stands in a fish');
    expect((await refusal(mark('probe-in-dummy', 12))).message).toContain('has no reading');
    await readPlace(packed, [6], '22', tray.pointId ?? '');
    await readPlace(packed, [12], '-1', tray.pointId ?? '');
    expect((await refusal(mark('probe-in-dummy', 7))).message).toContain('not frozen solid yet');
    expect((await mark('probe-in-dummy', 12)).ok).toBe(true);
    expect((await kitchen.ask('tray.list', { batchId: null })).trays).toMatchObject([{ name: 'Tray 1', packs: 2, probeIn: 'dummy', frozenHow: 'probe-in-dummy' }]);
    expect((await refusal(kitchen.reply('batch.mark', { batchId: packed.batchId, what: 'out-of-freezer', atMs: sealedMs + 13 * HOUR_MS, placeId: null }))).message).toContain('lie on trays');
  });
});
