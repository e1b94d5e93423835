import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { canonicalJson, sha256Hex } from '../../main/backroom/book/canonical.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, refusal, releaseInput, smokeAndCool, type SmokeKitchen, reviewed } from './smoke-kitchen.ts';
import { addPaper } from './paper-drafts.ts';

const LAB: Omit<Input<'lab.record'>, 'batchId'> = {
  sampledOn: '2026-11-25', sample: 'loin of one fillet', laboratory: 'Harbour Laboratory', saltPercent: '2.40', moisturePercent: '64.1', nitritePpm: null,
};

describe('deciding about a batch', () => {
  it('releases on the pack gate, with name, reason and the digest of what it was decided on', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { deciding } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    const { decision } = await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
    expect(decision).toMatchObject({ decision: 'release', initials: 'MG', reason: 'Record read through.', pack: 'vacuum', store: 'frozen', verdictWords: deciding.words, atMs: smoke.kitchen.clock.nowMs() });
    expect(decision.judgementDigest).toBe(sha256Hex(canonicalJson(deciding)));
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch.stage).toBe('released');
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).decisions).toEqual([decision]);
  });

  it('does not release what is not finished, and says what is to come', async () => {
    const smoke = await openSmokeKitchen();
    const error = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId)));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringMatching(/^WF 329 can’t be released\. May not be packed: smoking and cooling not finished\./) });
    expect(error.remedy).toContain('Come back when the record is complete, or hold the batch.');
  });

  it('does not release what a gap left unproven: the reasons, what was needed and where the gap is', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke, { leaveOut: (minute) => minute > 140 && minute < 352 });
    const error = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId)));
    expect(error.code).toBe('RULE_BLOCKS');
    expect(error.message).toContain('HOT-145-30: All pieces together at 145 °F or above: 23 of 30 min');
    expect(error.remedy).toContain('Needed: Every piece must be kept at 145 °F or above for 30 min without a gap over 5 min. Piece Thick end’s record has a gap from 12:30 to 16:02.');
    expect(error.remedy).toContain('Hold the batch, or reject it.');
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).decisions).toEqual([]);
  });

  it('names only the set’s own acts after a miss', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke, { topF: 141 });
    const error = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId)));
    expect(error.remedy).toContain('What may be done: Go on with the same cook until the hold is met. Chill it, hold it apart, and ask the process authority for a rework. Destroy it.');
  });

  it('asks for initials where a limit is met only within the thermometer’s error', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke, { leaveOut: (minute) => minute > 140 && minute < 345 });
    const error = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId)));
    expect(error.message).toMatch(/^WF26329A\w meets only within the thermometer’s error: Core at 145 °F or above for 30 min, unbroken\.$/);
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId, { initialsForError: true }));
    const { entries } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.find((entry) => entry.kind === 'batch.release')?.summary).toContain('MG initialled what meets within the thermometer’s error');
  });

  it('is a manager’s alone', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    for (const initials of ['CH', 'HA']) {
      expect((await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId), initials))).code).toBe('NOT_ALLOWED');
    }
  });

  it('can hold at any time with a reason, and release again once the record carries it', async () => {
    const smoke = await openSmokeKitchen();
    const hold = releaseInput(smoke.batchId, { decision: 'hold', reason: 'Waiting for the log.', keptWhere: 'red tub' });
    expect((await smoke.kitchen.ask('batch.decide', hold)).decision).toMatchObject({ decision: 'hold', keptWhere: 'red tub' });
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch.stage).toBe('on-hold');
    await smokeAndCool(smoke);
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
    smoke.kitchen.clock.advance(HOUR_MS);
    await smoke.kitchen.ask('batch.decide', { ...hold, reason: 'A pack has swollen.' });
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).decisions.map((one) => one.decision)).toEqual(['hold', 'release', 'hold']);
  });

  it('rejects for good', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId, { decision: 'reject', reason: 'Fell on the floor.' }));
    for (const decision of ['release', 'hold', 'reject'] as const) {
      const error = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId, { decision })));
      expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('was rejected by MG'), remedy: expect.stringContaining('A rejection is final') });
    }
  });

  it('judges the gate for the pack and store it is released as', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const chilled = await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId, { store: 'refrigerated' })));
    expect(chilled.message).toContain('WPS-ROP-3.5');
    expect((await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId, { pack: 'unpacked', store: 'refrigerated' }))).decision.pack).toBe('unpacked');
  });
});

