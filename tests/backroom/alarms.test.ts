import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { QUIET_MS } from '../../app/probes/alarm-quiet.ts';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, saveKitchen, smokeAndCool, takeOver, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf, type MinuteSeries } from './smoke-log.ts';

type Load = Output<'load.open'>['load'];

function rising(fromF: number, toF: number, minutes: number): MinuteSeries {
  return Array.from({ length: minutes + 1 }, (_, minute) => fromF + ((toF - fromF) * minute) / minutes);
}

/** A load that went in at 10:10, with a log so far. */
async function runningLoad(columns: Record<string, MinuteSeries>, closesAt?: string): Promise<{ smoke: SmokeKitchen; load: Load; inMs: number }> {
  const smoke = await openSmokeKitchen();
  if (closesAt !== undefined) await saveKitchen(smoke.kitchen, { closesAt });
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  const minutes = Math.max(...Object.values(columns).map((column) => column.length)) - 1;
  smoke.kitchen.clock.set(inMs + minutes * MINUTE_MS);
  await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
  await takeOver(smoke, load, 'so-far.csv', csvOf(inMs, columns), false);
  return { smoke, load, inMs };
}
const list = async ({ smoke, load }: { smoke: SmokeKitchen; load: Load }) => (await smoke.kitchen.ask('alarms.list', { loadId: load.id })).alarms;

describe('the alarms of a load', () => {
  it('are none before it is in, while all goes well, and once its record is closed', async () => {
    const smoke = await openSmokeKitchen();
    const { load } = await smokeAndCool(smoke);
    expect(await list({ smoke, load })).toEqual([]);
    const well = await runningLoad({ 'Probe 1': rising(40, 130, 90), 'Probe 2': rising(40, 131, 90), 'Probe 3': rising(40, 132, 90), Chamber: rising(70, 180, 90) }, '22:00');
    expect(await list(well)).toEqual([]);
  });

  it('name the piece that will not make it before the kitchen closes, by its line', async () => {
    const running = await runningLoad({ 'Probe 1': rising(40, 70, 120), 'Probe 2': rising(40, 131, 120), 'Probe 3': rising(40, 132, 120), Chamber: rising(70, 180, 120) }, '20:00');
    const [alarm, ...others] = await list(running);
    expect(others).toEqual([]);
    expect(alarm).toMatchObject({ kind: 'piece-too-slow', pointId: pointId(running.load, 'Thick end'), acknowledgedBy: null, quietUntilMs: null });
    expect(alarm?.text).toMatch(/^Piece Thick end reaches 145 °F at about 17:10: with 30 min to keep it is done at 17:40, and it must be out by 14:00\.$/);
  });

  it('name a chamber that lost its heat, and the round by hand that is overdue', async () => {
    const cold = await runningLoad({ 'Probe 1': rising(40, 130, 90), 'Probe 2': rising(40, 131, 90), 'Probe 3': rising(40, 132, 90), Chamber: [...rising(70, 180, 60), ...rising(178, 120, 29)] });
    expect((await list(cold)).map((alarm) => [alarm.kind, alarm.text])).toEqual([['chamber-drifting', 'The chamber has fallen to 120 °F, below the 145 °F that the pieces must reach.']]);
    const { smoke, load, inMs } = await runningLoad({ 'Probe 1': rising(40, 60, 10) });
    smoke.kitchen.clock.set(inMs + 90 * MINUTE_MS);
    const enter = (value: string) => smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: pointId(load, 'Tail'), atMs: smoke.kitchen.clock.nowMs(), value: { text: value, unit: 'F' }, instrumentId: smoke.handId }] });
    await enter('146');
    expect((await list({ smoke, load })).filter((alarm) => alarm.kind === 'round-overdue')).toEqual([]);
    smoke.kitchen.clock.advance(11 * MINUTE_MS);
    expect((await list({ smoke, load })).filter((alarm) => alarm.kind === 'round-overdue').map((alarm) => alarm.pointId)).toEqual([pointId(load, 'Tail')]);
  });

  it('name a piece that cools too slowly', async () => {
    const { smoke, load, inMs } = await runningLoad({ 'Probe 1': rising(146, 150, 60), 'Probe 2': rising(146, 150, 60), 'Probe 3': rising(146, 150, 60), Chamber: rising(180, 180, 60) });
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: inMs + 60 * MINUTE_MS });
    smoke.kitchen.clock.set(inMs + 120 * MINUTE_MS);
    await takeOver(smoke, load, 'cooling.csv', csvOf(inMs + 61 * MINUTE_MS, { 'Probe 1': rising(149, 125, 59), 'Probe 2': rising(149, 71, 59), 'Probe 3': rising(149, 71, 59) }), false);
    const alarms = await list({ smoke, load });
    expect(alarms.map((alarm) => [alarm.kind, alarm.pointId])).toEqual([['cooling-too-slow', pointId(load, 'Thick end')]]);
    expect(alarms[0]?.text).toContain('Piece Thick end is at 125 °F and gets to 70 °F or less at about');
  });
});

