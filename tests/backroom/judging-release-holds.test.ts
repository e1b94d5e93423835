import { describe, expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, releaseInput, smokeAndCool, type SmokeKitchen, type Smoked } from './smoke-kitchen.ts';

async function released(): Promise<{ smoke: SmokeKitchen; smoked: Smoked }> {
  const smoke = await openSmokeKitchen();
  const smoked = await smokeAndCool(smoke);
  await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
  return { smoke, smoked };
}

/** A reading found later: the thick end was above 70 °F once more, 140 minutes after it came out. */
async function enterLate({ kitchen }: SmokeKitchen, { load, outMs }: Smoked): Promise<void> {
  await kitchen.ask('readings.enter', { how: 'copied-from-paper', readings: [{ pointId: pointId(load, 'Thick end'), atMs: outMs + 140 * MINUTE_MS, value: { text: '75', unit: 'F' }, instrumentId: null }] });
}

describe('a release', () => {
  it('lets nothing be sealed once a reading that came later breaks what it rested on', async () => {
    const { smoke, smoked } = await released();
    await enterLate(smoke, smoked);
    const { kitchen, batchId } = smoke;
    const error = await refusal(kitchen.reply('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() }));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('COOL-AFDO'), remedy: expect.stringContaining('holds') });
    expect((await refusal(kitchen.reply('batch.mark', { batchId, what: 'sealed', atMs: kitchen.clock.nowMs(), placeId: null }))).message).toContain('COOL-AFDO');
  });

  it('lets no label be made or printed then, and a hold stays possible', async () => {
    const { smoke, smoked } = await released();
    const { kitchen, batchId } = smoke;
    const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() });
    const labels = { packIds: packs.map((pack) => pack.id), stockId: '4x3in' };
    await kitchen.ask('label.forPacks', labels);
    await enterLate(smoke, smoked);
    expect((await refusal(kitchen.reply('label.printed', labels))).message).toContain('COOL-AFDO');
    expect((await refusal(kitchen.reply('label.forPacks', labels))).message).toContain('COOL-AFDO');
    await kitchen.ask('batch.decide', releaseInput(batchId, { decision: 'hold', reason: 'A late reading.', keptWhere: 'red tub' }));
  });

  it('is not given while the load is not marked out of the smoker, whatever the readings show', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen, batchId } = smoke;
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    kitchen.clock.set(inMs + 8 * HOUR_MS);
    await kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
    const rows: readonly (readonly [number, string])[] = [[60, '150'], [70, '151'], [80, '151'], [90, '151'], [100, '150'], [105, '130'], [150, '60'], [240, '45'], [300, '38']];
    const readings = load.points.filter((point) => point.role === 'piece').flatMap((point) => rows.map(([minute, text]) => ({ pointId: point.id, atMs: inMs + minute * MINUTE_MS, value: { text, unit: 'F' as const }, instrumentId: smoke.handId })));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings });
    expect((await kitchen.ask('batch.verdict', { batchId })).gates.at(2)).toMatchObject({ state: 'not-yet' });
    const error = await refusal(kitchen.reply('batch.decide', releaseInput(batchId)));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('marked out of the smoker') });
    await kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: inMs + 101 * MINUTE_MS });
    await kitchen.ask('batch.decide', releaseInput(batchId));
  });

  it('to be served unpacked lets nothing be marked as sealed, nor one for packing before it was given', async () => {
    const smoke = await openSmokeKitchen();
    const { cooledMs } = await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    await kitchen.ask('batch.decide', releaseInput(batchId, { pack: 'unpacked', store: 'refrigerated' }));
    expect((await refusal(kitchen.reply('batch.mark', { batchId, what: 'sealed', atMs: cooledMs, placeId: null }))).message).toContain('was released to be served unpacked');
    kitchen.clock.advance(HOUR_MS);
    await kitchen.ask('batch.decide', releaseInput(batchId));
    expect((await refusal(kitchen.reply('batch.mark', { batchId, what: 'sealed', atMs: cooledMs, placeId: null }))).message).toContain('the release was at');
    await kitchen.ask('batch.mark', { batchId, what: 'sealed', atMs: kitchen.clock.nowMs(), placeId: null });
  });
});

