import { describe, expect, it } from 'vitest';
import { makeBatch, receive, soakInput } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, refusal, releaseInput, reviewed, smokeAndCool } from './smoke-kitchen.ts';

const HOUR_MS = 3_600_000;

describe('the four gates of a batch', () => {
  it('come in the order of the work, each with what is due at it', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { gates } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(gates.map(({ gate, state }) => [gate, state])).toEqual([['brine', 'may'], ['smoke', 'may'], ['pack', 'may'], ['leave', 'not-yet']]);
    expect(gates[0]?.line).toBe('Nothing that is judged here is due before the fish goes into the brine.');
    expect(gates[1]?.line).toContain('May be smoked.');
  });

  it('leave raw fish under “not judged here” where it was read only once', async () => {
    const smoke = await openSmokeKitchen({}, { temperature: { text: '36', unit: 'F' } });
    const before = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    // One reading at fish in tells nothing of the time up to the brine.
    expect(before.deciding.notJudgedHere).toContain('raw');
  });

  it('keep fish back that was over the limit when it came in: it was never at or below it', async () => {
    const smoke = await openSmokeKitchen({}, { temperature: { text: '46', unit: 'F' } });
    const { deciding, gates } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(deciding.checks.find(({ checkId }) => checkId === 'RAW-38')).toMatchObject({ verdict: 'misses', reason: expect.stringContaining('46') });
    expect(gates.map(({ gate, state }) => [gate, state]).slice(0, 2)).toEqual([['brine', 'blocked'], ['smoke', 'blocked']]);
    const load = await openLoad(smoke);
    expect(await refusal(smoke.kitchen.reply('load.mark', { loadId: load.id, what: 'in', atMs: smoke.kitchen.clock.nowMs() }))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('RAW-38') });
  });

  it('keep fish out of the smoker that broke a limit of the brine, until what is done about it is on file', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen } = smoke;
    const lot = await receive(kitchen);
    const { id: batchId } = await makeBatch(kitchen, [lot.id]);
    await kitchen.ask('soak.log', soakInput(batchId, 'start', kitchen.clock.nowMs(), { brine: { text: '64', unit: 'F' } }));
    kitchen.clock.advance(HOUR_MS);
    await kitchen.ask('soak.log', soakInput(batchId, 'end', kitchen.clock.nowMs()));
    const load = await openLoad({ ...smoke, batchId });
    const mark = () => kitchen.reply('load.mark', { loadId: load.id, what: 'in', atMs: kitchen.clock.nowMs() });
    expect(await refusal(mark())).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('BRINE-START-60') });
    expect((await kitchen.ask('batch.verdict', { batchId })).gates[1]).toMatchObject({ gate: 'smoke', state: 'blocked' });
    await kitchen.ask('corrective.open', {
      batchId, checkId: 'BRINE-START-60', cause: 'The brine was mixed warm.', quantity: 'All of it', keptWhere: 'walk-in', evaluatedBy: 'Process authority',
      evaluation: 'Soak under 4 h; go on.', disposition: 'release-as-evaluated', fix: 'Ice in the brine.',
    });
    expect((await mark()).ok).toBe(true);
  });

  it('let nothing leave unreviewed; a review by somebody trained opens the last one', async () => {
    const smoke = await openSmokeKitchen();
    const { cooledMs } = await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    await kitchen.ask('batch.decide', releaseInput(batchId));
    const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: cooledMs });
    await kitchen.ask('label.printed', { packIds: packs.map(({ id }) => id), stockId: '4x3in' });
    kitchen.clock.set(cooledMs + 20 * HOUR_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: cooledMs, placeId: smoke.freezerId });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: cooledMs + 12 * HOUR_MS, placeId: null });
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [0, 10, 12, 16, 20].map((hour) => ({ pointId: smoke.freezerId, atMs: cooledMs + hour * HOUR_MS, value: { text: '-5', unit: 'F' as const }, instrumentId: smoke.handId })) });
    const leave = async () => (await kitchen.ask('batch.verdict', { batchId })).gates[3];
    expect(await leave()).toMatchObject({ state: 'not-yet', line: 'May not leave: review of the record not finished.' });
    await reviewed(smoke);
    expect(await leave()).toMatchObject({ state: 'may', line: 'May leave.' });
  });

  it('say that the review is overdue once its days are over', async () => {
    const smoke = await openSmokeKitchen();
    const { cooledMs } = await smokeAndCool(smoke);
    smoke.kitchen.clock.set(cooledMs + 8 * 24 * HOUR_MS);
    const { deciding } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(deciding.checks.find(({ checkId }) => checkId === 'REC-REVIEW-7D')).toMatchObject({ verdict: 'not-proven', reason: 'The record has not been reviewed.' });
  });
});

