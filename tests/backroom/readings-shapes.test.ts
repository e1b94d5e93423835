import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { rememberedPoints, type NamedPoint } from '../../main/backroom/services/column-names.ts';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, smokeColumns, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf } from './smoke-log.ts';
import type { TestKitchen } from '../support/test-kitchen.ts';

type Load = Awaited<ReturnType<typeof openLoad>>;

async function runningLoad(): Promise<{ smoke: SmokeKitchen; load: Load; inMs: number }> {
  const smoke = await openSmokeKitchen();
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  smoke.kitchen.clock.set(inMs + 12 * 60 * MINUTE_MS);
  return { smoke, load, inMs };
}

/** What the book's record keeps of the last import; the book is closed for it. */
async function lastImport(kitchen: TestKitchen): Promise<unknown> {
  await kitchen.close();
  const database = new Database(kitchen.file, { readonly: true });
  const row = database.prepare<[], { after_json: string }>("SELECT after_json FROM entries WHERE kind = 'readings.import' ORDER BY sequence DESC LIMIT 1").get();
  database.close();
  return JSON.parse(row?.after_json ?? 'null');
}

/** A logger's file with days that can be read both ways, no unit and no zone. */
function vagueFile(day: string, firstHour: number, tenths = 0): string {
  const rows = Array.from({ length: 40 }, (_, index) => `${day} ${String(firstHour).padStart(2, '0')}:${String(index).padStart(2, '0')},${(60 + index / 2 + tenths / 10).toFixed(1)},${120 + index}.0`);
  return `When,Left,Right\n${rows.join('\n')}\n`;
}

describe('a file of a shape that was taken over before', () => {
  it('is read as that one was, said by name, and its columns go to the same thermometers', async () => {
    const { smoke, load } = await runningLoad();
    const { kitchen } = smoke;
    const first = await kitchen.takeFile('first.csv', vagueFile('11/10/2026', 4));
    const open = await kitchen.ask('readings.preview', { fileId: first, answers: {}, loadId: load.id, asBefore: true });
    expect(open.before).toBeUndefined();
    expect(open.questions.map(({ id }) => id)).toEqual(['dateOrder', 'unit']);
    const answers = { dateOrder: 'month-first', unit: 'F' };
    const columns = [{ name: 'Left', pointId: pointId(load, 'Centre cut') }, { name: 'Right', pointId: pointId(load, 'Chamber') }];
    await kitchen.ask('readings.import', { fileId: first, answers, columns, coversInToOut: false, loadId: load.id });

    const second = await kitchen.takeFile('second.csv', vagueFile('11/12/2026', 5, 3));
    const again = await kitchen.ask('readings.preview', { fileId: second, answers: {}, loadId: load.id, asBefore: true });
    expect(again).toMatchObject({ before: { fileName: 'first.csv', takenAtMs: kitchen.clock.nowMs() }, answers, questions: [] });
    expect(again.places.map(({ likelyPointId }) => likelyPointId)).toEqual(columns.map((column) => column.pointId));
    expect(again.places[0]?.firstAtMs).toBe(Date.UTC(2026, 10, 12, 11));
  });

  it('is read by what is answered now where that differs, and asked afresh when that is wished', async () => {
    const { smoke, load } = await runningLoad();
    const { kitchen } = smoke;
    const columns = [{ name: 'Left', pointId: pointId(load, 'Centre cut') }];
    const first = await kitchen.takeFile('first.csv', vagueFile('11/10/2026', 4));
    await kitchen.ask('readings.import', { fileId: first, answers: { dateOrder: 'month-first', unit: 'F' }, columns, coversInToOut: false, loadId: load.id });
    const second = await kitchen.takeFile('second.csv', vagueFile('11/12/2026', 5));
    const other = await kitchen.ask('readings.preview', { fileId: second, answers: { unit: 'C' }, loadId: load.id, asBefore: true });
    expect(other.answers).toEqual({ dateOrder: 'month-first', unit: 'C' });
    expect(other.places[0]?.unit).toBe('C');
    const fresh = await kitchen.ask('readings.preview', { fileId: second, answers: {}, loadId: load.id });
    expect(fresh.questions.map(({ id }) => id)).toEqual(['dateOrder', 'unit']);
    expect(fresh).not.toHaveProperty('before');
  });

  it('keeps no start and no side of a clock change for the next', async () => {
    const { smoke, load, inMs } = await runningLoad();
    const { kitchen } = smoke;
    const elapsed = `Elapsed (s),Left (F)\n${Array.from({ length: 30 }, (_, index) => `${index * 60},${60 + index}.5`).join('\n')}\n`;
    const columns = [{ name: 'Left', pointId: pointId(load, 'Centre cut') }];
    const fileId = await kitchen.takeFile('a.csv', elapsed);
    await kitchen.ask('readings.import', { fileId, answers: { start: new Date(inMs).toISOString() }, columns, coversInToOut: false, loadId: load.id });
    const next = await kitchen.takeFile('b.csv', elapsed.replace('60.5', '60.6'));
    const preview = await kitchen.ask('readings.preview', { fileId: next, answers: {}, loadId: load.id, asBefore: true });
    expect(preview.before?.fileName).toBe('a.csv');
    expect(preview.questions.map(({ id }) => id)).toEqual(['start']);
  });

  it('is another shape with another delimiter, other headings or other kinds of columns, and the same with other values', async () => {
    const { smoke, load } = await runningLoad();
    const { kitchen } = smoke;
    const file = vagueFile('11/10/2026', 4);
    const fileId = await kitchen.takeFile('first.csv', file);
    await kitchen.ask('readings.import', { fileId, answers: { dateOrder: 'month-first', unit: 'F' }, columns: [{ name: 'Left', pointId: pointId(load, 'Tail') }], coversInToOut: false, loadId: load.id });
    const isKnown = async (text: string): Promise<boolean> => {
      const asked = await kitchen.ask('readings.preview', { fileId: await kitchen.takeFile('next.csv', text), answers: {}, loadId: load.id, asBefore: true });
      return asked.before !== undefined;
    };
    expect(await isKnown(file.replaceAll('60.', '61.').split('\n').slice(0, 20).join('\n'))).toBe(true);
    expect(await isKnown(file.replaceAll(',', ';'))).toBe(false);
    expect(await isKnown(file.replace('Left', 'Links'))).toBe(false);
    expect(await isKnown(file.replaceAll(/\d+\.0$/gm, 'ok'))).toBe(false);
  });
});

