import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';
import { packedKitchen, readPlace, trayInput, type PackedKitchen } from './packed-kitchen.ts';
import { openLoad, openSmokeKitchen, refusal, releaseInput, reviewed, takeOver, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf, steadyAir } from './smoke-log.ts';

const DAY_MS = 24 * HOUR_MS;

async function marksOf({ kitchen, batchId }: Pick<PackedKitchen, 'kitchen' | 'batchId'>) {
  const { batch } = await kitchen.ask('batch.get', { batchId });
  return { into: batch.intoFreezerAtMs, frozen: batch.frozenAtMs, out: batch.outOfFreezerAtMs };
}

async function verdictOf(smoke: Pick<SmokeKitchen, 'kitchen' | 'batchId'>): Promise<Output<'batch.verdict'>> {
  return smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
}

function checkOf({ deciding }: Output<'batch.verdict'>, checkId: string) {
  return deciding.checks.find((one) => one.checkId === checkId);
}

async function logFreezer({ kitchen, freezerId, handId }: SmokeKitchen, fromMs: number, hours: number, text = '-8'): Promise<void> {
  const readings = Array.from({ length: hours + 1 }, (_value, hour) => ({ pointId: freezerId, atMs: fromMs + hour * HOUR_MS, value: { text, unit: 'F' as const }, instrumentId: handId }));
  for (let index = 0; index < readings.length; index += 200) await kitchen.ask('readings.enter', { how: 'by-hand', readings: readings.slice(index, index + 200) });
}

describe('the marks of a batch on trays', () => {
  it('are the worst of its trays: the last that went in, the last that was solid, none while one isn’t', async () => {
    const packed = await packedKitchen();
    const { kitchen, packs, sealedMs } = packed;
    const first = await kitchen.ask('tray.make', trayInput(packed, packs.slice(0, 3)));
    kitchen.clock.set(sealedMs + 30 * HOUR_MS);
    await kitchen.ask('tray.mark', { trayId: first.tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
    expect(await marksOf(packed)).toEqual({ into: sealedMs, frozen: sealedMs + 12 * HOUR_MS, out: null });
    const second = await kitchen.ask('tray.make', trayInput(packed, packs.slice(3), { atMs: sealedMs + 5 * HOUR_MS }));
    expect(await marksOf(packed)).toEqual({ into: sealedMs + 5 * HOUR_MS, frozen: null, out: null });
    await readPlace(packed, [0, 5, 10, 15, 20, 25, 30]);
    expect((await verdictOf(packed)).gates[3]).toMatchObject({ line: expect.stringContaining('freeze record') });
    await kitchen.ask('tray.mark', { trayId: second.tray.id, what: 'frozen', atMs: sealedMs + 20 * HOUR_MS, how: 'touch' });
    expect(await marksOf(packed)).toMatchObject({ frozen: sealedMs + 20 * HOUR_MS });
    expect((await verdictOf(packed)).gates[3]).toMatchObject({ state: 'may' });
    await kitchen.ask('tray.mark', { trayId: first.tray.id, what: 'out', atMs: sealedMs + 25 * HOUR_MS, how: null });
    expect(await marksOf(packed)).toMatchObject({ out: null });
  });

  it('come of a freezer alone: no tray is made in a cooler', async () => {
    const packed = await packedKitchen({ packs: 1 });
    expect(await refusal(packed.kitchen.reply('tray.make', trayInput(packed, packed.packs, { placeId: packed.smoke.coolerId })))).toMatchObject({ code: 'INVALID_INPUT', message: 'Walk-in cooler is not a freezer.' });
    expect(await marksOf(packed)).toEqual({ into: null, frozen: null, out: null });
  });

  it('take the record of every freezer that a tray stands in', async () => {
    const packed = await packedKitchen();
    const { kitchen, packs, sealedMs } = packed;
    const { id: otherId } = await kitchen.ask('office.addPlace', { name: 'Upright freezer', kind: 'freezer' });
    const trays = [await kitchen.ask('tray.make', trayInput(packed, packs.slice(0, 3))), await kitchen.ask('tray.make', trayInput(packed, packs.slice(3), { placeId: otherId }))];
    kitchen.clock.set(sealedMs + 30 * HOUR_MS);
    for (const { tray } of trays) await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
    const hours = [0, 6, 12, 18, 24, 30];
    await readPlace(packed, hours);
    await readPlace(packed, hours, '-8', otherId);
    expect(checkOf(await verdictOf(packed), 'FROZEN-0F')?.verdict).toBe('open');
    await readPlace(packed, [27], '20', packed.smoke.freezerId);
    expect(checkOf(await verdictOf(packed), 'FROZEN-0F')?.verdict).toBe('misses');
    expect((await kitchen.ask('worklist.get', {})).items.map(({ what }) => what)).toContain('decide-again');
  });
});

/** Cold-smoked fish, frozen raw for so many days before its brine, released and sealed; the clock stands at the sealing. */
async function frozenRawAndPacked(days: number): Promise<PackedKitchen> {
  const smoke = await openSmokeKitchen();
  const { kitchen, freezerId } = smoke;
  const lot = await receive(kitchen);
  const { id: batchId } = await makeBatch(kitchen, [lot.id], { process: 'cold' });
  const intoMs = kitchen.clock.nowMs();
  const { tray } = await kitchen.ask('tray.make', { batchId, name: '', packIds: [], placeId: freezerId, spot: '', atMs: intoMs, probe: null });
  kitchen.clock.set(intoMs + days * DAY_MS);
  await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: intoMs + 12 * HOUR_MS, how: 'touch' });
  await kitchen.ask('tray.mark', { trayId: tray.id, what: 'out', atMs: kitchen.clock.nowMs(), how: null });
  await logFreezer(smoke, intoMs, days * 24);
  await kitchen.ask('soak.log', soakInput(batchId, 'start', kitchen.clock.nowMs()));
  kitchen.clock.advance(2 * HOUR_MS);
  await kitchen.ask('soak.log', soakInput(batchId, 'end', kitchen.clock.nowMs()));
  const ready = { ...smoke, batchId, readyMs: kitchen.clock.nowMs() };
  const load = await openLoad(ready);
  const inMs = ready.readyMs + 10 * MINUTE_MS;
  const outMs = inMs + 10 * HOUR_MS;
  kitchen.clock.set(outMs);
  await takeOver(ready, load, 'night.csv', csvOf(inMs, { 'Probe 1': steadyAir(600, 72), Chamber: steadyAir(600, 78) }), true);
  await reviewed(ready);
  await kitchen.ask('batch.decide', releaseInput(batchId));
  const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }, { text: '1', unit: 'lb' }], sealedAtMs: outMs });
  await kitchen.ask('label.printed', { packIds: packs.map(({ id }) => id), stockId: '4x3in' });
  return { smoke: ready, kitchen, batchId, packs, sealedMs: outMs, smoked: { load, inMs, outMs, cooledMs: outMs } };
}

