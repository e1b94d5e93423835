import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, refusal, releaseInput, takeOver, type SmokeKitchen, reviewed } from './smoke-kitchen.ts';
import { csvOf, steadyAir } from './smoke-log.ts';

const DAY_MS = 24 * HOUR_MS;

/** A cold-smoked batch, ten hours at 78 °F, out of the smoker. */
async function coldSmoked(chamberF = 78, leaveOut: (minute: number) => boolean = () => false): Promise<{ smoke: SmokeKitchen; outMs: number }> {
  const smoke = await openSmokeKitchen({ process: 'cold' });
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  const outMs = inMs + 10 * HOUR_MS;
  smoke.kitchen.clock.set(outMs);
  await takeOver(smoke, load, 'night.csv', csvOf(inMs, { 'Probe 1': steadyAir(600, chamberF - 6), Chamber: steadyAir(600, chamberF) }, leaveOut), true);
  return { smoke, outMs };
}

/** Hourly readings of the freezer from `fromMs` on for so many hours. */
async function logFreezer(smoke: SmokeKitchen, fromMs: number, hours: number, degrees: string): Promise<void> {
  const readings = Array.from({ length: hours + 1 }, (_value, hour) => ({ pointId: smoke.freezerId, atMs: fromMs + hour * HOUR_MS, value: { text: degrees, unit: 'F' as const }, instrumentId: smoke.handId }));
  for (let index = 0; index < readings.length; index += 200) await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: readings.slice(index, index + 200) });
}

function check(verdict: Output<'batch.verdict'>, checkId: string) {
  const found = verdict.deciding.checks.find((one) => one.checkId === checkId);
  if (found === undefined) throw new Error(`no check ${checkId} among ${verdict.deciding.checks.map((one) => one.checkId).join(', ')}`);
  return found;
}

describe('a cold-smoked batch', () => {
  it('meets its chamber limit by the option that fits, and is asked no heat and no cooling', async () => {
    const { smoke } = await coldSmoked();
    const verdict = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(check(verdict, 'COLD-90-20').verdict).toBe('meets');
    expect(verdict.deciding.checks.map((one) => one.checkId)).not.toContain('COLD-50-24');
    expect(verdict.deciding.checks.some((one) => one.question === 'cooling' || one.checkId.startsWith('HOT'))).toBe(false);
  });

  it('does not meet it over 90 °F, and is not proven with a hole in its record', async () => {
    const over = await coldSmoked(92);
    const missed = await over.smoke.kitchen.ask('batch.verdict', { batchId: over.smoke.batchId });
    expect(check(missed, 'COLD-90-20').verdict).toBe('misses');
    expect(check(missed, 'COLD-50-24').verdict).toBe('misses');
    const hole = await coldSmoked(78, (minute) => minute > 100 && minute < 160);
    const unproven = await hole.smoke.kitchen.ask('batch.verdict', { batchId: hole.smoke.batchId });
    expect(check(unproven, 'COLD-90-20')).toMatchObject({ verdict: 'not-proven', reason: expect.stringContaining('no reading from 11:50 to 12:50') });
  });

  it('on the frozen route may be packed, but leaves only after its parasite freezing, with its label', async () => {
    const { smoke, outMs } = await coldSmoked();
    const { kitchen, batchId } = smoke;
    expect((await kitchen.ask('batch.verdict', { batchId })).gates).toMatchObject([
      { gate: 'brine', state: 'may' },
      { gate: 'smoke', state: 'may' },
      { gate: 'pack', state: 'may', later: expect.arrayContaining(['parasite freezing', 'freeze record', 'label as sealed', 'review of the record']) },
      { gate: 'leave', state: 'not-yet' },
    ]);
    await kitchen.ask('batch.decide', releaseInput(batchId));
    const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1.5', unit: 'lb' }], sealedAtMs: outMs });
    await kitchen.ask('label.printed', { packIds: packs.map((pack) => pack.id), stockId: '4x3in' });
    const inFreezerMs = outMs + 10 * MINUTE_MS;
    kitchen.clock.set(inFreezerMs + 3 * DAY_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: inFreezerMs, placeId: smoke.freezerId });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: inFreezerMs + 12 * HOUR_MS, placeId: null });
    await logFreezer(smoke, inFreezerMs, 72, '-7');
    await reviewed(smoke);
    const early = await kitchen.ask('batch.verdict', { batchId });
    expect(check(early, 'PARA-FREEZE-A')).toMatchObject({ verdict: 'open', provenMinutes: 72 * 60, requiredMinutes: 168 * 60 });
    expect(early.gates.at(3)).toMatchObject({ state: 'not-yet', line: 'May not leave: parasite freezing not finished.' });
    kitchen.clock.set(inFreezerMs + 7 * DAY_MS);
    await logFreezer(smoke, inFreezerMs + 73 * HOUR_MS, 95, '-7');
    const done = await kitchen.ask('batch.verdict', { batchId });
    expect(check(done, 'PARA-FREEZE-A').verdict).toBe('meets');
    expect(done.gates.at(3)).toMatchObject({ state: 'may', line: 'May leave.' });
  });

  it('does not leave on a freezer nobody read for a day, nor on one that was too warm', async () => {
    const { smoke, outMs } = await coldSmoked();
    const { kitchen, batchId } = smoke;
    await kitchen.ask('batch.decide', releaseInput(batchId));
    const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1.5', unit: 'lb' }], sealedAtMs: outMs });
    await kitchen.ask('label.printed', { packIds: packs.map((pack) => pack.id), stockId: '4x3in' });
    kitchen.clock.set(outMs + 6 * DAY_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: outMs, placeId: smoke.freezerId });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: outMs + 12 * HOUR_MS, placeId: null });
    await reviewed(smoke);
    kitchen.clock.set(outMs + 8 * DAY_MS);
    await logFreezer(smoke, outMs, 168, '-7');
    kitchen.clock.set(outMs + 8 * DAY_MS + 2 * HOUR_MS);
    const stale = await kitchen.ask('batch.verdict', { batchId });
    expect(stale.gates.at(3)).toMatchObject({ state: 'blocked', blocking: [expect.objectContaining({ checkId: 'FROZEN-0F' })] });
    await logFreezer(smoke, outMs + 8 * DAY_MS, 0, '2');
    expect((await kitchen.ask('batch.verdict', { batchId })).gates.at(3)).toMatchObject({ state: 'blocked', line: expect.stringContaining('freeze record does not meet') });
  });

  it('to be kept chilled is not proven without a laboratory’s salt, and meets with 3.5 % exactly', async () => {
    const { smoke, outMs } = await coldSmoked();
    const { kitchen, batchId } = smoke;
    const release = releaseInput(batchId, { store: 'refrigerated' });
    expect(await refusal(kitchen.reply('batch.decide', release))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('WPS-ROP-3.5') });
    kitchen.clock.set(outMs + 6 * DAY_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: outMs, placeId: smoke.freezerId });
    await reviewed(smoke);
    kitchen.clock.set(outMs + 8 * DAY_MS);
    await logFreezer(smoke, outMs, 168, '-7');
    await kitchen.ask('batch.mark', { batchId, what: 'out-of-freezer', atMs: outMs + 168 * HOUR_MS, placeId: null });
    await kitchen.ask('lab.record', { batchId, sampledOn: '2026-11-26', sample: 'loin of one fillet', laboratory: 'Harbour Laboratory', saltPercent: '2.03', moisturePercent: '55.97', nitritePpm: null });
    const { decision } = await kitchen.ask('batch.decide', release);
    expect(decision).toMatchObject({ decision: 'release', store: 'refrigerated' });
    expect(check(await kitchen.ask('batch.verdict', { batchId }), 'WPS-ROP-3.5')).toMatchObject({ verdict: 'meets' });
  });
});

