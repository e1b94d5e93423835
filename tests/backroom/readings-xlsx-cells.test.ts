import { describe, expect, it, onTestFinished } from 'vitest';
import type { ColumnLog } from '../../app/probes/log-columns.ts';
import { textAt } from '../../app/probes/reading-columns.ts';
import { readLogFile } from '../../main/backroom/hands/log-file.ts';
import { workbookOf, workbookParts, zipOf, type SheetRows, type SheetValue, type WorkbookOptions } from './xlsx-file.ts';

const HEADINGS: readonly SheetValue[] = ['When', 'Probe 1 (°F)', 'Chamber (°F)'];

async function read(rows: SheetRows, options: WorkbookOptions = {}, answers: Readonly<Record<string, string>> = {}): Promise<ColumnLog> {
  const log = await readLogFile(workbookOf({ Log: rows }, options), { fileName: 'log.xlsx', timeZone: 'UTC', answers });
  if (!log.ok) throw new Error(log.problem.message);
  return log.value;
}
function textsOf({ places }: ColumnLog): string[][] {
  return places.map(({ columns }) => Array.from(columns.atMs, (_, index) => textAt(columns, index)));
}
function clocksOf({ places }: ColumnLog): string[] {
  return Array.from(places[0]?.columns.atMs ?? [], (at) => new Date(at).toISOString());
}

describe('The cells of a sheet', () => {
  it('are read to the last figure: numbers as stored, refused rows by the number of their row', async () => {
    const log = await read([
      HEADINGS,
      [{ serial: '46217.25' }, { number: '62.799999999999997' }, { number: '180' }],
      [{ serial: '46217.250694444447' }, { number: '63.1' }, 'OL'],
      [null, null, null],
      [{ serial: '46217.2513888889' }, 'hot', { number: '181.25' }],
      [{ serial: '46217.252083333333' }, { number: '-0.5' }, { number: '1.8149999999999999E2' }],
    ]);
    expect(textsOf(log)).toEqual([['62.8', '63.1', '-0.5'], ['180', '181.5']]);
    expect(log.places.map(({ name, columns, lines }) => [name, columns.unit, ...lines])).toEqual([['Probe 1', 'F', 2, 3, 6], ['Chamber', 'F', 2, 6]]);
    expect(log.refusedRows).toEqual([{ line: 5, reason: '“hot” in the column “Probe 1 (°F)” is not a number.' }]);
    expect(log.counts).toEqual({ lines: 6, opening: 1, blank: 1, read: 3, refused: 1 });
  });

  it('keep what a double has more than fifteen figures for', async () => {
    const log = await read([HEADINGS, [{ serial: '46217.25' }, { number: '145.04000000000002' }, { number: '144.99999999999997' }]]);
    expect(textsOf(log)).toEqual([['145.04000000000002'], ['144.99999999999997']]);
    expect([...(log.places[1]?.columns.cut ?? [])]).toEqual([1]);
  });

  it('may be results of formulas, shared or inline texts, truths and errors', async () => {
    const log = await read([
      [{ xml: '<v>0</v>', type: 's' }, { xml: '<is><r><t>Probe</t></r><r><t xml:space="preserve"> 1 (°F)</t></r></is>', type: 'inlineStr' }, { xml: '<f>"Cham"&amp;"ber (°F)"</f><v>Chamber (°F)</v>', type: 'str' }],
      [{ serial: '46217.25' }, { xml: '<f>B1*9/5+32</f><v>62.8</v>' }, { xml: '<v>#N/A</v>', type: 'e' }],
      [{ serial: '46217.26' }, { xml: '<v>1</v>', type: 'b' }, { number: '180' }],
    ], { sharedStrings: ['When'] });
    expect(log.places.map(({ name }) => name)).toEqual(['Probe 1', 'Chamber']);
    expect(textsOf(log)).toEqual([['62.8'], []]);
    expect(log.refusedRows).toEqual([{ line: 3, reason: '“true” in the column “Probe 1 (°F)” is not a number.' }]);
    expect(log.remarks).toEqual([]);
  });

  it('with a formula that was saved without its result are empty, and that is said', async () => {
    const log = await read([HEADINGS, [{ serial: '46217.25' }, { xml: '<f>C2-1</f>' }, { number: '180' }], [{ serial: '46217.26' }, { xml: '<f t="shared" si="0"/>' }, { number: '181' }], [{ serial: '46217.27' }, { number: '60' }, { number: '181' }]]);
    expect(textsOf(log)).toEqual([['60'], ['180', '181', '181']]);
    expect(log.remarks.map(({ text }) => text)).toEqual(['2 cells of the workbook hold a formula without its result and are read as empty. Open it in a spreadsheet program and save it again.']);
  });

  it('that are merged stand in the first of them; a row without its time is refused, not guessed', async () => {
    const log = await read([
      ['Smoke of 14 July', null, null], HEADINGS,
      [{ serial: '46217.25' }, { number: '62' }, { number: '180' }],
      [null, { number: '63' }, { number: '181' }],
      [{ serial: '46217.27' }, { number: '64' }, { number: '182' }],
    ], { tail: '<mergeCells count="2"><mergeCell ref="A1:C1"/><mergeCell ref="A3:A4"/></mergeCells>' });
    expect(textsOf(log)[0]).toEqual(['62', '64']);
    expect(log.refusedRows.map(({ line }) => line)).toEqual([4]);
  });
});

