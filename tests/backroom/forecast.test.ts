import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { saveRecipe, soakingBatch, type Soaking } from './brine-tub.ts';
import { HOUR_MS, makeBatch, receive, soakInput } from './fish-and-brine.ts';

type SampleInput = Input<'soak.sample'>;

function sampleInput({ batchId, startMs }: Soaking, more: Partial<SampleInput> = {}): SampleInput {
  return { batchId, takenAtMs: startMs + 6 * HOUR_MS, thicknessMm: 25, saltPercent: '0.95', moisturePercent: '72.1', how: 'titration', ...more };
}

describe('the forecast of a soak', () => {
  it('tells thickest and thinnest piece after the planned soak and after a long one, as ranges', async () => {
    const { kitchen, batchId } = await soakingBatch({ thickestMm: 30, thinnestMm: 20, skin: 'off' });
    const { forecast, samples } = await kitchen.ask('soak.forecast', { batchId });
    expect(samples).toEqual([]);
    expect(forecast).toMatchObject({ soakHours: 12, longHours: 48, yieldPercent: 80, fittedSamples: 0, thickest: { thicknessMm: 30 }, thinnest: { thicknessMm: 20 } });
    for (const piece of [forecast.thickest, forecast.thinnest]) {
      for (const stretch of [piece.planned, piece.long]) {
        expect(stretch.brined.low).toBeLessThan(stretch.brined.percent);
        expect(stretch.brined.high).toBeGreaterThan(stretch.brined.percent);
        expect(stretch.finished?.percent ?? 0).toBeGreaterThan(stretch.brined.percent);
      }
      expect(piece.long.brined.percent).toBeGreaterThan(piece.planned.brined.percent);
      expect(piece.reaches.earliest ?? 0).toBeLessThan(piece.reaches.likely ?? 0);
    }
    expect(forecast.thinnest.planned.brined.percent).toBeGreaterThan(forecast.thickest.planned.brined.percent);
    expect(forecast.notes.join(' ')).toMatch(/proves nothing and satisfies no check.*48 h, turned once at 24 h, is common practice without a source/);
    expect(forecast.coefficient).toMatch(/usual figure for a fish of .* % fat/);
  });

  it('holds the card’s goal for what is waited for, or what the deciding set asks', async () => {
    const { kitchen, batchId } = await soakingBatch({ target: { finishedWaterPhasePercent: 3.1, yieldPercent: 78 } });
    expect((await kitchen.ask('soak.forecast', { batchId })).forecast).toMatchObject({ target: expect.stringMatching(/^3\.1 % .* at 78 % of brined weight \(the card’s goal\)/), yieldPercent: 78 });
    const chilled = await soakingBatch({ recipeId: 'plain-brine', store: 'refrigerated' });
    expect((await chilled.kitchen.ask('soak.forecast', { batchId: chilled.batchId })).forecast.target).toContain('WPS-ROP-3.5 asks it');
    const frozen = await soakingBatch({ recipeId: 'plain-brine' });
    expect((await frozen.kitchen.ask('soak.forecast', { batchId: frozen.batchId })).forecast.target).toContain('95 % of what fish and brine come to');
  });

  it('spans the coldest and the warmest that brine and place were read at', async () => {
    const soaking = await soakingBatch({}, { start: false });
    const { kitchen, batchId, startMs } = soaking;
    const { id: placeId } = await kitchen.ask('office.addPlace', { name: 'Walk-in', kind: 'cooler' });
    const before = (await kitchen.ask('soak.forecast', { batchId })).forecast;
    expect(before.notes.join(' ')).toContain('nothing has been read yet');
    await kitchen.ask('soak.log', soakInput(batchId, 'start', startMs, { placeId }));
    kitchen.clock.advance(2 * HOUR_MS);
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: placeId, atMs: startMs + HOUR_MS, value: { text: '50', unit: 'F' }, instrumentId: null }] });
    const after = (await kitchen.ask('soak.forecast', { batchId })).forecast;
    expect(after.notes.join(' ')).toContain('3.3 to 10 °C: the brine and its place as read');
    expect(after.thickest.planned.brined.high).toBeGreaterThan(before.thickest.planned.brined.high);
    expect(after.thickest.planned.brined.low).toBeCloseTo(before.thickest.planned.brined.low, 6);
  });

  it('is not given for a dry cure, which has no bath', async () => {
    const { kitchen } = await soakingBatch();
    const recipeId = await saveRecipe(kitchen);
    const { id: batchId } = await makeBatch(kitchen, [(await receive(kitchen)).id], { recipeId });
    for (const refused of [await kitchen.reply('soak.forecast', { batchId }), await kitchen.reply('soak.sample', sampleInput({ kitchen, batchId, startMs: 0 }))]) {
      expect(refused).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('dry cured') } });
    }
  });
});

