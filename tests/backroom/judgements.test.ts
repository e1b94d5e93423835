import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../main/backroom/book/canonical.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { handsInProcess } from '../../main/backroom/hands/hands.ts';
import type { BookRoom, OpenBook } from '../../main/backroom/room.ts';
import { replayJudgement } from '../../main/backroom/services/judgements.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { openSmokeKitchen, pointId, releaseInput, smokeAndCool } from './smoke-kitchen.ts';

const MINUTE_MS = 60_000;

/** The book of a closed kitchen, looked at as the services do. */
function roomOn(file: string, nowMs: number): { room: BookRoom; book: OpenBook; close(): void } {
  const handle = openBookFile(file, { clock: { nowMs: () => nowMs } });
  const book = handle.reader();
  const never = (): never => { throw new Error('nothing is written here'); };
  const room = {
    catalogue, clock: { nowMs: () => nowMs }, hands: handsInProcess(), version: 'test', caller: { front: 'ask', device: 'test', personId: null, commandId: null },
    keeper: undefined as never, newId: never, book, person: null, changed: never,
  } as const satisfies BookRoom;
  return { room, book, close: () => handle.close() };
}

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
});