async function freezePacks(packed: PackedKitchen, days: number, degreesF: string): Promise<void> {
  const { kitchen, packs, sealedMs } = packed;
  const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs));
  kitchen.clock.set(sealedMs + days * DAY_MS);
  await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
  await logFreezer(packed.smoke, sealedMs, days * 24, degreesF);
}

describe('fish frozen raw whose packs are frozen later', () => {
  it('answers for parasites by the fish’s own week, and leaves by its packs’ freezing', async () => {
    const packed = await frozenRawAndPacked(7);
    // Two degrees below zero: no freezing against parasites, and cold enough for the store.
    await freezePacks(packed, 2, '-2.5');
    const verdict = await verdictOf(packed);
    expect(checkOf(verdict, 'PARA-FREEZE-A')).toMatchObject({ verdict: 'meets', provenMinutes: 7 * 24 * 60 });
    expect(checkOf(verdict, 'FROZEN-0F')?.verdict).toBe('open');
    expect(verdict.gates[3]).toMatchObject({ state: 'may' });
    const { batch } = await packed.kitchen.ask('batch.get', { batchId: packed.batchId });
    expect(batch.frozenAtMs).toBeLessThan(packed.sealedMs);
  });

  it('answers by its packs’ freezing where its own was too short', async () => {
    const packed = await frozenRawAndPacked(3);
    await freezePacks(packed, 4, '-8');
    expect((await verdictOf(packed)).gates[3]).toMatchObject({ state: 'not-yet', line: expect.stringContaining('parasite') });
    await logFreezer(packed.smoke, packed.sealedMs + 4 * DAY_MS, 0);
    packed.kitchen.clock.set(packed.sealedMs + 7 * DAY_MS);
    await logFreezer(packed.smoke, packed.sealedMs + 4 * DAY_MS, 72);
    const verdict = await verdictOf(packed);
    expect(checkOf(verdict, 'PARA-FREEZE-A')).toMatchObject({ verdict: 'meets', provenMinutes: 7 * 24 * 60 });
    expect(verdict.gates[3]).toMatchObject({ state: 'may' });
  });

  it('is judged by the probe in a fish or a dummy where one stood on its tray', async () => {
    const packed = await frozenRawAndPacked(3);
    const { kitchen, packs, sealedMs, smoke } = packed;
    const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs, { probe: { in: 'fish', instrumentId: smoke.handId } }));
    kitchen.clock.set(sealedMs + 8 * DAY_MS);
    await logFreezer(smoke, sealedMs, 192);
    // The core follows a day later.
    const core = Array.from({ length: 193 }, (_value, hour) => ({ pointId: tray.pointId ?? '', atMs: sealedMs + hour * HOUR_MS, value: { text: hour < 24 ? '10' : '-7', unit: 'F' as const }, instrumentId: smoke.handId }));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: core });
    const open = await verdictOf(packed);
    expect(checkOf(open, 'PARA-FREEZE-A')).toMatchObject({ verdict: 'meets', provenMinutes: 168 * 60 });
    expect((await refusal(kitchen.reply('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 20 * HOUR_MS, how: 'probe-in-fish' }))).message).toContain('not frozen solid yet');
  });

  it('is not judged by a probe that stands in one freezer alone: the other freezer’s own record counts beside it', async () => {
    const packed = await frozenRawAndPacked(3);
    const { kitchen, packs, sealedMs, smoke } = packed;
    const { id: otherId } = await kitchen.ask('office.addPlace', { name: 'Upright freezer', kind: 'freezer' });
    const { tray } = await kitchen.ask('tray.make', trayInput(packed, packs.slice(0, 1), { probe: { in: 'fish', instrumentId: smoke.handId } }));
    await kitchen.ask('tray.make', trayInput(packed, packs.slice(1), { placeId: otherId }));
    kitchen.clock.set(sealedMs + 8 * DAY_MS);
    await logFreezer(smoke, sealedMs, 192);
    await logFreezer({ ...smoke, freezerId: tray.pointId ?? '' }, sealedMs, 192, '-7');
    await logFreezer({ ...smoke, freezerId: otherId }, sealedMs, 192, '-2');
    expect(checkOf(await verdictOf(packed), 'PARA-FREEZE-A')).toMatchObject({ verdict: expect.not.stringMatching(/^meets/), reason: expect.stringContaining('Upright freezer') });
  });
});
