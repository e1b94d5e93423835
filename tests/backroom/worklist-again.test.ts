import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import type { OpenBook } from '../../main/backroom/room.ts';
import { needStandingRelease } from '../../main/backroom/services/standing-release.ts';
import { roomOn } from './room-on-file.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, releaseInput, smokeAndCool, takeOver, type Smoked, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf } from './smoke-log.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** A batch whose hold meets with little to spare, released and sealed in two packs, both labelled; then a day passes. */
async function barelyReleased(initialsForError = false): Promise<{ smoke: SmokeKitchen; smoked: Smoked }> {
  const smoke = await openSmokeKitchen();
  const smoked = await smokeAndCool(smoke, { topF: 149 });
  const { kitchen, batchId } = smoke;
  await kitchen.ask('batch.decide', releaseInput(batchId, { initialsForError }));
  const { packs } = await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }, { text: '1.1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() });
  await kitchen.ask('label.printed', { packIds: packs.map(({ id }) => id), stockId: '4x3in' });
  kitchen.clock.advance(DAY_MS);
  return { smoke, smoked };
}

async function inIce({ kitchen, probeIds }: SmokeKitchen, text: string): Promise<string[]> {
  return (await kitchen.ask('instrument.check', { instrumentId: probeIds[0] ?? '', atMs: kitchen.clock.nowMs(), ice: { text, unit: 'F' }, boiling: null, altitudeMetres: '', pressureHectopascals: '' })).affectedBatches;
}

async function itemsOf({ kitchen }: SmokeKitchen): Promise<Output<'worklist.get'>['items']> {
  return (await kitchen.ask('worklist.get', {})).items;
}

async function holdIn({ kitchen, batchId }: SmokeKitchen): Promise<string | undefined> {
  return (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find(({ checkId }) => checkId === 'HOT-145-30')?.verdict;
}

describe('initials for what is within the thermometer’s error', () => {
  it.each([false, true])('cover no check that meets only so later, whether or not they were offered at the release (%s)', async (offered) => {
    const { smoke } = await barelyReleased(offered);
    expect(await holdIn(smoke)).toBe('meets');
    expect(await inIce(smoke, '33')).toHaveLength(1);
    expect(await holdIn(smoke)).toBe('meets-within-error');
    expect((await itemsOf(smoke))[0]?.text).toContain('HOT-145-30 meets only within the thermometer’s error now');
  });

  it('are kept on the decision that they were needed for, and carry it from then on', async () => {
    const { smoke } = await barelyReleased(true);
    const { kitchen, batchId } = smoke;
    await inIce(smoke, '33');
    expect((await refusal(kitchen.reply('batch.decide', releaseInput(batchId)))).message).toContain('meets only within the thermometer’s error');
    await kitchen.ask('batch.decide', releaseInput(batchId, { initialsForError: true }));
    const { decisions } = await kitchen.ask('batch.verdict', { batchId });
    expect(decisions.map(({ initialsForError }) => initialsForError)).toEqual([false, true]);
    expect((await itemsOf(smoke)).filter(({ done }) => done === null).map(({ what }) => what)).toEqual(['labels', 'packs']);
    kitchen.clock.advance(MINUTE_MS);
    expect(await inIce(smoke, '33')).toEqual([]);
    expect((await kitchen.ask('pack.seal', { batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() })).packs).toHaveLength(1);
  });
});

describe('a release that came to rest on initials which nobody gave', () => {
  it('carries no sealing, even where nothing on the list says so', async () => {
    const { smoke } = await barelyReleased();
    const { kitchen, batchId } = smoke;
    await inIce(smoke, '33');
    await kitchen.close();
    const { room, book, close } = roomOn(kitchen.file, kitchen.clock.nowMs());
    const shelf = (name: Parameters<OpenBook['shelf']>[0]): unknown => (name === 'workItems' ? { ...book.shelf('workItems'), where: () => [] } : book.shelf(name));
    const unlisted = { ...room, book: { ...book, shelf: shelf as OpenBook['shelf'] } };
    expect(() => needStandingRelease(unlisted, book.shelf('batches').need(batchId))).toThrow('now meets only within the thermometer’s error');
    close();
  });
});

describe('a batch that comes back twice', () => {
  it('has its labels and packs on the list once, as long as they are open', async () => {
    const { smoke, smoked } = await barelyReleased();
    const { kitchen, batchId } = smoke;
    await inIce(smoke, '33');
    await kitchen.ask('batch.decide', releaseInput(batchId, { initialsForError: true }));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: pointId(smoked.load, 'Thick end'), atMs: smoked.outMs + 130 * MINUTE_MS, value: { text: '90', unit: 'F' }, instrumentId: null }] });
    const open = (await itemsOf(smoke)).filter(({ done }) => done === null);
    expect(open.map(({ what }) => what).toSorted()).toEqual(['decide-again', 'labels', 'packs']);
    expect(open.find(({ what }) => what === 'decide-again')?.text).toContain('COOL-AFDO');
  });
});

