import { describe, expect, it } from 'vitest';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';

/** A kitchen whose batch went into the dill and lemon brine (12 hours, turns after 2 and 6) so many hours ago. */
async function soakingKitchen(hoursAgo: number): Promise<{ kitchen: TestKitchen; batchId: string; startMs: number; nowMs: number }> {
  const kitchen = await openTestKitchen();
  const lot = await receive(kitchen);
  const batch = await makeBatch(kitchen, [lot.id], { recipeId: 'dill-lemon-brine' });
  const startMs = kitchen.clock.nowMs();
  await kitchen.ask('soak.log', soakInput(batch.id, 'start', startMs));
  kitchen.clock.advance(hoursAgo * HOUR_MS);
  return { kitchen, batchId: batch.id, startMs, nowMs: kitchen.clock.nowMs() };
}

describe('the line', () => {
  it('shows 72 hours, from 12 back to 60 ahead', async () => {
    const kitchen = await openTestKitchen();
    const nowMs = kitchen.clock.nowMs();
    expect(await kitchen.ask('line.get', {})).toEqual({ nowMs, fromMs: nowMs - 12 * HOUR_MS, toMs: nowMs + 60 * HOUR_MS, bars: [] });
  });

  it('has a batch from the moment it is made', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const batch = await makeBatch(kitchen, [lot.id]);
    expect((await kitchen.ask('line.get', {})).bars).toEqual([{ batchId: batch.id, name: 'WF 329 Lake whitefish', steps: [], turns: [], dues: [] }]);
  });

  it('draws a running soak up to now, and on to its planned end', async () => {
    const { kitchen, startMs, nowMs } = await soakingKitchen(3);
    const [bar] = (await kitchen.ask('line.get', {})).bars;
    expect(bar?.steps).toEqual([
      { kind: 'soak', fromMs: startMs, toMs: nowMs, planned: false },
      { kind: 'soak', fromMs: nowMs, toMs: startMs + 12 * HOUR_MS, planned: true },
    ]);
  });

  it('says which turns and which end are due, and which are overdue', async () => {
    const { kitchen, startMs } = await soakingKitchen(3);
    const [bar] = (await kitchen.ask('line.get', {})).bars;
    expect(bar?.turns).toEqual([{ atMs: startMs + 2 * HOUR_MS, done: false }, { atMs: startMs + 6 * HOUR_MS, done: false }]);
    expect(bar?.dues).toEqual([
      { atMs: startMs + 2 * HOUR_MS, text: 'Turn WF 329 in its brine', overdue: true, what: 'turn' },
      { atMs: startMs + 6 * HOUR_MS, text: 'Turn WF 329 in its brine', overdue: false, what: 'turn' },
      { atMs: startMs + 12 * HOUR_MS, text: 'Take WF 329 out of the brine', overdue: false, what: 'end' },
    ]);
  });

  it('shows a turn that was done at the time it was done', async () => {
    const { kitchen, batchId, startMs } = await soakingKitchen(3);
    await kitchen.ask('soak.log', soakInput(batchId, 'turn', startMs + 130 * MINUTE_MS));
    const [bar] = (await kitchen.ask('line.get', {})).bars;
    expect(bar?.turns).toEqual([{ atMs: startMs + 130 * MINUTE_MS, done: true }, { atMs: startMs + 6 * HOUR_MS, done: false }]);
    expect(bar?.dues.map((due) => due.overdue)).toEqual([false, false]);
  });

  it('plans nothing of a soak that is overdue, and says so', async () => {
    const { kitchen, startMs, nowMs } = await soakingKitchen(13);
    const [bar] = (await kitchen.ask('line.get', {})).bars;
    expect(bar?.steps).toEqual([{ kind: 'soak', fromMs: startMs, toMs: nowMs, planned: false }]);
    expect(bar?.dues.at(-1)).toEqual({ atMs: startMs + 12 * HOUR_MS, text: 'Take WF 329 out of the brine', overdue: true, what: 'end' });
  });

  it('goes on drying after the soak, with nothing due of it', async () => {
    const { kitchen, batchId, startMs, nowMs } = await soakingKitchen(13);
    await kitchen.ask('soak.log', soakInput(batchId, 'end', startMs + 12 * HOUR_MS));
    const [bar] = (await kitchen.ask('line.get', {})).bars;
    expect(bar).toMatchObject({
      steps: [{ kind: 'soak', fromMs: startMs, toMs: startMs + 12 * HOUR_MS, planned: false }, { kind: 'dry', fromMs: startMs + 12 * HOUR_MS, toMs: nowMs, planned: false }],
      turns: [], dues: [],
    });
  });
});