describe('fish that dries before a cold smoke', () => {
  async function dried(roomF: readonly string[]): Promise<SmokeKitchen> {
    const smoke = await openSmokeKitchen({ process: 'cold' });
    const { kitchen, readyMs } = smoke;
    kitchen.clock.set(readyMs + 2 * HOUR_MS);
    const readings = roomF.map((text, index) => ({ pointId: smoke.roomId, atMs: readyMs + (index + 1) * 30 * MINUTE_MS, value: { text, unit: 'F' as const }, instrumentId: smoke.handId }));
    if (readings.length > 0) await kitchen.ask('readings.enter', { how: 'by-hand', readings });
    return smoke;
  }

  async function goIn(smoke: SmokeKitchen) {
    const load = await openLoad(smoke);
    return smoke.kitchen.reply('load.mark', { loadId: load.id, what: 'in', atMs: smoke.kitchen.clock.nowMs() });
  }

  it('meets its limit by the room’s readings until it goes in, and is named under “not judged here” without any', async () => {
    const cold = await dried(['37', '37.5', '37']);
    expect((await goIn(cold)).ok).toBe(true);
    const { deciding } = await cold.kitchen.ask('batch.verdict', { batchId: cold.batchId });
    expect(deciding.checks.find((one) => one.checkId === 'DRY-COLD-40')?.verdict).toBe('meets');
    const unread = await dried([]);
    expect((await goIn(unread)).ok).toBe(true);
    const unjudged = await unread.kitchen.ask('batch.verdict', { batchId: unread.batchId });
    expect(unjudged.deciding.notJudgedHere).toContain('dry');
    expect(unjudged.deciding.checks.map((one) => one.checkId)).not.toContain('DRY-COLD-40');
  });

  it('does not go in from a room that was over 40 °F while it dried', async () => {
    const warm = await dried(['37', '44', '37']);
    expect(await refusal(goIn(warm))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('DRY-COLD-40') });
  });
});
