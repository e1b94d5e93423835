import { describe, expect, it } from 'vitest';
import { openSmokeKitchen, pointId, refusal, releaseInput, smokeAndCool } from './smoke-kitchen.ts';
import { makeBatch, receive } from './fish-and-brine.ts';
const MINUTE_MS = 60_000;
describe('scratch', () => {
  it('frozen vacuum, low salt', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    await kitchen.ask('batch.decide', releaseInput(batchId, {}));
    kitchen.clock.advance(86_400_000);
    await kitchen.ask('lab.record', { batchId, sampledOn: '2026-11-26', sample: 'loin', laboratory: 'Harbour Laboratory', saltPercent: '1.40', moisturePercent: '64.1', nitritePpm: null });
    const v = await kitchen.ask('batch.verdict', { batchId });
    console.log(v.deciding.verdict, v.deciding.checks.map((c) => [c.checkId, c.verdict]), v.gates.map((g) => [g.gate, g.state, g.line]));
    console.log((await kitchen.ask('worklist.get', {})).items);
  });
  it('initials for another check', async () => {
    const smoke = await openSmokeKitchen();
    const smoked = await smokeAndCool(smoke, { topF: 150 });
    const { kitchen, batchId } = smoke;
    await kitchen.ask('batch.decide', releaseInput(batchId, { initialsForError: true }));
    console.log((await kitchen.ask('batch.verdict', { batchId })).deciding.checks.map((c) => [c.checkId, c.verdict, c.question, c.gate]));
    void smoked;
  });
  it('two wrong lots', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen } = smoke;
    const a = await receive(kitchen, {}); const b = await receive(kitchen, {});
    const made = await makeBatch(kitchen, [a.id, b.id], {});
    const { species } = await kitchen.ask('fish.species', {});
    console.log(species.slice(0, 8).map((s) => s.id));
    console.log(await kitchen.reply('fishLot.correct', { lotId: a.id, speciesId: 'Salvelinus namaycush', ownerName: null, why: 'x' }, 'CH'));
    console.log((await kitchen.ask('batch.get', { batchId: made.id })).batch.marketName, (await kitchen.ask('fishLot.list', {})).lots.map((l) => [l.code, l.species.marketName]));
    void refusal; void pointId; void MINUTE_MS; expect(1).toBe(1);
  });
});
