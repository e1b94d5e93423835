import { describe, expect, it } from 'vitest';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, smokeAndCool } from './smoke-kitchen.ts';

describe('sheets for paper', () => {
  it('are numbered through the book, whatever they are for, by name and in the record', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const number = async (kind: 'soak' | 'smoke' | 'cool' | 'store', subjectId: string) => (await smoke.kitchen.ask('paperSheet.number', { kind, subjectId }, 'HA')).sheet;
    expect((await number('soak', smoke.batchId)).number).toBe(1);
    expect((await number('smoke', load.id)).number).toBe(2);
    expect(await number('store', smoke.freezerId)).toMatchObject({ number: 3, initials: 'HA', madeAtMs: smoke.kitchen.clock.nowMs() });
    expect((await number('cool', load.id)).number).toBe(4);
    expect((await smoke.kitchen.ask('paperSheet.list', { subjectId: load.id })).sheets.map((sheet) => [sheet.number, sheet.kind])).toEqual([[2, 'smoke'], [4, 'cool']]);
    const { entries } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.filter((entry) => entry.kind === 'paperSheet.number').map((entry) => entry.summary)).toEqual([
      expect.stringMatching(/^Sheet 1 for paper: soak, /), `Sheet 2 for paper: smoke, load ${load.number}.`, `Sheet 4 for paper: cool, load ${load.number}.`,
    ]);
  });

  it('are refused for what isn’t there and for a record that is closed', async () => {
    const smoke = await openSmokeKitchen();
    const { load } = await smokeAndCool(smoke);
    expect(await refusal(smoke.kitchen.reply('paperSheet.number', { kind: 'cool', subjectId: load.id }))).toMatchObject({ code: 'RULE_BLOCKS' });
    expect(await refusal(smoke.kitchen.reply('paperSheet.number', { kind: 'store', subjectId: load.id }))).toMatchObject({ code: 'NOT_FOUND' });
    expect(await refusal(smoke.kitchen.reply('paperSheet.number', { kind: 'soak', subjectId: smoke.batchId }, null))).toMatchObject({ code: 'NOT_ALLOWED' });
  });

  it('are named by the readings copied from them, with both times', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const { sheet } = await smoke.kitchen.ask('paperSheet.number', { kind: 'smoke', subjectId: load.id });
    const readMs = smoke.kitchen.clock.nowMs() + MINUTE_MS;
    smoke.kitchen.clock.advance(2 * HOUR_MS);
    const enter = (point: string, number?: string) => smoke.kitchen.reply('readings.enter', {
      how: 'copied-from-paper', ...(number === undefined ? {} : { sheet: number }), readings: [{ pointId: point, atMs: readMs, value: { text: '101', unit: 'F' }, instrumentId: null }],
    });
    expect((await enter(pointId(load, 'Tail'), String(sheet.number))).ok).toBe(true);
    const { entries } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.at(-1)).toMatchObject({ summary: 'Copied from sheet 1: Tail 101 °F.', happenedAtMs: readMs, enteredAtMs: smoke.kitchen.clock.nowMs() });
    expect(await refusal(enter(pointId(load, 'Tail'), '7'))).toMatchObject({ code: 'INVALID_INPUT', message: 'No sheet of this book has the number 7.' });
    expect((await refusal(enter(smoke.freezerId, '1'))).message).toContain('Sheet 1 is not for Chest freezer');
    expect((await enter(smoke.freezerId)).ok).toBe(true);
  });

  it('are each for what they were printed for: a smoke sheet has the chamber, a cooling sheet has not, a soak sheet has its room', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const number = async (kind: 'soak' | 'smoke' | 'cool' | 'store', subjectId: string) => String((await smoke.kitchen.ask('paperSheet.number', { kind, subjectId })).sheet.number);
    const sheets = { soak: await number('soak', smoke.batchId), smoke: await number('smoke', load.id), cool: await number('cool', load.id), store: await number('store', smoke.coolerId) };
    const points = { piece: pointId(load, 'Tail'), chamber: pointId(load, 'Chamber'), room: smoke.roomId, cooler: smoke.coolerId };
    smoke.kitchen.clock.advance(MINUTE_MS);
    const takes = async (sheet: string, point: string) => (await smoke.kitchen.reply('readings.enter', {
      how: 'copied-from-paper', sheet, readings: [{ pointId: point, atMs: smoke.kitchen.clock.nowMs(), value: { text: '38', unit: 'F' }, instrumentId: null }],
    })).ok;
    const found: Record<string, string[]> = {};
    for (const [kind, sheet] of Object.entries(sheets)) {
      found[kind] = [];
      for (const [name, point] of Object.entries(points)) if (await takes(sheet, point)) found[kind]?.push(name);
    }
    expect(found).toEqual({ soak: ['room'], smoke: ['piece', 'chamber'], cool: ['piece'], store: ['cooler'] });
  });
});