describe('a file that is in the book already', () => {
  it('is said to be, whole or in part, before it is taken over', async () => {
    const { smoke, load, inMs } = await runningLoad();
    const { kitchen } = smoke;
    const csv = csvOf(inMs, smokeColumns());
    const lines = csv.split('\n');
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }, { name: 'Chamber', pointId: pointId(load, 'Chamber') }];
    const half = await kitchen.takeFile('half.csv', `${lines.slice(0, 101).join('\n')}\n`);
    expect((await kitchen.ask('readings.preview', { fileId: half, answers: {}, loadId: load.id, columns })).already).toEqual({ there: 0, all: 200 });
    await kitchen.ask('readings.import', { fileId: half, answers: {}, columns, coversInToOut: false, loadId: load.id });
    expect((await kitchen.ask('readings.preview', { fileId: half, answers: {}, loadId: load.id, columns })).already).toEqual({ there: 200, all: 200 });
    const whole = await kitchen.takeFile('whole.csv', csv);
    expect((await kitchen.ask('readings.preview', { fileId: whole, answers: {}, loadId: load.id, columns })).already).toEqual({ there: 200, all: 2 * 361 });
    expect(await kitchen.ask('readings.import', { fileId: whole, answers: {}, columns, coversInToOut: false, loadId: load.id })).toEqual({ kept: 2 * 261, refused: 0, alreadyThere: 200 });
  });
});

describe('rows that could not be read', () => {
  it('are kept with the import, each with its line and reason', async () => {
    const { smoke, load, inMs } = await runningLoad();
    const { kitchen } = smoke;
    const lines = csvOf(inMs, smokeColumns()).split('\n');
    lines.splice(5, 0, 'power fail,,,,', `${new Date(inMs).toISOString()},hot,1,1,1`);
    const fileId = await kitchen.takeFile('spoilt.csv', lines.join('\n'));
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }];
    expect(await kitchen.ask('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId: load.id })).toMatchObject({ refused: 2 });
    expect(await lastImport(kitchen)).toMatchObject({
      refused: 2, refusedRows: [
        { line: 6, reason: '“power fail” in the column “Time” is not a date with a clock time.' },
        { line: 7, reason: '“hot” in the column “Probe 1 (°F)” is not a number.' },
      ],
    });
  });
});

