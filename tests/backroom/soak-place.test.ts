import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import type { TestKitchen } from '../support/test-kitchen.ts';
import { batchOf, soakingBatch, type Soaking } from './brine-tub.ts';
import { guest, HOUR_MS, LAKE_TROUT, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';

interface Placed extends Soaking {
  readonly placeId: string;
}

async function addPlace(kitchen: TestKitchen, name: string, kind: 'brining-room' | 'cooler' | 'freezer'): Promise<string> {
  return (await kitchen.ask('office.addPlace', { name, kind })).id;
}

/** A soak of five hours in a cooler, whose own record is this every ten minutes; no readings where it is null. */
async function soakInCooler(degreesAt: ((minute: number) => string) | null): Promise<Placed> {
  const soaking = await soakingBatch({}, { start: false });
  const { kitchen, batchId, startMs } = soaking;
  const placeId = await addPlace(kitchen, 'Walk-in', 'cooler');
  await addPlace(kitchen, 'Brining room', 'brining-room');
  await kitchen.ask('soak.log', soakInput(batchId, 'start', startMs, { placeId, tub: '3', basket: 'B' }));
  kitchen.clock.advance(5 * HOUR_MS);
  await kitchen.ask('soak.log', soakInput(batchId, 'end', startMs + 5 * HOUR_MS));
  if (degreesAt !== null) {
    const readings = Array.from({ length: 31 }, (_value, step) => ({ pointId: placeId, atMs: startMs + step * 10 * MINUTE_MS, value: { text: degreesAt(step * 10), unit: 'F' as const }, instrumentId: null }));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings });
  }
  return { ...soaking, placeId };
}

async function checkOf({ kitchen, batchId }: Soaking, checkId: string): Promise<Output<'batch.verdict'>['deciding']['checks'][number]> {
  const found = (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find((check) => check.checkId === checkId);
  if (found === undefined) throw new Error(`no check ${checkId}`);
  return found;
}

describe('the place that a tub stands in', () => {
  it('is kept with tub and basket, and said in the record', async () => {
    const soak = await soakInCooler(() => '36');
    expect(await batchOf(soak)).toMatchObject({ brinePlaceId: soak.placeId, tub: '3', basket: 'B', brineReused: false });
    const { entries } = await soak.kitchen.ask('record.batch', { batchId: soak.batchId });
    expect(entries.find((entry) => entry.kind === 'soak.start')?.summary).toContain('; Walk-in, tub 3, basket B, new brine.');
  });

  it('misses the four-hour rule by its own record, with the reading in the reason', async () => {
    const soak = await soakInCooler((minute) => (minute === 200 ? '40' : '35.5'));
    const check = await checkOf(soak, 'BRINE-4H-38');
    expect(check.verdict).toBe('misses');
    expect(check.reason).toMatch(/Walk-in.*40 °F at 11:20/);
  });

  it('meets it at 35.5 °F, and at 37 °F within the thermometer’s error', async () => {
    expect((await checkOf(await soakInCooler(() => '35.5'), 'BRINE-4H-38')).verdict).toBe('meets');
    expect((await checkOf(await soakInCooler(() => '37'), 'BRINE-4H-38')).verdict).toBe('meets-within-error');
  });

  it('meets it at 37 °F read with a thermometer that was checked', async () => {
    const soak = await soakInCooler(null);
    const { id: instrumentId } = await soak.kitchen.ask('office.addInstrument', { name: 'Logger', kind: 'logger', error: { text: '0.5', unit: 'F' } });
    const readings = Array.from({ length: 31 }, (_value, step) => ({ pointId: soak.placeId, atMs: soak.startMs + step * 10 * MINUTE_MS, value: { text: '37', unit: 'F' as const }, instrumentId }));
    await soak.kitchen.ask('readings.enter', { how: 'by-hand', readings });
    expect((await checkOf(soak, 'BRINE-4H-38')).verdict).toBe('meets');
  });

  it('proves nothing without readings, whatever the other rooms were', async () => {
    const soak = await soakInCooler(null);
    expect((await checkOf(soak, 'BRINE-4H-38')).verdict).toBe('not-proven');
  });

  it('counts only while the fish lay in it', async () => {
    const soak = await soakInCooler(() => '35.5');
    await soak.kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: soak.placeId, atMs: soak.startMs - HOUR_MS, value: { text: '60', unit: 'F' }, instrumentId: null }] });
    expect((await checkOf(soak, 'BRINE-4H-38')).verdict).toBe('meets');
  });

  it('is a brining room or a cooler of the office, and told at the start', async () => {
    const { kitchen, batchId, startMs } = await soakingBatch({}, { start: false });
    const freezer = await addPlace(kitchen, 'Chest', 'freezer');
    expect(await kitchen.reply('soak.log', soakInput(batchId, 'start', startMs, { placeId: freezer }))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['placeId'] }] } });
    expect(await kitchen.reply('soak.log', soakInput(batchId, 'start', startMs, { placeId: 'nowhere' }))).toMatchObject({ ok: false, error: { code: 'NOT_FOUND', fields: [{ path: ['placeId'] }] } });
    await kitchen.ask('soak.log', soakInput(batchId, 'start', startMs));
    expect(await kitchen.reply('soak.log', soakInput(batchId, 'turn', startMs, { tub: '4' }))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['tub'] }] } });
  });

  it('comes with what the deciding set asks of the brine', async () => {
    const limits = (await batchOf(await soakingBatch())).soakLimits;
    expect(limits?.map((limit) => limit.checkId)).toEqual(['BRINE-START-60', 'BRINE-4H-38', 'BRINE-REUSE']);
    expect(limits?.[1]?.text).toContain('38 °F or below');
  });
});

