import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { MINUTE_MS } from './fish-and-brine.ts';
import { exactTicks } from '../../app/measures/temperature.ts';
import { loadInput, openLoad, openSmokeKitchen, smokeAndCool, soakedBatch } from './smoke-kitchen.ts';

type Verdict = Output<'batch.verdict'>;

function check(verdict: Verdict, checkId: string) {
  const found = verdict.deciding.checks.find((one) => one.checkId === checkId);
  if (found === undefined) throw new Error(`no check ${checkId} among ${verdict.deciding.checks.map((one) => one.checkId).join(', ')}`);
  return found;
}

describe('a hot batch with a whole record', () => {
  it('meets every limit due before packing, with the evidence of each piece', async () => {
    const smoke = await openSmokeKitchen();
    const { load } = await smokeAndCool(smoke);
    const verdict = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(check(verdict, 'HOT-145-30')).toMatchObject({ verdict: 'meets', provenMinutes: 247, requiredMinutes: 30, needed: '', mark: 'read' });
    expect(check(verdict, 'HOT-145-30').pieces.map((piece) => [piece.name, piece.verdict, piece.pointId])).toEqual(
      load.points.filter((point) => point.role === 'piece').map((point) => [point.name, 'meets', point.id]),
    );
    expect(check(verdict, 'HOT-PROBES-3').verdict).toBe('meets');
    expect(check(verdict, 'COOL-AFDO')).toMatchObject({ verdict: 'meets', requiredMinutes: 120 });
    expect(check(verdict, 'BRINE-START-60').verdict).toBe('meets');
    expect(check(verdict, 'BRINE-REUSE').verdict).toBe('meets');
    expect(verdict.gates.at(2)).toMatchObject({ gate: 'pack', state: 'may', blocking: [], line: 'May be packed. Before it leaves: freeze record, review of the record and label as sealed.' });
    expect(verdict.process).toBe('hot');
  });

  it('names what is not judged here and what rests on memory, and never says more than it met', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { deciding, unconfirmed, gates } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(deciding.words).toBe('So far: 5 of 7 limits of Lodge default version 2026-1 met; not judged here: raw, thaw, exposure.');
    expect(deciding.notJudgedHere).toEqual(['raw', 'thaw', 'exposure']);
    expect(gates.slice(0, 3).every((gate) => gate.later.includes('review of the record'))).toBe(true);
    expect(unconfirmed.map((text) => text.split(':').at(0))).toEqual(['HOT-PROBES-3', 'COOL-AFDO', 'FROZEN-0F', 'REC-REVIEW-7D']);
    await smoke.kitchen.ask('limits.confirm', { checkId: 'COOL-AFDO', document: 'State inspector’s sheet of 3 March' });
    const after = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(after.unconfirmed.map((text) => text.split(':').at(0))).toEqual(['HOT-PROBES-3', 'FROZEN-0F', 'REC-REVIEW-7D']);
    expect(check(after, 'COOL-AFDO').confirmation).toMatchObject({ initials: 'MG', document: 'State inspector’s sheet of 3 March' });
  });

  it('is shown beside the other sets that have figures for it, and decided by none of them', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { deciding, others } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(others.map((other) => other.setId)).toEqual(expect.arrayContaining(['us-food-code', 'home', 'mi-plant']));
    expect(others.map((other) => other.setId)).not.toContain(deciding.setId);
    expect(others.find((other) => other.setId === 'home')?.checks.some((one) => one.checkId.startsWith('HOT-1'))).toBe(true);
  });

  it('is judged anew when a reading arrives', async () => {
    const smoke = await openSmokeKitchen();
    const { load, outMs } = await smokeAndCool(smoke);
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).gates.at(2)?.state).toBe('may');
    const thick = load.points.find((point) => point.name === 'Thick end')?.id ?? '';
    // Above 70 °F once more, 140 minutes after it came out.
    await smoke.kitchen.ask('readings.enter', { how: 'copied-from-paper', readings: [{ pointId: thick, atMs: outMs + 140 * MINUTE_MS, value: { text: '75', unit: 'F' }, instrumentId: null }] });
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).gates.at(2)?.state).toBe('blocked');
  });
});

