import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, SMOKE_MINUTES, smokeColumns } from './smoke-kitchen.ts';
import { csvOf } from './smoke-log.ts';

/** One reading of the second probe far too low every twenty minutes: no half hour without one. */
function doubtfulCsv(inMs: number): string {
  const columns = smokeColumns();
  return csvOf(inMs, { ...columns, 'Probe 2': (columns['Probe 2'] ?? []).map((core, minute) => (minute > 100 && minute % 20 === 0 ? core - 40 : core)) });
}

describe('Doubts about a log that was refused', () => {
  it('are looked for anew when it comes as another thermometer’s, and count for that one', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen, batchId, probeIds } = smoke;
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    kitchen.clock.set(inMs + (SMOKE_MINUTES + 60) * MINUTE_MS);
    const centreId = pointId(load, 'Centre cut');
    const fileId = await kitchen.takeFile('smoke.csv', doubtfulCsv(inMs));
    const columns = [['Probe 1', 'Thick end'], ['Probe 2', 'Centre cut'], ['Probe 3', 'Tail'], ['Chamber', 'Chamber']].map(([name = '', point = '']) => ({ name, pointId: pointId(load, point) }));
    const takeOver = (outAtMs: number) => kitchen.reply('readings.import', { fileId, answers: {}, columns, coversInToOut: true, outAtMs, loadId: load.id });

    // Its readings are judged as the load is marked in; then the out mark is refused, and all of it is taken back.
    expect((await refusal(takeOver(inMs - MINUTE_MS))).message).toContain('going in was at');
    expect((await kitchen.ask('load.get', { loadId: load.id })).load.inAtMs).toBeNull();
    const logger = (await kitchen.ask('office.addInstrument', { name: 'Logger', kind: 'wired-probe', error: { text: '1', unit: 'F' } })).id;
    await kitchen.ask('point.moveInstrument', { pointId: centreId, instrumentId: logger, atMs: smoke.readyMs, why: 'It was the logger all the time.' });
    expect((await takeOver(inMs + SMOKE_MINUTES * MINUTE_MS)).ok).toBe(true);

    const judged = async () => (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find(({ checkId }) => checkId === 'HOT-145-30');
    expect(await judged()).toMatchObject({ verdict: 'misses', reason: expect.stringContaining('in doubt') });
    const { doubts } = await kitchen.ask('doubt.list', { batchId });
    expect(doubts).toHaveLength(12);
    for (const { pointId: id, kind, fromMs, toMs } of doubts) await kitchen.ask('doubt.decide', { batchId, pointId: id, kind, fromMs, toMs, decision: 'exclude', why: 'Bad contact.' }, 'CH');
    expect((await judged())?.verdict).toBe('meets');
    expect(probeIds).not.toContain(logger);
  });
});
