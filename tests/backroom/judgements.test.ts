import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../main/backroom/book/canonical.ts';
import type { OpenBook } from '../../main/backroom/room.ts';
import { replayJudgement } from '../../main/backroom/services/judgements.ts';
import type { StoredJudgement } from '../../main/backroom/book/stored.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { roomOn } from './room-on-file.ts';
import { openSmokeKitchen, pointId, refusal, releaseInput, smokeAndCool, smokeColumns, soakedBatch, takeOver, coolingColumns, openLoad, SMOKE_MINUTES, COOL_MINUTES } from './smoke-kitchen.ts';
import { csvOf } from './smoke-log.ts';

const MINUTE_MS = 60_000;

async function replayAll(kitchen: TestKitchen): Promise<string[]> {
  const nowMs = kitchen.clock.nowMs();
  await kitchen.close();
  const { room, book, close } = roomOn(kitchen.file, nowMs);
  const states = book.shelf('judgements').all().map((judgement) => {
    const replay = replayJudgement(room, judgement.id);
    if (replay.state === 'same') expect(canonicalJson(JSON.parse(JSON.stringify(replay.result)))).toBe(canonicalJson(judgement.result));
    return replay.state;
  });
  close();
  return states;
}

describe('a judgement on file', () => {
  it('of the demonstration kitchen gives the same again, byte for byte', async () => {
    const states = await replayAll(await openTestKitchen({ demo: true }));
    expect(states.length).toBeGreaterThanOrEqual(2);
    expect(states.every((state) => state === 'same')).toBe(true);
  });

  it('gives the same after readings, checks, confirmations and laboratory results that came later', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen, batchId, probeIds } = smoke;
    const { load, outMs } = await smokeAndCool(smoke);
    await kitchen.ask('limits.confirm', { checkId: 'COOL-AFDO', document: 'Sheet of 1 March' });
    await kitchen.ask('batch.decide', releaseInput(batchId));
    const before = (await kitchen.ask('batch.verdict', { batchId })).deciding;
    kitchen.clock.advance(MINUTE_MS);
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: pointId(load, 'Tail'), atMs: outMs + 5 * MINUTE_MS, value: { text: '90', unit: 'F' }, instrumentId: null }] });
    await kitchen.ask('instrument.check', { instrumentId: probeIds[0] ?? '', atMs: kitchen.clock.nowMs(), ice: { text: '35', unit: 'F' }, boiling: null, altitudeMetres: '', pressureHectopascals: '' });
    await kitchen.ask('limits.confirm', { checkId: 'COOL-AFDO', document: 'Sheet of 3 March' });
    const today = (await kitchen.ask('batch.verdict', { batchId })).deciding;
    expect(canonicalJson(today)).not.toBe(canonicalJson(before));
    expect(await replayAll(kitchen)).toEqual(['same']);
  });

  it('names what it was made by: the set and its version, the judge’s, and the decision’s digest', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    const { decision } = await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
    await smoke.kitchen.close();
    const { book, close } = roomOn(smoke.kitchen.file, smoke.kitchen.clock.nowMs());
    const [judgement] = book.shelf('judgements').where('batchId', smoke.batchId);
    expect(judgement).toMatchObject({ setId: 'lodge-default', setVersion: '2026-1', digest: decision.judgementDigest });
    expect(judgement?.engine).not.toBe('');
    close();
  });

  it('under a set of the kitchen’s own gives the same after a later version of that set came into force', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen } = smoke;
    const draft = { baseSetId: 'lodge-default', name: 'Our plan', effectiveFrom: '2026-11-25', paperId: null };
    const { set } = await kitchen.ask('limits.addSet', { ...draft, changes: [{ checkId: 'HOT-145-30', value: '155' }] });
    const batchId = await soakedBatch(kitchen, { setId: set.setId });
    await smokeAndCool({ ...smoke, batchId, readyMs: kitchen.clock.nowMs() });
    await kitchen.ask('batch.decide', releaseInput(batchId));
    await kitchen.ask('limits.addSet', { ...draft, changes: [{ checkId: 'HOT-145-30', value: '184.9' }] });
    expect(await replayAll(kitchen)).toEqual(['same']);
  });

  it('keeps what people had left out when it was made, whatever they decided later', async () => {
    const smoke = await openSmokeKitchen();
    const { kitchen, batchId } = smoke;
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    const outMs = inMs + SMOKE_MINUTES * MINUTE_MS;
    kitchen.clock.set(outMs + COOL_MINUTES * MINUTE_MS);
    const columns = smokeColumns();
    const spiked = (columns['Probe 2'] ?? []).map((core, minute) => (minute > 100 && minute % 20 === 0 ? core - 40 : core));
    await takeOver(smoke, load, 'smoke.csv', csvOf(inMs, { ...columns, 'Probe 2': spiked }), true);
    await takeOver(smoke, load, 'cooling.csv', csvOf(outMs + MINUTE_MS, coolingColumns(columns)), false);
    await kitchen.ask('load.mark', { loadId: load.id, what: 'cooled', atMs: kitchen.clock.nowMs() });
    expect((await refusal(kitchen.reply('batch.decide', releaseInput(batchId)))).message).toContain('HOT-145-30');
    await decideDoubts(kitchen, batchId, 'exclude');
    await kitchen.ask('batch.decide', releaseInput(batchId));
    const released = await kitchen.ask('batch.verdict', { batchId });
    expect(released.asRecorded?.verdict).not.toBe(released.deciding.verdict);
    await decideDoubts(kitchen, batchId, 'keep');
    expect((await kitchen.ask('worklist.get', {})).items[0]?.text).toContain('HOT-145-30');
    expect(await replayAll(kitchen)).toEqual(['same']);
  });

  it('is not compared where the readings, the judge or the published set are others than then', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
    await smoke.kitchen.close();
    const { room, book, close } = roomOn(smoke.kitchen.file, smoke.kitchen.clock.nowMs());
    const [judgement] = book.shelf('judgements').where('batchId', smoke.batchId);
    if (judgement === undefined) throw new Error('no judgement');
    const stateOf = (altered: Partial<StoredJudgement>): string => replayJudgement({ ...room, book: bookSaying(book, { ...judgement, ...altered }) }, judgement.id).state;
    expect(stateOf({})).toBe('same');
    expect(stateOf({ engine: '0' })).toBe('other-engine');
    expect(stateOf({ setVersion: '1999-1' })).toBe('other-set');
    const judged = judgement.judged as { readings: { count: number; digest: string }[] };
    const readings = judged.readings.map((taken, index) => (index === 0 ? { ...taken, count: taken.count + 1 } : taken));
    expect(stateOf({ judged: { ...judged, readings } as StoredJudgement['judged'] })).toBe('other-readings');
    expect(stateOf({ result: { deciding: null, asRecorded: null } })).toBe('different');
    close();
  });
});

async function decideDoubts(kitchen: TestKitchen, batchId: string, decision: 'exclude' | 'keep'): Promise<void> {
  const { doubts } = await kitchen.ask('doubt.list', { batchId });
  expect(doubts.length).toBeGreaterThan(0);
  for (const { pointId: point, kind, fromMs, toMs } of doubts) {
    await kitchen.ask('doubt.decide', { batchId, pointId: point, kind, fromMs, toMs, decision, why: 'Bad contact.' }, 'CH');
  }
}

/** A book in which a judgement on file reads otherwise. */
function bookSaying(book: OpenBook, judgement: StoredJudgement): OpenBook {
  const shelf = (name: Parameters<OpenBook['shelf']>[0]): unknown => (name === 'judgements' ? { ...book.shelf('judgements'), need: () => judgement } : book.shelf(name));
  return { ...book, shelf: shelf as OpenBook['shelf'] };
}