describe('where the packs are', () => {
  it('is said by the record: the freezer they went into, else the freezers to look in', async () => {
    const { smoke: marked } = await barelyReleased();
    await marked.kitchen.ask('batch.mark', { batchId: marked.batchId, what: 'into-freezer', atMs: marked.kitchen.clock.nowMs(), placeId: marked.freezerId });
    await inIce(marked, '35');
    expect((await itemsOf(marked)).find(({ what }) => what === 'packs')?.text).toContain('They are in Chest freezer by the record');
    const { smoke: unmarked } = await barelyReleased();
    await inIce(unmarked, '35');
    expect((await itemsOf(unmarked)).find(({ what }) => what === 'packs')?.text).toContain('not on record: look in Chest freezer');
  });
});

describe('cold-smoked fish', () => {
  /** In the freezer for eight days at −6 °F, read four times a day by hand, and out of it; released when it was. */
  async function frozenAndReleased(): Promise<{ smoke: SmokeKitchen; intoMs: number; soakEndMs: number }> {
    const smoke = await openSmokeKitchen({ process: 'cold' });
    const { kitchen, batchId } = smoke;
    const soakEndMs = smoke.readyMs;
    kitchen.clock.advance(60 * MINUTE_MS);
    const load = await openLoad(smoke);
    const inMs = kitchen.clock.nowMs();
    kitchen.clock.advance(600 * MINUTE_MS);
    const air = Array.from({ length: 601 }, () => 76);
    await takeOver(smoke, load, 'cold.csv', csvOf(inMs, { 'Probe 1': air.map(() => 70), 'Probe 2': air.map(() => 70), 'Probe 3': air.map(() => 70), Chamber: air }), true);
    const intoMs = kitchen.clock.nowMs();
    kitchen.clock.advance(8 * DAY_MS);
    await kitchen.ask('batch.mark', { batchId, what: 'into-freezer', atMs: intoMs, placeId: smoke.freezerId });
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: Array.from({ length: 33 }, (_, count) => ({ pointId: smoke.freezerId, atMs: intoMs + count * 6 * 60 * MINUTE_MS, value: { text: '-7', unit: 'F' as const }, instrumentId: smoke.handId })) });
    await kitchen.ask('batch.mark', { batchId, what: 'frozen', atMs: intoMs + DAY_MS / 2, placeId: null });
    await kitchen.ask('batch.mark', { batchId, what: 'out-of-freezer', atMs: kitchen.clock.nowMs(), placeId: null });
    await kitchen.ask('batch.decide', releaseInput(batchId));
    return { smoke, intoMs, soakEndMs };
  }

  it('comes back when its parasite freeze, met at the release, is broken by a reading that came late', async () => {
    const { smoke, intoMs } = await frozenAndReleased();
    const { kitchen, batchId } = smoke;
    const parasite = async () => (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.filter(({ question }) => question === 'parasite').map(({ verdict }) => verdict);
    expect(await parasite()).toEqual(['meets']);
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: smoke.freezerId, atMs: intoMs + 4 * DAY_MS + 7 * MINUTE_MS, value: { text: '10', unit: 'F' }, instrumentId: smoke.handId }] });
    expect(await parasite()).not.toContain('meets');
    expect((await itemsOf(smoke)).map(({ what }) => what)).toEqual(['decide-again']);
  });

  it('comes back when its freeze is no longer proven: a minute’s log shows how far apart the readings by hand were', async () => {
    const { smoke, intoMs } = await frozenAndReleased();
    const { kitchen, batchId } = smoke;
    const rows = Array.from({ length: 60 }, (_, minute) => ({ pointId: smoke.freezerId, atMs: intoMs + 4 * DAY_MS + minute * MINUTE_MS, value: { text: '-7', unit: 'F' as const }, instrumentId: smoke.handId }));
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: rows });
    const { checks } = (await kitchen.ask('batch.verdict', { batchId })).deciding;
    expect(checks.find(({ question }) => question === 'parasite')?.verdict).toBe('not-proven');
    expect((await itemsOf(smoke)).map(({ what }) => what)).toEqual(['decide-again']);
  });

  it('comes back when the room it dried in turns out too warm', async () => {
    const { smoke, soakEndMs } = await frozenAndReleased();
    await smoke.kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: smoke.roomId, atMs: soakEndMs + 30 * MINUTE_MS, value: { text: '58', unit: 'F' }, instrumentId: smoke.handId }] });
    expect((await itemsOf(smoke))[0]?.text).toContain('DRY-COLD-40');
  });
});
