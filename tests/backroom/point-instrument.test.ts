import { describe, expect, it } from 'vitest';
import { instrumentAt } from '../../main/backroom/services/point-instrument.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, smokeAndCool } from './smoke-kitchen.ts';

describe('a thermometer that is changed midway', () => {
  it('leaves what was read with the one before, and the change is in the record with its reason', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const tail = pointId(load, 'Tail');
    smoke.kitchen.clock.advance(HOUR_MS);
    const atMs = smoke.kitchen.clock.nowMs() - 10 * MINUTE_MS;
    smoke.kitchen.announced();
    const moved = await smoke.kitchen.ask('point.moveInstrument', { pointId: tail, instrumentId: smoke.handId, atMs, why: 'The probe’s cable broke.' }, 'CH');
    expect(moved).toEqual({ pointId: tail, instrumentId: smoke.handId, earlier: [{ instrumentId: smoke.probeIds[2], untilMs: atMs }] });
    expect(smoke.kitchen.announced()).toEqual([{ subject: 'load', ids: [load.id] }]);
    const shown = await smoke.kitchen.ask('load.get', { loadId: load.id });
    expect(shown.load.points.find((point) => point.id === tail)?.instrumentName).toBe('Hand thermometer');
    const { entries } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.at(-1)).toMatchObject({ person: 'CH', why: 'The probe’s cable broke.', happenedAtMs: atMs, summary: expect.stringMatching(/^Tail of load 1: read with Hand thermometer from .* on\.$/) });
  });

  it('is refused where it is in another piece, is in this one already, or the time is out of order', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const nowMs = smoke.kitchen.clock.nowMs();
    const move = (instrumentId: string | null, atMs = nowMs) => smoke.kitchen.reply('point.moveInstrument', { pointId: pointId(load, 'Tail'), instrumentId, atMs, why: 'Swapped.' });
    expect((await refusal(move(smoke.probeIds[0] ?? ''))).message).toBe('Probe 1 is in Thick end of load 1 and can’t be in Tail too.');
    expect((await refusal(move(smoke.probeIds[2] ?? ''))).message).toBe('Tail is read with Probe 3 already.');
    expect((await refusal(move(null, nowMs + 6 * MINUTE_MS))).code).toBe('INVALID_INPUT');
    expect((await refusal(move(null, nowMs - MINUTE_MS))).code).toBe('INVALID_INPUT');
    expect((await move(null)).ok).toBe(true);
    smoke.kitchen.clock.advance(HOUR_MS);
    expect((await move(smoke.handId, nowMs + HOUR_MS)).ok).toBe(true);
    expect((await refusal(move(null, nowMs + MINUTE_MS))).code).toBe('INVALID_INPUT');
  });

  it('is the one that sat in the point then, for whatever is typed or taken over later', () => {
    const point = { id: 'p', name: 'Tail', role: 'piece' as const, batchId: null, loadId: null, thicknessMm: null, rackPlace: '', instrumentId: 'third' };
    const changed = { ...point, earlierInstruments: [{ instrumentId: 'first', untilMs: 100 }, { instrumentId: null, untilMs: 200 }] };
    expect([0, 99, 100, 199, 200].map((atMs) => instrumentAt(changed, atMs))).toEqual(['first', 'first', null, null, 'third']);
    expect(instrumentAt(point, 0)).toBe('third');
  });

  it('is refused once the record is closed, and of a place', async () => {
    const smoke = await openSmokeKitchen();
    const { load } = await smokeAndCool(smoke);
    const move = (point: string) => smoke.kitchen.reply('point.moveInstrument', { pointId: point, instrumentId: smoke.handId, atMs: smoke.kitchen.clock.nowMs(), why: 'Swapped.' });
    expect(await refusal(move(pointId(load, 'Tail')))).toMatchObject({ code: 'RULE_BLOCKS', message: 'The record of load 1 is closed.' });
    await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: smoke.coolerId, atMs: smoke.kitchen.clock.nowMs(), value: { text: '36', unit: 'F' }, instrumentId: null }] });
    expect(await refusal(move(smoke.coolerId))).toMatchObject({ code: 'RULE_BLOCKS' });
  });
});