describe('gates that ask for more than the smoke', () => {
  it('keep fish from being sealed before it is frozen, under a set that wants so', async () => {
    const smoke = await openSmokeKitchen({ setId: 'us-food-code' });
    const { cooledMs } = await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    const error = await refusal(kitchen.reply('batch.decide', releaseInput(batchId)));
    expect(error.message).toContain('PERMIT-FC: No permission is on file.');
    await addPaper(kitchen);
    expect(error.message).toContain('ROP-FROZEN-FC: When it was frozen solid and when it was sealed are not marked.');
    kitchen.clock.set(cooledMs + 24 * HOUR_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: cooledMs, placeId: smoke.freezerId });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: cooledMs + 12 * HOUR_MS, placeId: null });
    await kitchen.ask('batch.decide', releaseInput(batchId));
    await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() });
    const { deciding } = await kitchen.ask('batch.verdict', { batchId });
    expect(deciding.checks.find((check) => check.checkId === 'ROP-FROZEN-FC')?.verdict).toBe('meets');
  });

  it('let chilled packs leave only on the cooler’s own record, read up to now', async () => {
    const smoke = await openSmokeKitchen({ store: 'refrigerated' });
    const { cooledMs } = await smokeAndCool(smoke);
    const { kitchen, batchId } = smoke;
    await kitchen.ask('lab.record', { batchId, ...LAB });
    await kitchen.ask('batch.decide', releaseInput(batchId, { store: 'refrigerated' }));
    const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: cooledMs });
    await kitchen.ask('label.printed', { packIds: packs.map((pack) => pack.id), stockId: '4x3in' });
    const read = (hour: number, text: string) => kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: smoke.coolerId, atMs: cooledMs + hour * HOUR_MS, value: { text, unit: 'F' }, instrumentId: smoke.handId }] });
    const leave = async () => (await kitchen.ask('batch.verdict', { batchId })).gates.at(3);
    await reviewed(smoke);
    kitchen.clock.set(cooledMs + 4 * HOUR_MS);
    expect(await leave()).toMatchObject({ state: 'blocked', line: 'May not leave: store record not proven.' });
    for (const hour of [0, 1, 2, 3, 4]) await read(hour, '34');
    expect(await leave()).toMatchObject({ state: 'may', line: 'May leave.' });
    kitchen.clock.set(cooledMs + 9 * HOUR_MS);
    expect(await leave()).toMatchObject({ state: 'blocked', line: 'May not leave: store record not proven.' });
    for (const hour of [5, 6, 7, 8, 9]) await read(hour, hour === 7 ? '38.1' : '34');
    expect(await leave()).toMatchObject({ state: 'blocked', line: 'May not leave: store record does not meet.' });
  });
});