describe('the clock of a logger', () => {
  it('moves every reading by the difference to the kitchen’s, and both are on record', async () => {
    const { smoke, load, inMs } = await runningLoad();
    const { kitchen } = smoke;
    const fileId = await kitchen.takeFile('slow.csv', csvOf(inMs, smokeColumns()));
    const atMs = kitchen.clock.nowMs();
    const loggerClock = { showsMs: atMs - 7 * MINUTE_MS, atMs };
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }];
    const moved = await kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id, columns, loggerClock });
    expect(moved.places[0]).toMatchObject({ firstAtMs: inMs + 7 * MINUTE_MS, count: 361 });
    await kitchen.ask('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId: load.id, loggerClock });
    expect((await kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id, columns, loggerClock })).already).toEqual({ there: 361, all: 361 });
    const { entries } = await kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.find(({ kind }) => kind === 'readings.import')?.summary).toBe('Took over 361 readings of Thick end from slow.csv, moved 7 min later by the logger’s clock.');
    expect(await lastImport(kitchen)).toMatchObject({ loggerClock: { ...loggerClock, movedMs: 7 * MINUTE_MS } });
  });

  it('leaves the readings as they are when nobody looked at it', async () => {
    const { smoke, load, inMs } = await runningLoad();
    const { kitchen } = smoke;
    const fileId = await kitchen.takeFile('plain.csv', csvOf(inMs, smokeColumns()));
    await kitchen.ask('readings.import', { fileId, answers: {}, columns: [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }], coversInToOut: false, loadId: load.id });
    expect(await lastImport(kitchen)).not.toHaveProperty('loggerClock');
  });

  it('is refused for a file whose times count from a start that was told, and in the future', async () => {
    const { smoke, load, inMs } = await runningLoad();
    const { kitchen } = smoke;
    const columns = [{ name: 'Left', pointId: pointId(load, 'Tail') }];
    const nowMs = kitchen.clock.nowMs();
    const elapsed = await kitchen.takeFile('e.csv', `Elapsed (s),Left (F)\n0,60.1\n60,60.2\n120,60.3\n`);
    const counted = { fileId: elapsed, answers: { start: new Date(inMs).toISOString() }, columns, coversInToOut: false, loadId: load.id };
    expect((await refusal(kitchen.reply('readings.import', { ...counted, loggerClock: { showsMs: nowMs, atMs: nowMs } }))).fields?.[0]?.path).toEqual(['loggerClock']);
    expect((await refusal(kitchen.reply('readings.import', { ...counted, loggerClock: { showsMs: nowMs, atMs: nowMs + 60 * MINUTE_MS } }))).message).toContain('is still to come');
  });

  it('does not put one file into the book twice at different times, unless somebody says why', async () => {
    const { smoke, load, inMs } = await runningLoad();
    const { kitchen } = smoke;
    const fileId = await kitchen.takeFile('twice.csv', csvOf(inMs, smokeColumns()));
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }];
    const input = { fileId, answers: {}, columns, coversInToOut: false, loadId: load.id };
    await kitchen.ask('readings.import', input);
    const loggerClock = { showsMs: kitchen.clock.nowMs() + 60_000, atMs: kitchen.clock.nowMs() };
    const preview = await kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id, columns, loggerClock });
    expect(preview.otherTimes).toEqual({ takenAtMs: kitchen.clock.nowMs(), firstAtMs: inMs });
    const error = await refusal(kitchen.reply('readings.import', { ...input, loggerClock }));
    expect(error.message).toContain('with other times each would be there twice');
    expect(error.fields?.[0]?.path).toEqual(['whyAgain']);
    expect(await kitchen.ask('readings.import', { ...input, loggerClock, whyAgain: 'The first was left out: its clock was wrong.' })).toMatchObject({ kept: 314, alreadyThere: 47 });
    const { entries } = await kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.filter(({ kind }) => kind === 'readings.import').map(({ why }) => why)).toContain('The first was left out: its clock was wrong.');
  });
});

describe('the points that columns went to before', () => {
  const point = (id: string, name: string, role: string, instrumentName: string): NamedPoint => ({ id, name, role, instrumentName });
  const before = [
    { name: 'A', role: 'piece', pointName: 'Thick end', instrumentName: 'Probe 3' },
    { name: 'B', role: 'chamber', pointName: 'Chamber', instrumentName: '' },
    { name: 'C', role: 'store', pointName: 'Walk-in cooler', instrumentName: '' },
  ];
  it('are found by the thermometer, the chamber, or the name', () => {
    const points = [point('1', 'Top', 'piece', 'Probe 1'), point('3', 'Low', 'piece', 'Probe 3'), point('c', 'Smoke chamber', 'chamber', 'X'), point('w', 'Walk-in cooler', 'place', '')];
    expect(rememberedPoints(['A', 'B', 'C', 'D'], points, before)).toEqual(['3', 'c', 'w', null]);
  });
  it('are no points twice, and none where two would fit', () => {
    expect(rememberedPoints(['A', 'A'], [point('3', 'Low', 'piece', 'Probe 3')], before)).toEqual(['3', null]);
    expect(rememberedPoints(['B'], [point('c', 'One', 'chamber', ''), point('d', 'Two', 'chamber', '')], before)).toEqual([null]);
  });
});
