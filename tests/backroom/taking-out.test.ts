import { describe, expect, it } from 'vitest';
import { MINUTE_MS, soakInput } from './fish-and-brine.ts';
import { openSharedLoad, OUT_MINUTE, takeOut, TROUT, WHITEFISH_ROUNDS, type SharedLoad } from './shared-load.ts';
import { pointId, refusal, releaseInput } from './smoke-kitchen.ts';

const upTo = (minute: number) => TROUT.filter(([at]) => at <= minute);
const shown = ({ smoke, load }: SharedLoad) => smoke.kitchen.ask('load.get', { loadId: load.id });
const checksOf = async ({ smoke }: SharedLoad, batchId: string) => (await smoke.kitchen.ask('batch.verdict', { batchId })).deciding.checks;
const verdicts = async (shared: SharedLoad, batchId: string) => Object.fromEntries((await checksOf(shared, batchId)).map(({ checkId, verdict }) => [checkId, verdict]));

/** What is said of the checks; the ids of pieces differ from book to book. */
function withoutIds(checks: Awaited<ReturnType<typeof checksOf>>): unknown {
  return JSON.parse(JSON.stringify(checks, (key, value: unknown) => (key === 'pointId' ? null : value)));
}

/** Both batches read until just after the trout is done; the clock stands at its out minute. */
async function troutDone(): Promise<SharedLoad> {
  const shared = await openSharedLoad();
  for (const piece of ['Trout 1', 'Trout 2']) await shared.read(piece, upTo(OUT_MINUTE));
  await shared.read('Whitefish', WHITEFISH_ROUNDS.filter(([minute]) => minute <= OUT_MINUTE));
  shared.at(OUT_MINUTE);
  return shared;
}

