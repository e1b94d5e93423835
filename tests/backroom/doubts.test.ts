import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openLoad, openSmokeKitchen, refusal, SMOKE_MINUTES, smokeColumns, takeOver, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf } from './smoke-log.ts';

const MINUTE_MS = 60_000;

/** A load by a logger whose second probe was out of the fish for ten minutes late in the hold. */
async function withProbePulled(): Promise<{ smoke: SmokeKitchen; doubts(): Promise<Output<'doubt.list'>['doubts']> }> {
  const smoke = await openSmokeKitchen();
  const { kitchen, batchId } = smoke;
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  kitchen.clock.set(inMs + (SMOKE_MINUTES + 60) * MINUTE_MS);
  const columns = smokeColumns();
  const pulled = columns['Probe 2']?.map((core, minute) => (minute >= 300 && minute < 312 ? Math.round((68 + (core - 68) * Math.exp(-(minute - 299) / 1.2)) * 10) / 10 : core)) ?? [];
  await takeOver(smoke, load, 'smoke.csv', csvOf(inMs, { ...columns, 'Probe 2': pulled }), true);
  return {
    smoke,
    doubts: async () => (await kitchen.ask('doubt.list', { batchId })).doubts,
  };
}

describe('a reading in doubt', () => {
  it('is proposed with its reason, point and time, and changes no reading', async () => {
    const { smoke, doubts } = await withProbePulled();
    expect(await doubts()).toEqual([expect.objectContaining({ kind: 'pulled-probe', pointName: 'Centre cut', readings: 12, decided: null, reason: expect.stringContaining('faster than fish can') })]);
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).asRecorded).toBeNull();
  });

  it('is left out by a named person with a reason, and both verdicts are shown', async () => {
    const { smoke, doubts } = await withProbePulled();
    const { kitchen, batchId } = smoke;
    const [doubt] = await doubts();
    if (doubt === undefined) throw new Error('no doubt was raised');
    const { pointId, kind, fromMs, toMs } = doubt;
    await kitchen.ask('doubt.decide', { batchId, pointId, kind, fromMs, toMs, decision: 'exclude', why: 'The probe was out of the fish.' }, 'CH');
    const { deciding, asRecorded } = await kitchen.ask('batch.verdict', { batchId });
    expect(asRecorded).not.toBeNull();
    expect(deciding.words).toContain('12 readings excluded (Piece Centre cut from');
    expect(deciding.words).toContain('by CH: The probe was out of the fish.');
    expect(deciding.words).toContain('As recorded:');
    expect((await doubts())[0]?.decided).toMatchObject({ decision: 'exclude', initials: 'CH', why: 'The probe was out of the fish.' });
    const { entries } = await kitchen.ask('record.batch', { batchId });
    expect(entries.some((entry) => entry.kind === 'doubt.exclude' && entry.why === 'The probe was out of the fish.')).toBe(true);
  });

  it('may be kept, and decided anew; the last decision counts', async () => {
    const { smoke, doubts } = await withProbePulled();
    const { kitchen, batchId } = smoke;
    const [doubt] = await doubts();
    if (doubt === undefined) throw new Error('no doubt was raised');
    const { pointId, kind, fromMs, toMs } = doubt;
    await kitchen.ask('doubt.decide', { batchId, pointId, kind, fromMs, toMs, decision: 'exclude', why: 'Bad contact.' });
    await kitchen.ask('doubt.decide', { batchId, pointId, kind, fromMs, toMs, decision: 'keep', why: 'The fish really cooled.' });
    expect((await kitchen.ask('batch.verdict', { batchId })).asRecorded).toBeNull();
    expect((await doubts())[0]?.decided?.decision).toBe('keep');
  });

  it('that isn’t there any more, or is decided by a hand, is refused', async () => {
    const { smoke, doubts } = await withProbePulled();
    const { kitchen, batchId } = smoke;
    const [doubt] = await doubts();
    if (doubt === undefined) throw new Error('no doubt was raised');
    const { pointId, kind, fromMs, toMs } = doubt;
    expect(await refusal(kitchen.reply('doubt.decide', { batchId, pointId, kind, fromMs: fromMs - MINUTE_MS, toMs, decision: 'keep', why: 'x' }))).toMatchObject({ code: 'CONFLICT' });
    expect(await refusal(kitchen.reply('doubt.decide', { batchId, pointId, kind, fromMs, toMs, decision: 'keep', why: 'x' }, 'HA'))).toMatchObject({ code: 'NOT_ALLOWED' });
  });
});