describe('a laboratory result', () => {
  const record = (smoke: SmokeKitchen, more: Partial<Input<'lab.record'>> = {}) => smoke.kitchen.reply('lab.record', { batchId: smoke.batchId, ...LAB, ...more });

  it('is kept as typed, with the water-phase salt beside it, and judged exactly', async () => {
    const smoke = await openSmokeKitchen({ store: 'refrigerated' });
    await smokeAndCool(smoke);
    expect((await smoke.kitchen.ask('lab.record', { batchId: smoke.batchId, ...LAB })).result).toMatchObject({ saltPercent: '2.40', moisturePercent: '64.1', enteredBy: 'MG' });
    const verdict = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(verdict.labResults.at(0)?.waterPhasePercent).toBeCloseTo(3.6090, 4);
    expect(verdict.deciding.checks.find((check) => check.checkId === 'WPS-ROP-3.5')?.verdict).toBe('meets');
    expect(verdict.gates.at(2)?.state).toBe('may');
    await smoke.kitchen.ask('lab.record', { batchId: smoke.batchId, ...LAB, saltPercent: '2.0', moisturePercent: '55.15' });
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).deciding.checks.find((check) => check.checkId === 'WPS-ROP-3.5')?.verdict).toBe('misses');
  });

  it('is refused where the figures can’t be', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    expect((await refusal(record(smoke, { saltPercent: '40.5', moisturePercent: '59.6' }))).message).toBe('Salt 40.5 % and moisture 59.6 % are more than the whole fish.');
    expect((await record(smoke, { saltPercent: '40.4', moisturePercent: '59.6' })).ok).toBe(true);
    expect((await refusal(record(smoke, { moisturePercent: '0' }))).message).toBe('Smoked fish is never without moisture.');
    expect((await refusal(record(smoke, { saltPercent: '2,4' }))).code).toBe('INVALID_INPUT');
  });

  it('is of finished fish: not before it came out, not of a day to come', async () => {
    const smoke = await openSmokeKitchen();
    expect(await refusal(record(smoke))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('has not come out of the smoker') });
    await smokeAndCool(smoke);
    expect((await refusal(record(smoke, { sampledOn: '2026-11-26' }))).message).toBe('26 Nov 2026 is still to come.');
    expect((await refusal(record(smoke, { sampledOn: '2026-11-24' }))).message).toContain('came out of the smoker on 25 Nov 2026');
  });

  it('with nitrite in a fish that no rule permits it in does not meet', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    await smoke.kitchen.ask('lab.record', { batchId: smoke.batchId, ...LAB, nitritePpm: '120' });
    const verdict = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(verdict.deciding.checks.find((check) => check.checkId === 'NIT-NONE')?.verdict).toBe('misses');
    expect(verdict.gates.at(2)?.state).toBe('blocked');
  });
});

describe('marks after the smoker', () => {
  const mark = (smoke: SmokeKitchen, what: Input<'batch.mark'>['what'], atMs: number, placeId: string | null = null) => smoke.kitchen.reply('batch.mark', { batchId: smoke.batchId, what, atMs, placeId });

  it('of the freezer come in order, once, and name a freezer', async () => {
    const smoke = await openSmokeKitchen();
    const { cooledMs } = await smokeAndCool(smoke);
    smoke.kitchen.clock.set(cooledMs + 48 * HOUR_MS);
    expect((await refusal(mark(smoke, 'frozen', cooledMs + HOUR_MS))).message).toMatch(/has no mark for going into a freezer\.$/);
    expect((await refusal(mark(smoke, 'into-freezer', cooledMs + HOUR_MS))).message).toBe('No freezer is named.');
    expect((await refusal(mark(smoke, 'into-freezer', cooledMs + HOUR_MS, smoke.coolerId))).message).toBe('Walk-in cooler is not a freezer.');
    expect((await refusal(mark(smoke, 'into-freezer', cooledMs - 10 * HOUR_MS, smoke.freezerId))).message).toContain('coming out of the smoker was at');
    expect((await mark(smoke, 'into-freezer', cooledMs + HOUR_MS, smoke.freezerId)).ok).toBe(true);
    expect(await refusal(mark(smoke, 'into-freezer', cooledMs + HOUR_MS, smoke.freezerId))).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('that is marked already') });
    expect((await refusal(mark(smoke, 'frozen', cooledMs))).message).toContain('going into the freezer was at');
    expect((await mark(smoke, 'frozen', cooledMs + 13 * HOUR_MS)).ok).toBe(true);
    expect((await refusal(mark(smoke, 'out-of-freezer', cooledMs + 12 * HOUR_MS))).message).toContain('being frozen solid was at');
    expect((await refusal(mark(smoke, 'out-of-freezer', cooledMs + 49 * HOUR_MS))).message).toContain('is still to come');
    expect((await mark(smoke, 'out-of-freezer', cooledMs + 47 * HOUR_MS)).ok).toBe(true);
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch).toMatchObject({ freezerPlaceId: smoke.freezerId, frozenAtMs: cooledMs + 13 * HOUR_MS });
  });

  it('of sealing need a release, and none of them a batch that is still smoking', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    smoke.kitchen.clock.advance(HOUR_MS);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: smoke.readyMs + MINUTE_MS });
    expect((await refusal(mark(smoke, 'sealed', smoke.kitchen.clock.nowMs()))).message).toMatch(/has not been released\.$/);
    expect((await refusal(mark(smoke, 'into-freezer', smoke.kitchen.clock.nowMs(), smoke.freezerId))).message).toMatch(/is still in the smoker\.$/);
  });
});