describe('a hot batch whose record does not carry', () => {
  it('is not proven where a gap hides the hold, and the sentence says what was needed and where the gap is', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke, { leaveOut: (minute) => minute > 140 && minute < 352 });
    const verdict = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(check(verdict, 'HOT-145-30')).toMatchObject({ verdict: 'not-proven', provenMinutes: 23 });
    expect(check(verdict, 'HOT-145-30').needed).toBe(
      'Every piece must be kept at 145 °F or above for 30 min without a gap over 5 min. Piece Thick end’s record has a gap from 12:30 to 16:02. '
      + 'Piece Centre cut’s record has a gap from 12:30 to 16:02.',
    );
    expect(verdict.gates.at(2)).toMatchObject({ state: 'blocked', ways: [] });
    expect(verdict.gates.at(2)?.blocking.map((one) => one.checkId)).toEqual(expect.arrayContaining(['HOT-145-30']));
  });

  it('does not meet the hold where no piece ever got there, and only the set’s acts lead on', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke, { topF: 141 });
    const verdict = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(check(verdict, 'HOT-145-30')).toMatchObject({ verdict: 'misses', provenMinutes: 0 });
    expect(check(verdict, 'HOT-145-30').needed).toBe('Every piece must be kept at 145 °F or above for 30 min without a gap over 5 min.');
    expect(verdict.deciding.verdict).toBe('misses');
    expect(verdict.gates.at(2)).toMatchObject({ state: 'blocked', ways: expect.arrayContaining(['Go on with the same cook until the hold is met.']) });
  });

  it('does not meet the cooling where the room is too warm', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke, { coolAirF: 60 });
    const verdict = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(check(verdict, 'HOT-145-30').verdict).toBe('meets');
    expect(check(verdict, 'COOL-AFDO').verdict).toBe('misses');
    expect(verdict.gates.at(2)?.line).toContain('May not be packed: cooling does not meet.');
  });

  it('meets only within the error of its own probes, whatever the brine’s thermometer may be off by', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    const enter = async (minute: number, text: string) => {
      smoke.kitchen.clock.set(inMs + minute * MINUTE_MS);
      const readings = load.points.filter((point) => point.role === 'piece').map(({ id }) => ({ pointId: id, atMs: inMs + minute * MINUTE_MS, value: { text, unit: 'F' as const }, instrumentId: smoke.handId }));
      await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings });
    };
    smoke.kitchen.clock.set(inMs);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
    for (const minute of [60, 70, 80, 90]) await enter(minute, '145.9');
    expect(check(await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId }), 'HOT-145-30').verdict).toBe('meets-within-error');
    for (const minute of [100, 110, 120, 130]) await enter(minute, '146');
    expect(check(await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId }), 'HOT-145-30').verdict).toBe('meets');
  });
});

describe('a batch that has not got so far', () => {
  it('is open, with nothing proven and nothing held against it', async () => {
    const smoke = await openSmokeKitchen();
    const before = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(before.deciding.verdict).toBe('open');
    expect(before.gates.map((gate) => gate.state)).toEqual(['may', 'may', 'not-yet', 'not-yet']);
    expect(before.coldest).toBeNull();
  });

  it('counts only its own pieces when two batches share a load', async () => {
    const smoke = await openSmokeKitchen();
    const other = await soakedBatch(smoke.kitchen);
    const pieces = [...loadInput(smoke).pieces, { name: 'Stranger', batchId: other, thicknessMm: 40, rackPlace: '', instrumentId: null }];
    const load = await openLoad(smoke, { batchIds: [smoke.batchId, other], pieces });
    const atMs = smoke.kitchen.clock.nowMs();
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs });
    const readings = load.points.filter((point) => point.role === 'piece').map(({ id, name }) => ({
      pointId: id, atMs, value: { text: name === 'Stranger' ? '33' : '50', unit: 'F' as const }, instrumentId: smoke.handId,
    }));
    await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings });
    const mine = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    const others = await smoke.kitchen.ask('batch.verdict', { batchId: other });
    expect(check(mine, 'HOT-145-30').pieces.map((piece) => piece.name)).toEqual(['Thick end', 'Centre cut', 'Tail']);
    expect(check(others, 'HOT-145-30').pieces.map((piece) => piece.name)).toEqual(['Stranger']);
    expect([mine.coldest, others.coldest]).toEqual([exactTicks(50, 'F'), exactTicks(33, 'F')]);
  });
});
