import { describe, expect, it } from 'vitest';
import { readFishLotCode } from '../../app/packs/fish-lot-code.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { guest, HOUR_MS, LAKE_TROUT, lotInput, MINUTE_MS, receive, WHITEFISH } from './fish-and-brine.ts';

describe('receiving fish', () => {
  it('keeps what was typed beside grams and gives a code of the day with a check character', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen, { mass: { text: '12.50', unit: 'lb' }, temperature: { text: '36.8', unit: 'F' } });
    expect(lot.mass).toEqual({ text: '12.50', unit: 'lb', grams: 12.5 * 453.59237 });
    expect(lot.temperatureTicks).toBe(24_000);
    expect(lot.species.marketName).toBe('Lake Whitefish');
    expect(lot.receivedBy).toBe('MG');
    const code = readFishLotCode(lot.code);
    expect(code).toMatchObject({ ok: true, value: { number: 1, receivedOn: { year: 2026, month: 11, day: 25 } } });
  });

  it('numbers the lots of a day by the kitchen’s own calendar', async () => {
    const kitchen = await openTestKitchen();
    // 05:30 UTC is 23:30 of the day before in the kitchen.
    const lateMs = Date.UTC(2026, 10, 25, 5, 30);
    const codes = [
      (await receive(kitchen)).code,
      (await receive(kitchen)).code,
      (await receive(kitchen, { receivedAtMs: lateMs })).code,
    ];
    expect(codes.map((code) => code.slice(0, 8))).toEqual(['F2632901', 'F2632902', 'F2632801']);
  });

  it('keeps a temperature between two ticks as the warmer one', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen, { temperature: { text: '3.99999', unit: 'C' } });
    expect(lot.temperatureTicks).toBe(36_000);
  });

  it('puts the lot with its source into the record, at the time it was received', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen, { source: guest('Ida Moen', 'L-77') });
    const batch = (await kitchen.ask('batch.make', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' }, thickestMm: 20, skin: 'on', process: 'hot', pack: 'air', store: 'frozen' })).batch;
    const { entries } = await kitchen.ask('record.batch', { batchId: batch.id });
    const entry = entries.find((candidate) => candidate.kind === 'fishLot.receive');
    expect(entry).toMatchObject({ subjectId: lot.id, person: 'MG', happenedAtMs: lot.receivedAtMs, enteredAtMs: kitchen.clock.nowMs() });
    expect(entry?.summary).toContain('Ida Moen’s own catch');
  });

  it('lists the latest received first, with the batches that took from each', async () => {
    const kitchen = await openTestKitchen();
    const now = kitchen.clock.nowMs();
    const old = await receive(kitchen, { receivedAtMs: now - 5 * HOUR_MS });
    const fresh = await receive(kitchen, { receivedAtMs: now - 2 * HOUR_MS });
    const { batch } = await kitchen.ask('batch.make', { recipeId: 'plain-brine', lotIds: [old.id], fillets: { text: '4', unit: 'lb' }, thickestMm: 20, skin: 'on', process: 'hot', pack: 'air', store: 'frozen' });
    const { lots } = await kitchen.ask('fishLot.list', {});
    expect(lots.map((lot) => [lot.id, lot.batchIds])).toEqual([[fresh.id, []], [old.id, [batch.id]]]);
  });

  it('may be done by a kitchen hand', async () => {
    const kitchen = await openTestKitchen();
    expect(await kitchen.reply('fishLot.receive', lotInput(kitchen), 'HA')).toMatchObject({ ok: true, value: { lot: { receivedBy: 'HA' } } });
  });
});

