import { describe, expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
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
});
