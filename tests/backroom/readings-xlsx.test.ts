import { describe, expect, it } from 'vitest';
import { openLoad, openSmokeKitchen, pointId, refusal } from './smoke-kitchen.ts';
import { readLogFile } from '../../main/backroom/hands/log-file.ts';
import { workbookOf, zipOf, type SheetRows, type SheetValue } from './xlsx-file.ts';

const HEADINGS: readonly SheetValue[] = ['When', 'Probe 1 (°F)', 'Chamber (°F)'];
/** 14 July 2026 is day 46 217 of spreadsheets. */
const ROWS: SheetRows = [
  HEADINGS,
  [{ serial: '46217.25' }, { number: '62.799999999999997' }, { number: '180' }],
  [{ serial: '46217.250694444447' }, { number: '63.1' }, 'OL'],
  [null, null, null],
  [{ serial: '46217.2513888889' }, 'hot', { number: '181.25' }],
  [{ serial: '46217.252083333333' }, { number: '-0.5' }, { number: '181.5' }],
];
const NOTES: SheetRows = [['Notes'], ['Changed the battery']];
const EVENING: SheetRows = [HEADINGS, [{ serial: '46217.75' }, { number: '40' }, { number: '41' }]];

describe('The sheets of a workbook', () => {
  it('are looked through for the one with readings; with several it is asked which', async () => {
    const alone = await readLogFile(workbookOf({ Notes: NOTES, Log: ROWS }), { timeZone: 'UTC' });
    expect(alone).toMatchObject({ ok: true, value: { sheet: 'Log', questions: [], places: [{ name: 'Probe 1' }, { name: 'Chamber' }] } });
    const both = workbookOf({ Morning: ROWS, Notes: NOTES, Evening: EVENING });
    const asked = await readLogFile(both, { timeZone: 'UTC' });
    expect(asked).toMatchObject({ ok: true, value: { places: [], questions: [{ id: 'sheet', choices: [{ id: 'Morning', text: 'Morning' }, { id: 'Evening', text: 'Evening' }] }] } });
    const evening = await readLogFile(both, { timeZone: 'UTC', answers: { sheet: 'Evening' } });
    expect(evening).toMatchObject({ ok: true, value: { sheet: 'Evening', questions: [], places: [{ name: 'Probe 1', lines: Int32Array.of(2) }, { name: 'Chamber' }] } });
    expect(await readLogFile(both, { answers: { sheet: 'Noon' } })).toMatchObject({ ok: false, problem: { field: 'answers.sheet' } });
  });

  it('may be all chart, and the others are read', async () => {
    const read = await readLogFile(workbookOf({ Log: EVENING }, { chartSheet: 'Chart of it' }), { timeZone: 'UTC' });
    expect(read).toMatchObject({ ok: true, value: { sheet: 'Log', places: [{ name: 'Probe 1' }, { name: 'Chamber' }] } });
  });

  it('are told of one file after another, each as it is', async () => {
    const first = await readLogFile(workbookOf({ Log: EVENING }), { timeZone: 'UTC' });
    const second = await readLogFile(workbookOf({ Other: EVENING }), { timeZone: 'UTC' });
    const third = await readLogFile(workbookOf({ Log: EVENING }), { timeZone: 'UTC' });
    expect([first, second, third].map((read) => read.ok && read.value.sheet)).toEqual(['Log', 'Other', 'Log']);
  });

  it('go into the book under their name, and the answer is known again for the next file of the shape', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const { kitchen } = smoke;
    const two = (tenths: string): Uint8Array => workbookOf({ Left: [HEADINGS, [{ serial: '46217.25' }, { number: `62.${tenths}` }, { number: '180' }]], Right: ROWS });
    const fileId = await kitchen.takeFile('one.xlsx', two('1'));
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Tail') }];
    const open = await kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id, asBefore: true });
    expect([open.questions.map(({ id }) => id), open.sheet]).toEqual([['sheet'], undefined]);
    expect(await kitchen.ask('readings.preview', { fileId, answers: { sheet: 'Right' }, loadId: load.id })).toMatchObject({ sheet: 'Right', questions: [] });
    expect(await kitchen.ask('readings.import', { fileId, answers: { sheet: 'Right' }, columns, coversInToOut: false, loadId: load.id })).toEqual({ kept: 3, refused: 1, alreadyThere: 0 });
    const { entries } = await kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.findLast(({ kind }) => kind === 'readings.import')?.summary).toBe('Took over 3 readings of Tail from one.xlsx, sheet “Right”; 1 row could not be read.');
    const next = await kitchen.takeFile('two.xlsx', two('2'));
    const again = await kitchen.ask('readings.preview', { fileId: next, answers: {}, loadId: load.id, asBefore: true, columns });
    expect(again).toMatchObject({ before: { fileName: 'one.xlsx' }, answers: { sheet: 'Right' }, questions: [], already: { there: 3, all: 3 } });
    expect(again.places[0]?.likelyPointId).toBe(pointId(load, 'Tail'));
  });
});