describe('a brine that was used before', () => {
  it.each([[false, 'meets'], [true, 'misses'], [undefined, 'not-proven']] as const)('as told (%s) is judged %s', async (brineReused, verdict) => {
    const soaking = await soakingBatch({}, { start: false });
    const { kitchen, batchId, startMs } = soaking;
    await kitchen.ask('soak.log', { batchId, what: 'start', atMs: startMs, brine: { text: '38', unit: 'F' }, room: null, ...(brineReused === undefined ? {} : { brineReused }) });
    kitchen.clock.advance(2 * HOUR_MS);
    await kitchen.ask('soak.log', soakInput(batchId, 'end', kitchen.clock.nowMs()));
    expect((await checkOf(soaking, 'BRINE-REUSE')).verdict).toBe(verdict);
  });
});

describe('a tub that another batch lies in', () => {
  async function secondInTub(more: Parameters<typeof receive>[1], { tub = ' 3 ', elsewhere = false, ended = false } = {}) {
    const { kitchen, batchId, startMs } = await soakingBatch({}, { start: false });
    const rooms = [await addPlace(kitchen, 'Walk-in', 'cooler'), await addPlace(kitchen, 'Back room', 'brining-room')] as const;
    await kitchen.ask('soak.log', soakInput(batchId, 'start', startMs, { placeId: rooms[0], tub: '3' }));
    kitchen.clock.advance(2 * HOUR_MS);
    if (ended) await kitchen.ask('soak.log', soakInput(batchId, 'end', startMs + HOUR_MS));
    const lot = await receive(kitchen, more);
    const other = await makeBatch(kitchen, [lot.id]);
    kitchen.clock.advance(HOUR_MS);
    return kitchen.reply('soak.log', soakInput(other.id, 'start', kitchen.clock.nowMs(), { placeId: elsewhere ? rooms[1] : rooms[0], tub }));
  }

  it('is refused to another species and another owner, with the reason', async () => {
    const species = await secondInTub({ speciesId: LAKE_TROUT });
    expect(species).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringMatching(/WF 329 has been soaking in tub “3” since 08:00.*one tub takes one species/), fields: [{ path: ['tub'] }] } });
    expect(await secondInTub({ source: guest('Ida Moen') })).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('a guest’s own catch') } });
  });

  it('is refused to the same fish too: then it is one batch', async () => {
    expect(await secondInTub({})).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', remedy: expect.stringContaining('Make one batch of both') } });
  });

  it('is free once its soak has ended, and a tub of the same name elsewhere is another', async () => {
    expect(await secondInTub({ speciesId: LAKE_TROUT }, { ended: true })).toMatchObject({ ok: true });
    expect(await secondInTub({ speciesId: LAKE_TROUT }, { elsewhere: true })).toMatchObject({ ok: true });
    expect(await secondInTub({ speciesId: LAKE_TROUT }, { tub: '4' })).toMatchObject({ ok: true });
  });
});

describe('the line', () => {
  it('tells a turn that is due from the end of the soak', async () => {
    const { kitchen, batchId } = await soakingBatch();
    const bar = (await kitchen.ask('line.get', {})).bars.find((one) => one.batchId === batchId);
    expect(bar?.dues.map((due) => due.what)).toEqual(['turn', 'turn', 'end']);
  });
});