describe('a batch taken out before the rest of its load', () => {
  it('is judged as if the load had come out with it, by every check, and what stays in goes on', async () => {
    const shared = await troutDone();
    expect((await takeOut(shared, OUT_MINUTE)).ok).toBe(true);
    for (const piece of ['Trout 1', 'Trout 2']) await shared.read(piece, TROUT.filter(([minute]) => minute > OUT_MINUTE));
    const alone = await openSharedLoad(true);
    for (const piece of ['Trout 1', 'Trout 2']) await alone.read(piece, upTo(OUT_MINUTE));
    await alone.smoke.kitchen.ask('load.mark', { loadId: alone.load.id, what: 'out', atMs: alone.at(OUT_MINUTE) });
    for (const piece of ['Trout 1', 'Trout 2']) await alone.read(piece, TROUT.filter(([minute]) => minute > OUT_MINUTE));
    expect(withoutIds(await checksOf(shared, shared.troutId))).toEqual(withoutIds(await checksOf(alone, alone.troutId)));
    expect(await verdicts(shared, shared.troutId)).toMatchObject({ 'HOT-145-30': 'meets' });
    expect((await checksOf(shared, shared.troutId)).filter(({ question }) => question === 'cooling').map(({ verdict }) => verdict)).toEqual(['meets']);
    expect(await verdicts(shared, shared.whitefishId)).toMatchObject({ 'HOT-145-30': 'open' });
    const { load } = await shown(shared);
    expect(load).toMatchObject({ outAtMs: null, takenOut: [{ batchId: shared.troutId, pointId: null, atMs: shared.inMs + OUT_MINUTE * MINUTE_MS }] });
  });

  it('cools on the line and on the page: its next reading is of the cooling, and no alarm asks for its heat', async () => {
    const shared = await troutDone();
    const kinds = async () => (await shared.smoke.kitchen.ask('alarms.list', { loadId: shared.load.id })).alarms.map(({ kind, pointId: id }) => [kind, id]);
    await takeOut(shared, OUT_MINUTE);
    const trout = pointId(shared.load, 'Trout 1');
    const now = await shown(shared);
    expect(now.nextReadings.find((next) => next.pointId === trout)?.text).toContain('it has come out: read it now');
    expect(now.batches.map(({ stage }) => stage)).toEqual(['smoking', 'cooling']);
    const { bars } = await shared.smoke.kitchen.ask('line.get', {});
    const steps = bars.find((bar) => bar.batchId === shared.troutId)?.steps ?? [];
    expect(steps.map(({ kind }) => kind)).toEqual(['soak', 'dry', 'smoke', 'cool']);
    expect(steps.find(({ kind }) => kind === 'smoke')?.toMs).toBe(shared.inMs + OUT_MINUTE * MINUTE_MS);
    shared.at(OUT_MINUTE + 40);
    expect(await kinds()).toContainEqual(['round-overdue', trout]);
    for (const piece of ['Trout 1', 'Trout 2']) await shared.read(piece, TROUT.filter(([minute]) => minute > OUT_MINUTE));
    const cooled = await shown(shared);
    expect(cooled.nextReadings.filter((next) => next.pointId !== pointId(shared.load, 'Whitefish'))).toEqual([]);
    expect(cooled.needs.find((need) => need.pointId === trout)?.text).toMatch(/^cooled to 40 °F or less/);
    expect((await kinds()).filter(([, id]) => id === trout)).toEqual([]);
  });

  it('may be weighed and released while the rest still smokes, and what stays in may not', async () => {
    const shared = await troutDone();
    const { kitchen } = shared.smoke;
    const weigh = (batchId: string) => kitchen.reply('batch.weigh', { batchId, what: 'finished', mass: { text: '6', unit: 'lb' }, atMs: kitchen.clock.nowMs() });
    expect((await refusal(weigh(shared.troutId))).code).toBe('RULE_BLOCKS');
    await takeOut(shared, OUT_MINUTE);
    expect((await weigh(shared.troutId)).ok).toBe(true);
    expect((await refusal(weigh(shared.whitefishId))).code).toBe('RULE_BLOCKS');
    for (const piece of ['Trout 1', 'Trout 2']) await shared.read(piece, TROUT.filter(([minute]) => minute > OUT_MINUTE));
    const freezer = { batchId: shared.troutId, what: 'into-freezer' as const, atMs: kitchen.clock.nowMs(), placeId: shared.smoke.freezerId };
    expect((await kitchen.reply('batch.mark', freezer)).ok).toBe(true);
    expect((await refusal(kitchen.reply('batch.mark', { ...freezer, batchId: shared.whitefishId }))).message).toContain('still in the smoker');
    expect((await refusal(kitchen.reply('batch.decide', releaseInput(shared.whitefishId)))).code).toBe('RULE_BLOCKS');
  });

  it('keeps its own mark when the load comes out, which can’t be before it', async () => {
    const shared = await troutDone();
    await takeOut(shared, OUT_MINUTE);
    await shared.read('Whitefish', WHITEFISH_ROUNDS);
    const out = (minute: number) => shared.smoke.kitchen.reply('load.mark', { loadId: shared.load.id, what: 'out', atMs: shared.inMs + minute * MINUTE_MS });
    expect((await refusal(out(OUT_MINUTE - 1))).message).toContain('taking out before the rest was at');
    expect((await out(261)).ok).toBe(true);
    const steps = (await shared.smoke.kitchen.ask('line.get', {})).bars.map((bar) => bar.steps.find(({ kind }) => kind === 'smoke')?.toMs);
    expect(steps.toSorted()).toEqual([OUT_MINUTE, 261].map((minute) => shared.inMs + minute * MINUTE_MS));
    expect((await refusal(takeOut(shared, 262, { batchId: shared.whitefishId }))).message).toContain('after the rest at');
  });

  it('stopped smoking as it came out, whenever the smoke of the rest ends', async () => {
    const shared = await troutDone();
    await takeOut(shared, OUT_MINUTE);
    for (const piece of ['Trout 1', 'Trout 2']) await shared.read(piece, TROUT.filter(([minute]) => minute > OUT_MINUTE && minute <= 270));
    const before = await checksOf(shared, shared.troutId);
    await shared.smoke.kitchen.ask('load.mark', { loadId: shared.load.id, what: 'end-of-smoking', atMs: shared.at(280) });
    expect((await shown(shared)).nextReadings.map(({ text }) => text).filter((text) => text.includes('it has come out'))).toEqual([]);
    expect(await checksOf(shared, shared.troutId)).toEqual(before);
  });

  it('has the lot code of the day it came out, also where the rest comes out on another', async () => {
    const shared = await troutDone();
    const codes = async () => (await shown(shared)).batches.map((batch) => batch.lotCode?.slice(2, 7));
    const [before] = await codes();
    const midnight = 14 * 60;
    shared.at(midnight);
    await takeOut(shared, OUT_MINUTE);
    expect(await codes()).toEqual([before, before]);
    await shared.smoke.kitchen.ask('load.mark', { loadId: shared.load.id, what: 'out', atMs: shared.at(midnight) });
    const [rest, trout] = await codes();
    expect(trout).toBe(before);
    expect(Number(rest)).toBe(Number(before) + 1);
  });
});