describe('The times of a sheet', () => {
  it('are the same in both date systems, however the newer one is written', async () => {
    const rows = (first: number): SheetRows => [HEADINGS, [{ serial: String(first + 0.25) }, { number: '62' }, { number: '180' }], [{ serial: String(first + 0.5), style: 4 }, { number: '62' }, { number: '180' }]];
    const clocks = ['2026-07-14T06:00:00.000Z', '2026-07-14T12:00:00.000Z'];
    expect(clocksOf(await read(rows(46_217)))).toEqual(clocks);
    expect(clocksOf(await read(rows(46_217), { properties: 'date1904="0"' }))).toEqual(clocks);
    for (const properties of ['date1904="1"', 'date1904="true"', "date1904='1'"]) expect(clocksOf(await read(rows(44_755), { properties })), properties).toEqual(clocks);
  });

  it('come to the hundredth of a second, though a double falls short of it', async () => {
    const seconds = [0, 0.1, 0.25, 0.5, 59.99, 3661.07, 86_399.99];
    const log = await read([HEADINGS, ...seconds.map((second) => [{ serial: String(46_217 + second / 86_400) }, { number: '62' }, { number: '180' }])]);
    expect(Array.from(log.places[0]?.columns.atMs ?? [], (at) => at - Date.UTC(2026, 6, 14))).toEqual(seconds.map((second) => Math.round(second * 1000)));
  });

  it('may be clock times beside a date, in either date system', async () => {
    const rows = (first: number): SheetRows => [['Date', 'Time', 'Probe 1 (°F)'], [{ serial: String(first), style: 1 }, { serial: '0.25', style: 2 }, { number: '62' }], [{ serial: String(first), style: 1 }, { serial: '0.99998842592592593', style: 2 }, { number: '62' }]];
    const clocks = ['2026-07-14T06:00:00.000Z', '2026-07-14T23:59:59.000Z'];
    expect(clocksOf(await read(rows(46_217)))).toEqual(clocks);
    expect(clocksOf(await read(rows(44_755), { properties: 'date1904="1"' }))).toEqual(clocks);
  });

  it('may be hours since a start, over a day too', async () => {
    for (const properties of ['', 'date1904="1"']) {
      const log = await read([['Elapsed', 'Probe 1 (°F)'], [{ serial: '0', style: 3 }, { number: '62' }], [{ serial: '0.5', style: 3 }, { number: '63' }], [{ serial: '1.5006944444444446', style: 3 }, { number: '64' }]], { properties }, { start: '2026-07-14 05:00' });
      expect(clocksOf(log)).toEqual(['2026-07-14T05:00:00.000Z', '2026-07-14T17:00:00.000Z', '2026-07-15T17:01:00.000Z']);
    }
  });

  it('written out as days are those of the kitchen, wherever this computer says it is', async () => {
    const before = process.env['TZ'];
    onTestFinished(() => {
      if (before === undefined) delete process.env['TZ'];
      else process.env['TZ'] = before;
    });
    process.env['TZ'] = 'America/Chicago';
    expect(new Date(2026, 6, 14).getTimezoneOffset()).toBe(300);
    const log = await read([HEADINGS, [{ xml: '<v>2026-07-14T06:00:00</v>', type: 'd' }, { number: '62' }, { number: '180' }], [{ serial: '46217.5' }, { number: '62' }, { number: '180' }]]);
    expect(clocksOf(log)).toEqual(['2026-07-14T06:00:00.000Z', '2026-07-14T12:00:00.000Z']);
  });

  it('as bare numbers are days from 1900; in a workbook that counts from 1904 they are refused', async () => {
    const rows: SheetRows = [['Time', 'Probe 1 (°F)'], [{ number: '46217.25' }, { number: '62' }], [{ number: '46217.5' }, { number: '63' }]];
    expect(clocksOf(await read(rows))).toEqual(['2026-07-14T06:00:00.000Z', '2026-07-14T12:00:00.000Z']);
    await expect(read(rows, { properties: 'date1904="1"' })).rejects.toThrow('The times of the sheet “Log” are bare numbers, in a workbook that counts days from 1904.');
  });
});

describe('A workbook’s zip file', () => {
  it('may name its parts with backslashes', async () => {
    const parts = workbookParts({ Log: [HEADINGS, [{ serial: '46217.25' }, { number: '62' }, { number: '180' }]] });
    const bytes = zipOf(Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name.replaceAll('/', '\\'), xml])));
    expect(await readLogFile(bytes, { timeZone: 'UTC' })).toMatchObject({ ok: true, value: { sheet: 'Log' } });
  });

  it('whose parts say wrong things of themselves is read by its directory', async () => {
    const bytes = workbookOf({ Log: [HEADINGS, [{ serial: '46217.25' }, { number: '62' }, { number: '180' }]] });
    // The first part's own header says that it unpacks to 4 GB.
    new DataView(bytes.buffer).setUint32(22, 0xffff_fff0, true);
    expect(await readLogFile(bytes, { timeZone: 'UTC' })).toMatchObject({ ok: true, value: { sheet: 'Log' } });
  });
});