describe('fish that can’t be received so', () => {
  it.each([
    ['0', 'more than zero'], ['-3', 'more than zero'], ['12,5', '12.5 with a point'], ['heavy', 'Type a number'], ['', 'Weigh it'], ['22047', 'Check the unit'],
  ])('refuses a weight of “%s” and says how to mend it', async (text, remedy) => {
    const kitchen = await openTestKitchen();
    const refused = await kitchen.reply('fishLot.receive', lotInput(kitchen, { mass: { text, unit: 'lb' } }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', remedy: expect.stringContaining(remedy), fields: [{ path: ['mass'] }] } });
    expect((await kitchen.ask('fishLot.list', {})).lots).toEqual([]);
  });

  it('refuses ten tonnes', async () => {
    const kitchen = await openTestKitchen();
    const refused = await kitchen.reply('fishLot.receive', lotInput(kitchen, { mass: { text: '10000', unit: 'kg' } }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining('more than a tonne') } });
  });

  it('refuses a species that is not in the list, naming it', async () => {
    const kitchen = await openTestKitchen();
    const refused = await kitchen.reply('fishLot.receive', lotInput(kitchen, { speciesId: 'Loch monster' }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'NOT_FOUND', message: expect.stringContaining('Loch monster'), fields: [{ path: ['speciesId'] }] } });
  });

  it('refuses a guest’s lot without the owner’s name', async () => {
    const kitchen = await openTestKitchen();
    const refused = await kitchen.reply('fishLot.receive', lotInput(kitchen, { source: guest('   ') }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['source', 'ownerName'] }] } });
  });

  it.each([
    ['received more than five minutes ahead', { receivedAtMs: 6 }, 'receivedAtMs', 'still to come'],
    ['received before it was iced', { icedAtMs: -10, receivedAtMs: -20 }, 'receivedAtMs', 'icing was at'],
    ['iced before it was caught', { caughtAtMs: -30, icedAtMs: -40, receivedAtMs: -20 }, 'icedAtMs', 'the catch was at'],
    ['received before it was caught, never iced', { caughtAtMs: -10, receivedAtMs: -20 }, 'receivedAtMs', 'the catch was at'],
    ['caught in the future', { caughtAtMs: 60, receivedAtMs: -1 }, 'caughtAtMs', 'still to come'],
    ['received two years ago', { receivedAtMs: -2 * 365 * 24 * 60 }, 'receivedAtMs', 'more than a year ago'],
  ])('refuses fish %s', async (_what, minutes, field, words) => {
    const kitchen = await openTestKitchen();
    const now = kitchen.clock.nowMs();
    const times = Object.fromEntries(Object.entries(minutes).map(([key, minute]) => [key, now + minute * MINUTE_MS]));
    const refused = await kitchen.reply('fishLot.receive', lotInput(kitchen, times));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining(words), fields: [{ path: [field] }] } });
  });

  it('takes times of one minute, and a wall clock four minutes ahead', async () => {
    const kitchen = await openTestKitchen();
    const atMs = kitchen.clock.nowMs() + 4 * MINUTE_MS;
    const lot = await receive(kitchen, { caughtAtMs: atMs, icedAtMs: atMs, receivedAtMs: atMs, speciesId: LAKE_TROUT });
    expect(lot.receivedAtMs).toBe(atMs);
  });

  it('refuses raw fish of 380 °F', async () => {
    const kitchen = await openTestKitchen();
    const refused = await kitchen.reply('fishLot.receive', lotInput(kitchen, { temperature: { text: '380', unit: 'F' } }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['temperature'] }] } });
  });

  it('refuses an entry of nobody', async () => {
    const kitchen = await openTestKitchen();
    expect(await kitchen.reply('fishLot.receive', lotInput(kitchen), null)).toMatchObject({ ok: false, error: { code: 'NOT_ALLOWED' } });
  });
});

describe('the list of species', () => {
  it('needs no book and names each with its letters and label name', async () => {
    const kitchen = await openTestKitchen({ empty: true });
    const { species } = await kitchen.ask('fish.species', {});
    expect(species.find((one) => one.id === WHITEFISH)).toMatchObject({ letters: 'WF', marketName: 'Lake Whitefish', freshwater: true });
    expect(new Set(species.map((one) => one.letters)).size).toBe(species.length);
  });
});