describe('A file that is no workbook to read', () => {
  it('is refused with a sentence: another zip file, a damaged one, an old workbook', async () => {
    const { kitchen } = await openSmokeKitchen();
    const say = async (name: string, bytes: Uint8Array): Promise<string> => {
      const { code, message, remedy } = await refusal(kitchen.reply('readings.preview', { fileId: await kitchen.takeFile(name, bytes), answers: {}, loadId: null }));
      return `${code}: ${message} ${remedy}`;
    };
    expect(await say('photos.zip', zipOf({ 'a.txt': 'a' }))).toBe('FILE_UNREADABLE: “photos.zip” is a zip file, but no workbook that can be read. Open it in a spreadsheet program and save it again as .xlsx or CSV.');
    expect(await say('cut.xlsx', workbookOf({ Log: ROWS }).slice(0, 300))).toBe('FILE_UNREADABLE: “cut.xlsx” is a damaged workbook, or another zip file. Open it in a spreadsheet program and save it again as .xlsx or CSV.');
    expect(await say('old.xls', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 1, 2))).toBe('FILE_UNREADABLE: “old.xls” is an old workbook (.xls), or one with a password. Open it in a spreadsheet program and save it as .xlsx without a password, or as CSV.');
    expect(await say('notes.xlsx', workbookOf({ Notes: NOTES }))).toBe('FILE_UNREADABLE: No row of “notes.xlsx” has a time and a temperature. Export the log as CSV with one row for each time.');
  });

  it('is refused before it fills the memory, whatever size it says of itself', async () => {
    const bomb = zipOf({ 'xl/worksheets/sheet1.xml': new Uint8Array(257 * 1024 * 1024) });
    const view = new DataView(bomb.buffer);
    // The directory's header of the only part begins 46 bytes and the length of its name before the end's 22 bytes.
    view.setUint32(bomb.length - 22 - 24 - 46 + 24, 10, true);
    expect(bomb.length).toBeLessThan(1024 * 1024);
    expect(await readLogFile(bomb, { fileName: 'bomb.xlsx' })).toMatchObject({ ok: false, problem: { message: '“bomb.xlsx” unpacks to more than 256 MB.' } });
  }, 120_000);

  it('is refused where a cell far away would fill the memory, or lies where no sheet has one', async () => {
    const far = (at: string): Uint8Array => workbookOf({ Log: [HEADINGS, [{ xml: `<v>1</v></c><c r="${at}"><v>1</v>` }]] });
    expect(await readLogFile(far('XFD1048576'), { fileName: 'far.xlsx' })).toMatchObject({ ok: false, problem: { message: '“far.xlsx” has a sheet of 1048576 rows and 16384 columns, which is too large to be read.' } });
    for (const at of ['ZZZZ9', 'B99999999', 'B0', '&#66;3', 'b3']) {
      expect(await readLogFile(far(at), { fileName: 'far.xlsx' }), at).toMatchObject({ ok: false, problem: { message: '“far.xlsx” is a damaged workbook: it has a cell where no sheet has one.' } });
    }
    const row = workbookOf({ Log: EVENING }, { tail: '<row\n hidden=">" r="4000000000"/>' });
    expect(await readLogFile(row, { fileName: 'far.xlsx' })).toMatchObject({ ok: false, problem: { message: '“far.xlsx” is a damaged workbook: it has a cell where no sheet has one.' } });
  });
});
