import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';

interface LongSoak {
  readonly kitchen: TestKitchen;
  readonly batchId: string;
  readonly startMs: number;
}

/** A batch in brine for so many hours, the room read by hand at the start and the end. */
async function soakedFor(hours: number, { brine = '38', room = '36' as string | null, rooms = 1 } = {}): Promise<LongSoak & { readonly roomIds: string[] }> {
  const kitchen = await openTestKitchen();
  const roomIds: string[] = [];
  for (let number = 1; number <= rooms; number += 1) roomIds.push((await kitchen.ask('office.addPlace', { name: `Brining room ${number}`, kind: 'brining-room' })).id);
  const lot = await receive(kitchen);
  const { id: batchId } = await makeBatch(kitchen, [lot.id], { recipeId: 'dill-lemon-brine' });
  const startMs = kitchen.clock.nowMs();
  const temperatures = { brine: { text: brine, unit: 'F' as const }, room: room === null ? null : { text: room, unit: 'F' as const } };
  await kitchen.ask('soak.log', soakInput(batchId, 'start', startMs, temperatures));
  kitchen.clock.advance(hours * HOUR_MS);
  await kitchen.ask('soak.log', soakInput(batchId, 'end', kitchen.clock.nowMs(), temperatures));
  return { kitchen, batchId, startMs, roomIds };
}

/** The room's own record, every ten minutes through the soak. */
async function logRoom({ kitchen, startMs }: LongSoak, placeId: string, hours: number, degreesAt: (minute: number) => string): Promise<void> {
  const readings = Array.from({ length: hours * 6 + 1 }, (_value, step) => ({ pointId: placeId, atMs: startMs + step * 10 * MINUTE_MS, value: { text: degreesAt(step * 10), unit: 'F' as const }, instrumentId: null }));
  await kitchen.ask('readings.enter', { how: 'copied-from-paper', readings });
}

async function checkOf({ kitchen, batchId }: LongSoak, checkId: string): Promise<Output<'batch.verdict'>['deciding']['checks'][number]> {
  const { deciding } = await kitchen.ask('batch.verdict', { batchId });
  const found = deciding.checks.find((check) => check.checkId === checkId);
  if (found === undefined) throw new Error(`no check ${checkId}`);
  return found;
}

describe('the soak of a batch', () => {
  it('is judged by the brine’s first reading, as logged at the start', async () => {
    expect((await checkOf(await soakedFor(2, { brine: '57.9' }), 'BRINE-START-60')).verdict).toBe('meets');
    // The thermometer put into a tub is not named, so it may be 2 °F off.
    expect((await checkOf(await soakedFor(2, { brine: '58.1' }), 'BRINE-START-60')).verdict).toBe('meets-within-error');
    expect((await checkOf(await soakedFor(2, { brine: '60.1' }), 'BRINE-START-60')).verdict).toBe('misses');
  });

  it('asks nothing of the room up to four hours', async () => {
    expect((await checkOf(await soakedFor(4, { room: '50' }), 'BRINE-4H-38')).verdict).toBe('does-not-apply');
  });

  it('over four hours is not proven by a temperature at each end', async () => {
    expect((await checkOf(await soakedFor(5), 'BRINE-4H-38')).verdict).toBe('not-proven');
  });

  it('over four hours meets with the room’s own record, and misses with one reading over', async () => {
    const soak = await soakedFor(5);
    await logRoom(soak, soak.roomIds[0] ?? '', 5, () => '35.5');
    expect(await checkOf(soak, 'BRINE-4H-38')).toMatchObject({ verdict: 'meets', reason: expect.stringContaining('copied from paper') });
    const warm = await soakedFor(5);
    await logRoom(warm, warm.roomIds[0] ?? '', 5, (minute) => (minute === 120 ? '38.1' : '35.5'));
    expect((await checkOf(warm, 'BRINE-4H-38')).verdict).toBe('misses');
  });

  it('counts a warm temperature that was typed with the soak beside the room’s log', async () => {
    const soak = await soakedFor(5, { room: '39' });
    await logRoom(soak, soak.roomIds[0] ?? '', 5, () => '35.5');
    expect((await checkOf(soak, 'BRINE-4H-38')).verdict).toBe('misses');
  });

  it('of a kitchen with two brining rooms is judged by each, one nobody read proving nothing, the worst deciding', async () => {
    const soak = await soakedFor(5, { rooms: 2 });
    await logRoom(soak, soak.roomIds[0] ?? '', 5, () => '35.5');
    expect((await checkOf(soak, 'BRINE-4H-38')).verdict).toBe('not-proven');
    await logRoom(soak, soak.roomIds[1] ?? '', 5, () => '41');
    expect((await checkOf(soak, 'BRINE-4H-38')).verdict).toBe('misses');
  });
});