describe('a piece that was analysed', () => {
  it('is kept as typed and teaches the forecast, and no check', async () => {
    const soaking = await soakingBatch();
    const { kitchen, batchId } = soaking;
    kitchen.clock.advance(7 * HOUR_MS);
    const usual = (await kitchen.ask('soak.forecast', { batchId })).forecast;
    const before = await kitchen.ask('batch.verdict', { batchId });
    const { samples } = await kitchen.ask('soak.sample', sampleInput(soaking, { saltPercent: '1.30' }), 'CH');
    expect(samples).toEqual([expect.objectContaining({ batchId, thicknessMm: 25, saltPercent: '1.30', moisturePercent: '72.1', how: 'titration', initials: 'CH' })]);
    const taught = await kitchen.ask('soak.forecast', { batchId });
    expect(taught.samples).toEqual(samples);
    expect(taught.forecast.fittedSamples).toBe(1);
    expect(taught.forecast.coefficient).toMatch(/^Fitted to 1 of this kitchen’s own sample/);
    expect(taught.forecast.thickest.planned.brined.percent).toBeGreaterThan(usual.thickest.planned.brined.percent);
    const after = await kitchen.ask('batch.verdict', { batchId });
    expect(after.deciding.checks).toEqual(before.deciding.checks);
    expect((await kitchen.ask('record.batch', { batchId })).entries.at(-1)).toMatchObject({ kind: 'soak.sample', summary: expect.stringContaining('proves nothing') });
  });

  it('after the planned hours makes the forecast for those hours agree with it', async () => {
    const soaking = await soakingBatch();
    const { kitchen, batchId } = soaking;
    kitchen.clock.advance(13 * HOUR_MS);
    await kitchen.ask('soak.sample', sampleInput(soaking, { takenAtMs: soaking.startMs + 12 * HOUR_MS, saltPercent: '1.20', moisturePercent: '72' }));
    const { forecast } = await kitchen.ask('soak.forecast', { batchId });
    expect(forecast.thickest.planned.brined.percent).toBeCloseTo((100 * 1.2) / (1.2 + 72), 2);
  });

  it.each<[string, Partial<SampleInput>, string]>([
    ['nothing', { saltPercent: '' }, 'saltPercent'],
    ['a comma', { saltPercent: '1,2' }, 'saltPercent'],
    ['a word', { moisturePercent: 'wet' }, 'moisturePercent'],
    ['less than none', { saltPercent: '-1' }, 'saltPercent'],
    ['five decimals', { saltPercent: '1.23456' }, 'saltPercent'],
    ['more than all', { saltPercent: '30', moisturePercent: '71' }, 'moisturePercent'],
    ['no moisture', { moisturePercent: '0' }, 'moisturePercent'],
    ['0 mm', { thicknessMm: 0 }, 'thicknessMm'],
    ['300 mm', { thicknessMm: 300 }, 'thicknessMm'],
  ])('is refused with %s', async (_what, more, field) => {
    const soaking = await soakingBatch();
    soaking.kitchen.clock.advance(7 * HOUR_MS);
    expect(await soaking.kitchen.reply('soak.sample', sampleInput(soaking, more))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringMatching(/\.$/), fields: [{ path: [field] }] } });
    expect((await soaking.kitchen.ask('soak.forecast', { batchId: soaking.batchId })).samples).toEqual([]);
  });

  it('was taken after the soak began and before now', async () => {
    const soaking = await soakingBatch();
    soaking.kitchen.clock.advance(7 * HOUR_MS);
    for (const takenAtMs of [soaking.startMs - HOUR_MS, soaking.startMs, soaking.startMs + 9 * HOUR_MS]) {
      expect(await soaking.kitchen.reply('soak.sample', sampleInput(soaking, { takenAtMs }))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['takenAtMs'] }] } });
    }
    const unstarted = await soakingBatch({}, { start: false });
    expect(await unstarted.kitchen.reply('soak.sample', sampleInput(unstarted))).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('has not started') } });
  });
});