describe('taking out early', () => {
  it('is in the record by name, with the reason and both times', async () => {
    const shared = await troutDone();
    shared.at(OUT_MINUTE + 20);
    shared.smoke.kitchen.announced();
    await takeOut(shared, OUT_MINUTE);
    expect(shared.smoke.kitchen.announced()).toEqual([{ subject: 'load', ids: [shared.load.id] }, { subject: 'batch', ids: [shared.troutId] }, { subject: 'verdict', ids: [shared.troutId] }]);
    const { entries } = await shared.smoke.kitchen.ask('record.batch', { batchId: shared.troutId });
    expect(entries.at(-1)).toMatchObject({
      kind: 'load.takeOut', person: 'CH', why: 'Done before the rest.', happenedAtMs: shared.inMs + OUT_MINUTE * MINUTE_MS,
      enteredAtMs: shared.inMs + (OUT_MINUTE + 20) * MINUTE_MS, summary: expect.stringMatching(/ came out of load 1 at \d\d:\d\d on .*, before the rest\.$/),
    });
  });

  it('is refused before the load is in, of the last fish, twice, out of order, and of what is in another load', async () => {
    const shared = await troutDone();
    const message = async (asked: ReturnType<typeof takeOut>) => (await refusal(asked)).message;
    expect(await message(takeOut(shared, -1))).toContain('going in was at');
    expect(await message(takeOut(shared, OUT_MINUTE + 6))).toContain('is still to come');
    expect(await message(takeOut(shared, OUT_MINUTE, { pointName: 'Whitefish' }))).toContain('That piece is not of');
    expect((await takeOut(shared, OUT_MINUTE)).ok).toBe(true);
    expect(await message(takeOut(shared, OUT_MINUTE))).toContain('that is marked already');
    expect(await message(takeOut(shared, OUT_MINUTE, { batchId: shared.whitefishId }))).toContain('is the last fish in load 1');
    const { kitchen } = shared.smoke;
    const other = await kitchen.ask('batch.list', {});
    const lotId = other.batches[0]?.lotIds[0] ?? '';
    const { batch } = await kitchen.ask('batch.make', { recipeId: 'plain-brine', lotIds: [lotId], fillets: { text: '1', unit: 'lb' }, thickestMm: 20, skin: 'on', process: 'hot', pack: 'vacuum', store: 'frozen' });
    await kitchen.ask('soak.log', soakInput(batch.id, 'start', kitchen.clock.nowMs()));
    expect(await message(takeOut(shared, OUT_MINUTE, { batchId: batch.id }))).toContain('is not in load 1');
  });

  it('goes piece by piece too: one piece cools while its batch goes on, and with the last the batch is out', async () => {
    const shared = await troutDone();
    expect((await takeOut(shared, OUT_MINUTE, { pointName: 'Trout 1' })).ok).toBe(true);
    const { batches, nextReadings } = await shown(shared);
    expect(batches.map(({ stage }) => stage)).toEqual(['smoking', 'smoking']);
    expect(nextReadings.filter((next) => next.text.includes('it has come out')).map(({ pointId: id }) => id)).toEqual([pointId(shared.load, 'Trout 1')]);
    shared.at(OUT_MINUTE + 5);
    expect((await takeOut(shared, OUT_MINUTE + 5, { pointName: 'Trout 2' })).ok).toBe(true);
    const { load, batches: after } = await shown(shared);
    expect(after.map(({ stage }) => stage)).toEqual(['smoking', 'cooling']);
    expect(load.takenOut?.filter((one) => one.pointId === null)).toEqual([{ batchId: shared.troutId, pointId: null, atMs: shared.inMs + (OUT_MINUTE + 5) * MINUTE_MS }]);
  });

  it('is taken back for a piece alone: its batch stays out where that was marked for all of it, and is in again where its last piece took it out', async () => {
    const shared = await troutDone();
    const marks = async () => ((await shown(shared)).load.takenOut ?? []).map(({ pointId: id, atMs }) => [id, (atMs - shared.inMs) / MINUTE_MS]);
    const [one, two] = ['Trout 1', 'Trout 2'].map((name) => pointId(shared.load, name));
    const take = async (minute: number | null, pointName?: string) => expect((await takeOut(shared, minute, pointName === undefined ? {} : { pointName })).ok).toBe(true);
    await take(OUT_MINUTE - 5, 'Trout 1');
    await take(OUT_MINUTE);
    await take(null, 'Trout 1');
    expect(await marks()).toEqual([[null, OUT_MINUTE]]);
    await take(null);
    expect(await marks()).toEqual([]);
    await take(OUT_MINUTE - 5, 'Trout 1');
    await take(OUT_MINUTE, 'Trout 2');
    expect(await marks()).toEqual([[one, OUT_MINUTE - 5], [two, OUT_MINUTE], [null, OUT_MINUTE]]);
    await take(null, 'Trout 1');
    expect(await marks()).toEqual([[two, OUT_MINUTE]]);
    await take(OUT_MINUTE - 5, 'Trout 1');
    await take(null);
    expect(await marks()).toEqual([]);
  });

  it('is taken back with a reason, and both stay in the record', async () => {
    const shared = await troutDone();
    const before = await checksOf(shared, shared.troutId);
    expect((await refusal(takeOut(shared, null))).message).toContain('has no mark of its own');
    await takeOut(shared, OUT_MINUTE);
    expect(await checksOf(shared, shared.troutId)).not.toEqual(before);
    expect((await takeOut(shared, null)).ok).toBe(true);
    expect(await checksOf(shared, shared.troutId)).toEqual(before);
    expect((await shown(shared)).load).not.toHaveProperty('takenOut');
    const { entries } = await shared.smoke.kitchen.ask('record.batch', { batchId: shared.troutId });
    expect(entries.filter(({ kind }) => kind === 'load.takeOut')).toHaveLength(2);
    expect(entries.at(-1)?.summary).toContain('the mark was wrong');
  });
});