describe('a soak copied from paper', () => {
  /** A soak that began two hours ago, and its sheet. */
  async function soakSheet() {
    const smoke = await openSmokeKitchen();
    const { kitchen } = smoke;
    const lot = await receive(kitchen);
    const { id } = await makeBatch(kitchen, [lot.id]);
    const startMs = kitchen.clock.nowMs();
    const { sheet } = await kitchen.ask('paperSheet.number', { kind: 'soak', subjectId: id });
    kitchen.clock.advance(2 * HOUR_MS);
    const log = (what: 'start' | 'turn' | 'end', minute: number, more = {}) => kitchen.reply('soak.log', soakInput(id, what, startMs + minute * MINUTE_MS, { fromPaper: true, sheet: String(sheet.number), ...more }));
    return { smoke, kitchen, batchId: id, startMs, sheet, log };
  }

  it('keeps the number of the sheet and both times of every step, and the reason of its checks says so', async () => {
    const { kitchen, batchId, startMs, log } = await soakSheet();
    expect((await log('start', 0)).ok).toBe(true);
    expect((await log('turn', 60)).ok).toBe(true);
    const { batch } = await kitchen.ask('batch.get', { batchId });
    expect(batch.soak).toMatchObject([0, 60].map((minute) => ({ atMs: startMs + minute * MINUTE_MS, enteredAtMs: kitchen.clock.nowMs(), fromPaper: true, sheet: '1' })));
    const { entries } = await kitchen.ask('record.batch', { batchId });
    expect(entries.filter(({ kind }) => kind.startsWith('soak.')).map(({ summary }) => summary)).toEqual([expect.stringMatching(/copied from sheet 1\.$/), expect.stringMatching(/copied from sheet 1\.$/)]);
    const { deciding } = await kitchen.ask('batch.verdict', { batchId });
    expect(deciding.checks.find(({ checkId }) => checkId === 'BRINE-START-60')).toMatchObject({ verdict: 'meets', reason: expect.stringContaining('copied from paper') });
  });

  it('is refused a second time, by another sheet’s number, and with a number but no paper', async () => {
    const { smoke, kitchen, batchId, log } = await soakSheet();
    const other = await kitchen.ask('paperSheet.number', { kind: 'soak', subjectId: smoke.batchId });
    expect((await refusal(log('start', 0, { sheet: String(other.sheet.number) }))).message).toMatch(/^Sheet 2 is not for the soak of /);
    expect((await refusal(log('start', 0, { sheet: '9' }))).message).toBe('No sheet of this book has the number 9.');
    expect((await refusal(log('start', 0, { fromPaper: false }))).fields?.[0]?.path).toEqual(['sheet']);
    await log('start', 0);
    expect(await refusal(log('start', 0))).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('that is logged already') });
    await log('turn', 60);
    expect(await refusal(log('turn', 60))).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('is logged already') });
    expect((await kitchen.ask('batch.get', { batchId })).batch.soak).toHaveLength(2);
  });

  it('takes its samples from the same sheet, each once', async () => {
    const { kitchen, batchId, startMs, log } = await soakSheet();
    await log('start', 0);
    const sample = (more = {}) => kitchen.reply('soak.sample', { batchId, takenAtMs: startMs + HOUR_MS, thicknessMm: 20, saltPercent: '2.1', moisturePercent: '70', how: 'titration', fromPaper: true, sheet: '01', ...more });
    expect(await sample()).toMatchObject({ ok: true, value: { samples: [{ takenAtMs: startMs + HOUR_MS, enteredAtMs: kitchen.clock.nowMs(), fromPaper: true, sheet: '1' }] } });
    expect(await refusal(sample())).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('is in the book already') });
    expect((await sample({ thicknessMm: 22, fromPaper: true, sheet: undefined })).ok).toBe(true);
    const { entries } = await kitchen.ask('record.batch', { batchId });
    expect(entries.filter(({ kind }) => kind === 'soak.sample').map(({ summary }) => /, copied from (\w+ ?\w*)/.exec(summary)?.[1])).toEqual(['sheet 1', 'paper']);
  });
});