describe('beside the verdict', () => {
  it('stands how long the fish was warm, step by step, with the smoker and the cooling apart', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { exposure } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(exposure?.steps.map(({ name, isApart }) => [name, isApart])).toEqual([
      ['from fish in to the brine', false], ['in the brine', false], ['from the brine to the smoker', false], ['in the smoker', true], ['cooling', true], ['until it lay cold', false],
    ]);
    const [smoking, cooling] = exposure?.apart ?? [];
    expect(smoking?.what).toBe('smoking');
    expect(smoking?.longestMinutes).toBeGreaterThan(30);
    expect(cooling?.shortestMinutes).toBeGreaterThan(60);
    expect(cooling?.longestMinutes).toBeLessThan(270);
    const listeria = exposure?.bands.filter(({ organism }) => organism === 'Listeria monocytogenes') ?? [];
    expect(listeria.length).toBeGreaterThan(0);
    for (const band of exposure?.bands ?? []) expect(band.longestMinutes).toBeGreaterThanOrEqual(band.shortestMinutes);
    // The ten minutes between brine and smoker have no temperature: inside for the longest, outside for the shortest.
    expect(listeria.some((band) => band.longestMinutes > band.shortestMinutes)).toBe(true);
    expect(exposure?.notes.some((note) => note.startsWith('No temperature tells of'))).toBe(true);
  });

  it('proves no warm time of fish that lay in cold brine in a warm room', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen, readyMs } = smoke;
    const readings = [0, 30, 60, 90, 120].map((minute) => ({ pointId: smoke.roomId, atMs: readyMs - (120 - minute) * 60_000, value: { text: '68', unit: 'F' as const }, instrumentId: smoke.handId }));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings });
    const { exposure } = await kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    const soak = exposure?.steps.find(({ name }) => name === 'in the brine');
    expect(soak?.readings).toBeGreaterThan(readings.length);
    const warm = exposure?.rules.flatMap(({ limbs }) => limbs).filter(({ text }) => text === 'above 50 °F') ?? [];
    expect(warm.length).toBeGreaterThan(0);
    for (const limb of warm) {
      expect(limb.shortestMinutes).toBe(0);
      expect(limb.longestMinutes).toBeGreaterThanOrEqual(120);
    }
  });

  it('stands what the heat was worth, with both subscripts, and not at all where the heat check isn’t met', async () => {
    const met = await openSmokeKitchen();
    await smokeAndCool(met);
    const { lethality } = await met.kitchen.ask('batch.verdict', { batchId: met.batchId });
    expect(lethality?.targets.map(({ name }) => name)).toContain('P(70 °C, z 7.5 °C)');
    expect(lethality?.targets[0]?.pieces).toHaveLength(3);
    for (const piece of lethality?.targets[0]?.pieces ?? []) expect(piece.minutes).toBeGreaterThan(2);
    const missed = await openSmokeKitchen();
    await smokeAndCool(missed, { topF: 140 });
    expect((await missed.kitchen.ask('batch.verdict', { batchId: missed.batchId })).lethality).toBeNull();
  });
});
