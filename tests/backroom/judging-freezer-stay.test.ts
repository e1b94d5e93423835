import { describe, expect, it } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, refusal, releaseInput, smokeAndCool, takeOver, type SmokeKitchen, reviewed } from './smoke-kitchen.ts';
import { csvOf, steadyAir } from './smoke-log.ts';

const DAY_MS = 24 * HOUR_MS;

interface RawFrozen {
  /** The kitchen with the batch that was frozen raw. */
  readonly smoke: SmokeKitchen;
  readonly intoMs: number;
}

/** A batch frozen raw for so many days, read hourly; then soaked for two hours. The freezer goes on being read for `more` days. */
async function frozenRaw(days: number, options: Partial<Input<'batch.make'>> & { more?: number; markOut?: boolean } = {}): Promise<RawFrozen> {
  const { more = 0, markOut = false, ...batch } = options;
  const smoke = await openSmokeKitchen();
  const { kitchen, freezerId } = smoke;
  const lot = await receive(kitchen);
  const { id: batchId } = await makeBatch(kitchen, [lot.id], batch);
  const intoMs = kitchen.clock.nowMs();
  await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: intoMs, placeId: freezerId });
  kitchen.clock.set(intoMs + days * DAY_MS);
  await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: intoMs + 12 * HOUR_MS, placeId: null });
  if (markOut) await kitchen.ask('batch.mark', { batchId, what: 'out-of-freezer', atMs: kitchen.clock.nowMs(), placeId: null });
  await kitchen.ask('soak.log', soakInput(batchId, 'start', kitchen.clock.nowMs()));
  kitchen.clock.advance(2 * HOUR_MS);
  await kitchen.ask('soak.log', soakInput(batchId, 'end', kitchen.clock.nowMs()));
  const readyMs = kitchen.clock.nowMs();
  kitchen.clock.advance(more * DAY_MS);
  await logFreezer(smoke, intoMs, (days + more) * 24);
  kitchen.clock.set(readyMs);
  return { smoke: { ...smoke, batchId, readyMs }, intoMs };
}

async function logFreezer({ kitchen, freezerId, handId }: SmokeKitchen, fromMs: number, hours: number): Promise<void> {
  const readings = Array.from({ length: hours + 1 }, (_value, hour) => ({ pointId: freezerId, atMs: fromMs + hour * HOUR_MS, value: { text: '-8', unit: 'F' as const }, instrumentId: handId }));
  for (let index = 0; index < readings.length; index += 200) await kitchen.ask('readings.enter', { how: 'by-hand', readings: readings.slice(index, index + 200) });
}

async function smokeCold(smoke: SmokeKitchen): Promise<number> {
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  const outMs = inMs + 10 * HOUR_MS;
  smoke.kitchen.clock.set(outMs);
  await takeOver(smoke, load, 'night.csv', csvOf(inMs, { 'Probe 1': steadyAir(600, 72), Chamber: steadyAir(600, 78) }), true);
  return outMs;
}

async function verdictOf({ kitchen, batchId }: SmokeKitchen): Promise<Output<'batch.verdict'>> {
  return kitchen.ask('batch.verdict', { batchId });
}

function check(verdict: Output<'batch.verdict'>, checkId: string) {
  return verdict.deciding.checks.find((one) => one.checkId === checkId);
}

describe('fish frozen raw, before its brine', () => {
  it('answers the parasite question by its days in the freezer', async () => {
    const { smoke } = await frozenRaw(7, { process: 'cold', markOut: true });
    await smokeCold(smoke);
    expect(check(await verdictOf(smoke), 'PARA-FREEZE-A')).toMatchObject({ verdict: 'meets', provenMinutes: 168 * 60 });
  });

  it('gains nothing from the freezer’s record while it lies in brine or hangs in the smoker, mark or no mark', async () => {
    const { smoke } = await frozenRaw(3, { process: 'cold', more: 6 });
    await smokeCold(smoke);
    smoke.kitchen.clock.advance(6 * DAY_MS);
    const verdict = await verdictOf(smoke);
    expect(check(verdict, 'PARA-FREEZE-A')).toMatchObject({ verdict: 'misses', provenMinutes: 72 * 60 });
  });

  it('does not leave as frozen packs on the record of that raw freezing', async () => {
    for (const markOut of [true, false]) {
      const { smoke } = await frozenRaw(7, { process: 'cold', markOut });
      const { kitchen, batchId } = smoke;
      const outMs = await smokeCold(smoke);
      await kitchen.ask('batch.decide', releaseInput(batchId));
      const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: outMs });
      await kitchen.ask('label.printed', { packIds: packs.map((pack) => pack.id), stockId: '4x3in' });
      const verdict = await verdictOf(smoke);
      expect(check(verdict, 'FROZEN-0F')?.verdict).not.toBe('meets');
      expect(verdict.gates.at(3)).toMatchObject({ gate: 'leave', state: 'blocked', line: expect.stringContaining('freeze record') });
    }
  });

  it('is not frozen when it is sealed after the smoke, where a set wants it frozen first', async () => {
    const { smoke } = await frozenRaw(2, { setId: 'us-food-code', markOut: true });
    await smokeAndCool(smoke);
    const error = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId)));
    expect(error.message).toContain('ROP-FROZEN-FC');
    const unmarked = await frozenRaw(2, { setId: 'us-food-code' });
    await smokeAndCool(unmarked.smoke);
    expect((await refusal(unmarked.smoke.kitchen.reply('batch.decide', releaseInput(unmarked.smoke.batchId)))).message).toContain('ROP-FROZEN-FC');
  });
});

describe('packs in the freezer', () => {
  it('count from the end of the smoke, where the mark into the freezer lies within it', async () => {
    const smoke = await openSmokeKitchen({ process: 'cold' });
    const { kitchen, batchId, freezerId } = smoke;
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    const outMs = inMs + 10 * HOUR_MS;
    kitchen.clock.set(outMs + 2 * DAY_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: inMs + HOUR_MS, placeId: freezerId });
    await takeOver(smoke, load, 'night.csv', csvOf(inMs, { 'Probe 1': steadyAir(600, 72), Chamber: steadyAir(600, 78) }), true);
    await logFreezer(smoke, inMs, 48);
    expect(check(await verdictOf(smoke), 'PARA-FREEZE-A')).toMatchObject({ verdict: 'open', provenMinutes: 38 * 60 });
  });

  it('do not leave where nobody read it for days after they were frozen solid', async () => {
    const smoke = await openSmokeKitchen();
    const { cooledMs } = await smokeAndCool(smoke);
    const { kitchen, batchId, freezerId, handId } = smoke;
    await kitchen.ask('batch.decide', releaseInput(batchId));
    const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: cooledMs });
    await kitchen.ask('label.printed', { packIds: packs.map((pack) => pack.id), stockId: '4x3in' });
    kitchen.clock.set(cooledMs + 5 * DAY_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: cooledMs, placeId: freezerId });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: cooledMs + 12 * HOUR_MS, placeId: null });
    const read = (day: number) => kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: freezerId, atMs: cooledMs + day * DAY_MS, value: { text: '-5', unit: 'F' }, instrumentId: handId }] });
    await reviewed(smoke);
    for (const day of [0, 4, 5]) await read(day);
    expect((await verdictOf(smoke)).gates.at(3)).toMatchObject({ state: 'blocked', blocking: [expect.objectContaining({ checkId: 'FROZEN-0F' })] });
    for (const day of [1, 2, 3]) await read(day);
    expect((await verdictOf(smoke)).gates.at(3)).toMatchObject({ state: 'may' });
  });
});