/** A kitchen whose batch went into the smoker now, with one piece on a probe of its own. */
async function smokingKitchen(): Promise<{ kitchen: TestKitchen; batchId: string; loadId: string; pieceId: string; inMs: number }> {
  const { kitchen, batchId, startMs } = await soakingKitchen(12);
  await kitchen.ask('soak.log', soakInput(batchId, 'end', startMs + 11 * HOUR_MS));
  const smoker = await kitchen.ask('office.addSmoker', { name: 'Smoker', chamberInstrumentId: null, probeIds: [] });
  const { load } = await kitchen.ask('load.open', {
    smokerId: smoker.id, batchIds: [batchId], chamberInstrumentId: null,
    pieces: [{ name: 'Thickest', batchId, thicknessMm: 25, rackPlace: '', instrumentId: null }],
  });
  const inMs = kitchen.clock.nowMs();
  await kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
  return { kitchen, batchId, loadId: load.id, pieceId: load.points[0]?.id ?? '', inMs };
}

async function readNow(kitchen: TestKitchen, pointId: string, text: string): Promise<void> {
  await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId, atMs: kitchen.clock.nowMs(), value: { text, unit: 'F' }, instrumentId: null }] });
}

describe('a load on the line', () => {
  it('has its batch by name, smoking since it went in, with the next reading due', async () => {
    const { kitchen, pieceId, inMs } = await smokingKitchen();
    kitchen.clock.advance(170 * MINUTE_MS);
    await readNow(kitchen, pieceId, '138');
    kitchen.clock.advance(10 * MINUTE_MS);
    await readNow(kitchen, pieceId, '146');
    kitchen.clock.advance(4 * MINUTE_MS);
    const [bar] = (await kitchen.ask('line.get', {})).bars;
    expect(bar?.name).toBe('WF 329 Lake whitefish');
    expect(bar?.steps.at(-1)).toEqual({ kind: 'smoke', fromMs: inMs, toMs: kitchen.clock.nowMs(), planned: false });
    const due = bar?.dues.find((one) => one.text.includes('Thickest'));
    expect(due).toMatchObject({ atMs: inMs + 3 * HOUR_MS + 10 * MINUTE_MS, overdue: false });
  });

  it('says that a reading is overdue', async () => {
    const { kitchen, pieceId } = await smokingKitchen();
    kitchen.clock.advance(3 * HOUR_MS);
    await readNow(kitchen, pieceId, '146');
    kitchen.clock.advance(11 * MINUTE_MS);
    const [bar] = (await kitchen.ask('line.get', {})).bars;
    expect(bar?.dues.find((one) => one.text.includes('Thickest'))?.overdue).toBe(true);
  });

  it('goes on cooling until it is marked cooled, and asks nothing more then', async () => {
    const { kitchen, loadId, inMs } = await smokingKitchen();
    const outMs = inMs + 5 * HOUR_MS;
    kitchen.clock.set(outMs + HOUR_MS);
    await kitchen.ask('load.mark', { loadId, what: 'out', atMs: outMs });
    const cooling = (await kitchen.ask('line.get', {})).bars[0];
    expect(cooling?.steps.at(-1)).toEqual({ kind: 'cool', fromMs: outMs, toMs: outMs + HOUR_MS, planned: false });
    await kitchen.ask('load.mark', { loadId, what: 'cooled', atMs: outMs + HOUR_MS });
    expect((await kitchen.ask('line.get', {})).bars[0]?.dues).toEqual([]);
  });

  it('leaves the line twelve hours after its last step, and at once when it is rejected', async () => {
    const { kitchen, batchId, loadId, inMs } = await smokingKitchen();
    const outMs = inMs + 5 * HOUR_MS;
    kitchen.clock.set(outMs + HOUR_MS);
    await kitchen.ask('load.mark', { loadId, what: 'out', atMs: outMs });
    await kitchen.ask('load.mark', { loadId, what: 'cooled', atMs: outMs + HOUR_MS });
    kitchen.clock.advance(12 * HOUR_MS);
    expect((await kitchen.ask('line.get', {})).bars).toHaveLength(1);
    kitchen.clock.advance(1);
    expect((await kitchen.ask('line.get', {})).bars).toEqual([]);
    kitchen.clock.advance(-HOUR_MS);
    await kitchen.ask('batch.decide', { batchId, decision: 'reject', reason: 'Fell on the floor.', pack: 'vacuum', store: 'frozen', keptWhere: '', initialsForError: false });
    expect((await kitchen.ask('line.get', {})).bars).toEqual([]);
  });
});