describe('acknowledging an alarm', () => {
  it('is by name, is in the record, keeps it quiet for a while, and not when it gets worse', async () => {
    const running = await runningLoad({ 'Probe 1': rising(40, 130, 90), 'Probe 2': rising(40, 131, 90), 'Probe 3': rising(40, 132, 90), Chamber: [...rising(70, 180, 60), ...rising(178, 144, 29)] });
    const { smoke, load, inMs } = running;
    const [alarm] = await list(running);
    smoke.kitchen.announced();
    const { alarm: seen } = await smoke.kitchen.ask('alarms.acknowledge', { loadId: load.id, key: alarm?.key ?? '' }, 'HA');
    const nowMs = smoke.kitchen.clock.nowMs();
    expect(seen).toMatchObject({ acknowledgedBy: 'HA', acknowledgedAtMs: nowMs, quietUntilMs: nowMs + QUIET_MS });
    expect(smoke.kitchen.announced()).toContainEqual({ subject: 'load', ids: [load.id] });
    const { entries } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.at(-1)?.summary).toBe(`HA has seen the alarm of load ${load.number}: ${alarm?.text}`);
    smoke.kitchen.clock.advance(MINUTE_MS);
    expect((await list(running)).map((one) => one.quietUntilMs)).toEqual([nowMs + QUIET_MS]);
    await takeOver(smoke, load, 'more.csv', csvOf(inMs + 91 * MINUTE_MS, { Chamber: [120] }), false);
    expect((await list(running)).map((one) => [one.acknowledgedBy, one.quietUntilMs])).toEqual([['HA', null]]);
  });

  it('sounds again after a quarter of an hour', async () => {
    const running = await runningLoad({ Chamber: [...rising(70, 180, 60), ...rising(178, 144, 29)] });
    const [alarm] = await list(running);
    await running.smoke.kitchen.ask('alarms.acknowledge', { loadId: running.load.id, key: alarm?.key ?? '' });
    running.smoke.kitchen.clock.advance(QUIET_MS);
    expect((await list(running)).filter((one) => one.kind === 'chamber-drifting').map((one) => one.quietUntilMs)).toEqual([null]);
  });

  it('is refused where the alarm is over, and where nobody is on duty', async () => {
    const running = await runningLoad({ Chamber: [...rising(70, 180, 60), ...rising(178, 144, 29)] });
    const { kitchen } = running.smoke;
    expect(await refusal(kitchen.reply('alarms.acknowledge', { loadId: running.load.id, key: 'chamber-drifting nowhere' }))).toMatchObject({ code: 'NOT_FOUND', message: 'That alarm is over.' });
    const [alarm] = await list(running);
    expect(await refusal(kitchen.reply('alarms.acknowledge', { loadId: running.load.id, key: alarm?.key ?? '' }, null))).toMatchObject({ code: 'NOT_ALLOWED' });
  });
});