describe('the gates of a batch', () => {
  it('are shown for the pack and store that are asked about', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    expect((await kitchen.ask('batch.verdict', { batchId })).gates.at(2)?.state).toBe('may');
    const chilled = await kitchen.ask('batch.verdict', { batchId, pack: 'vacuum', store: 'refrigerated' });
    expect(chilled.gates.at(2)).toMatchObject({ state: 'blocked', blocking: [expect.objectContaining({ checkId: 'WPS-ROP-3.5' })] });
    const air = await kitchen.ask('batch.verdict', { batchId, pack: 'air' });
    expect(air.gates.at(2)?.blocking.map((one) => one.checkId)).toEqual(['WPS-AIR-3.0-MI']);
  });

  it('never say that a batch may leave that was not released, or stands on HOLD or rejected', async () => {
    const smoke = await openSmokeKitchen({ pack: 'unpacked', store: 'refrigerated' });
    await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    const leave = async () => (await kitchen.ask('batch.verdict', { batchId })).gates.at(3);
    const served = releaseInput(batchId, { pack: 'unpacked', store: 'refrigerated' });
    expect(await leave()).toMatchObject({ state: 'not-yet', line: expect.stringContaining('released') });
    await kitchen.ask('batch.decide', served);
    expect(await leave()).toMatchObject({ state: 'may', line: 'May leave.' });
    await kitchen.ask('batch.decide', { ...served, decision: 'hold', reason: 'Smells odd.', keptWhere: 'red tub' });
    expect(await leave()).toMatchObject({ state: 'blocked', line: expect.stringContaining('HOLD') });
    await kitchen.ask('batch.decide', { ...served, decision: 'reject', reason: 'Spoiled.' });
    expect(await leave()).toMatchObject({ state: 'blocked', line: expect.stringContaining('rejected') });
  });

  it('of packs that were sealed stay those of that pack while the batch is on HOLD', async () => {
    const smoke = await openSmokeKitchen({ store: 'refrigerated' });
    await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    await kitchen.ask('batch.decide', releaseInput(batchId));
    await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() });
    await kitchen.ask('batch.decide', releaseInput(batchId, { decision: 'hold', reason: 'A pack has swollen.', keptWhere: 'red tub' }));
    const { deciding } = await kitchen.ask('batch.verdict', { batchId });
    expect(deciding.checks.map((check) => check.checkId)).toContain('FROZEN-0F');
    expect(deciding.checks.find((check) => check.checkId === 'STORE-38')?.verdict ?? 'does-not-apply').toBe('does-not-apply');
  });
});

describe('a chilled store record', () => {
  it('runs from the sealing, however late the cooling was marked closed', async () => {
    const smoke = await openSmokeKitchen({ store: 'refrigerated' });
    const { kitchen, batchId } = smoke;
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    const coldMs = inMs + 300 * MINUTE_MS;
    kitchen.clock.set(coldMs);
    await kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
    await kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: inMs + 101 * MINUTE_MS });
    const rows: readonly (readonly [number, string])[] = [[60, '150'], [70, '151'], [80, '151'], [90, '151'], [100, '150'], [105, '130'], [150, '60'], [240, '45'], [300, '36']];
    const pieces = load.points.filter((point) => point.role === 'piece').flatMap((point) => rows.map(([minute, text]) => ({ pointId: point.id, atMs: inMs + minute * MINUTE_MS, value: { text, unit: 'F' as const }, instrumentId: smoke.handId })));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: pieces });
    await kitchen.ask('lab.record', { batchId, sampledOn: '2026-11-25', sample: 'loin', laboratory: 'Harbour Laboratory', saltPercent: '2.40', moisturePercent: '64.1', nitritePpm: null });
    await kitchen.ask('batch.decide', releaseInput(batchId, { store: 'refrigerated' }));
    await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: coldMs });
    kitchen.clock.set(coldMs + 6 * HOUR_MS);
    const cooler = ['34', '47', '46', '36', '34', '34', '34'].map((text, hour) => ({ pointId: smoke.coolerId, atMs: coldMs + hour * HOUR_MS, value: { text, unit: 'F' as const }, instrumentId: smoke.handId }));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: cooler });
    await kitchen.ask('load.mark', { loadId: load.id, what: 'cooled', atMs: coldMs + 4 * HOUR_MS });
    const { deciding } = await kitchen.ask('batch.verdict', { batchId });
    expect(deciding.checks.find((check) => check.checkId === 'STORE-38')?.verdict).toBe('misses');
  });
});
