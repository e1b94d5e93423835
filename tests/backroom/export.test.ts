/** The tables read back by readers that know nothing of the writers: read-excel-file and μDSV. */
import readWorkbook from 'read-excel-file/node';
import { inferSchema, initParser } from 'udsv';
import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { EVENT_COLUMNS, type EventColumn } from '../../app/packs/trace-events.ts';
import type { TestKitchen } from '../support/test-kitchen.ts';
import { guest, LAKE_TROUT, receive } from './fish-and-brine.ts';
import { refusal } from './smoke-kitchen.ts';
import { openPackedKitchen, writeInto } from './trace-kitchen.ts';

const DAY = '2026-11-25';
type Row = Readonly<Record<EventColumn, string>>;

function csvRows(text: string): Row[] {
  const rows = initParser(inferSchema(text)).stringArrs(text);
  return rows.map((cells) => Object.fromEntries(EVENT_COLUMNS.map((column, index) => [column, cells[index] ?? ''])) as Row);
}

async function csvOf(kitchen: TestKitchen, more: { fromDay?: string; toDay?: string; withGuests?: boolean } = {}): Promise<{ rows: Row[]; answer: Output<'export.traceability'>; text: string }> {
  const answer = await kitchen.ask('export.traceability', { fromDay: DAY, toDay: DAY, form: 'csv', withGuests: false, ...more });
  const text = Buffer.from(answer.base64, 'base64').toString('utf8');
  return { rows: csvRows(text), answer, text };
}

describe('the traceability table', () => {
  it('has a row for receiving, one for the batch smoked of it, and one for what left, with codes that lead from one to the next', async () => {
    const packed = await openPackedKitchen();
    const { rows, answer, text } = await csvOf(packed.kitchen);
    expect(text.split('\r\n')[0]).toBe(EVENT_COLUMNS.join(','));
    expect(answer).toMatchObject({ fileName: 'traceability-2026-11-25-to-2026-11-25.csv', mediaType: 'text/csv', rows: 3 });
    const [received, made, left] = ['RECEIVE', 'TRANSFORM', 'SHIP'].map((event) => rows.find((row) => row.event === event));
    expect(received).toMatchObject({
      event_date: DAY, tlc: 'GR-1', tlc_source_name: 'Grey Rock Fishery', qty: '10', uom: 'lb', from_name: 'Grey Rock Fishery', to_name: 'Test Kitchen',
      to_address: '1 Dock Road, Rainy Point, Minnesota 56600', scientific_name: 'Coregonus clupeaformis', ref_doc_type: 'fish lot', ref_doc_no: expect.stringMatching(/^F26329/), recorded_by: 'MG', recorded_at: expect.stringMatching(/^2026-11-25T\d\d:\d\d:\d\d\.\d{3}Z$/),
    });
    expect(made).toMatchObject({ event_date: DAY, input_tlc: 'GR-1', input_qty: '9', input_uom: 'lb', qty: '6', uom: 'lb', tlc: expect.stringMatching(/^WF26329A/), recorded_by: 'MG' });
    expect(left).toMatchObject({ event_date: DAY, tlc: made?.tlc, qty: '3', to_name: 'Lund party', ref_doc_type: 'hand-over', ref_doc_no: packed.handOverId, product_description: expect.stringContaining('12 packs') });
    expect(rows.map(({ event }) => event)).toEqual(['RECEIVE', 'TRANSFORM', 'SHIP']);
    expect(answer.gaps).toEqual(['1 row lacks the address of whoever gave the lot its code.', '1 row lacks the address the fish came from.', '1 row lacks the address it went to.']);
  });

  it('is the same as a workbook, whose numbers are numbers and whose formulas are text', async () => {
    const packed = await openPackedKitchen({}, { source: { kind: 'supplier', supplierName: '=HYPERLINK("http://x","Grey Rock")', supplierLot: '@SUM(1)' } });
    const answer = await packed.kitchen.ask('export.traceability', { fromDay: DAY, toDay: DAY, form: 'xlsx', withGuests: false });
    const [sheet] = await readWorkbook(Buffer.from(answer.base64, 'base64'));
    const cells = sheet?.data ?? [];
    expect(cells[0]).toEqual([...EVENT_COLUMNS]);
    expect(cells).toHaveLength(answer.rows + 1);
    const received = cells.find((row) => row[0] === 'RECEIVE') ?? [];
    expect(received[EVENT_COLUMNS.indexOf('from_name')]).toBe('=HYPERLINK("http://x","Grey Rock")');
    expect(received[EVENT_COLUMNS.indexOf('qty')]).toBe(10);
    expect(received[EVENT_COLUMNS.indexOf('event_date')]).toBe(DAY);
    // No formula is in the file: an element f would be one.
    const { rows, text } = await csvOf(packed.kitchen);
    expect(rows.find((row) => row.event === 'RECEIVE')).toMatchObject({ from_name: '\'=HYPERLINK("http://x","Grey Rock")', tlc: "'@SUM(1)" });
    expect(text).not.toMatch(/(?:^|,)"?[=@+\t]/m);
  });

  it('leaves guests’ own fish out unless it is asked for, and gives it a code of the kitchen’s own', async () => {
    const packed = await openPackedKitchen({}, { speciesId: LAKE_TROUT, source: guest('Ida Moen', 'L-77') });
    expect((await csvOf(packed.kitchen)).rows).toEqual([]);
    const { rows } = await csvOf(packed.kitchen, { withGuests: true });
    const code = rows.find(({ event }) => event === 'RECEIVE')?.tlc;
    expect(code).toMatch(/^F26329/);
    expect(rows.find(({ event }) => event === 'TRANSFORM')?.input_tlc).toBe(code);
    expect(rows.map(({ event }) => event).sort()).toEqual(['RECEIVE', 'SHIP', 'TRANSFORM']);
  });

  it('takes both days in by the kitchen’s own calendar, and nothing outside', async () => {
    const packed = await openPackedKitchen();
    // 04:59 UTC on the 27th is 22:59 on the 26th in the kitchen.
    packed.kitchen.clock.set(Date.UTC(2026, 10, 27, 4, 59));
    await receive(packed.kitchen, { receivedAtMs: packed.kitchen.clock.nowMs(), source: { kind: 'supplier', supplierName: 'Late Boats', supplierLot: 'LB-1' } });
    const names = async (fromDay: string, toDay: string): Promise<string[]> => (await csvOf(packed.kitchen, { fromDay, toDay })).rows.filter(({ event }) => event === 'RECEIVE').map((row) => row.from_name);
    expect(await names('2026-11-26', '2026-11-26')).toEqual(['Late Boats']);
    expect(await names('2026-11-25', '2026-11-26')).toEqual(['Grey Rock Fishery', 'Late Boats']);
    expect(await names('2026-11-27', '2026-12-31')).toEqual([]);
  });

  it('has fish that was taken out before the rest on the day it came out', async () => {
    const packed = await openPackedKitchen();
    const kitchen = await writeInto(packed.kitchen, packed.kitchen.clock.nowMs(), (book) => {
      const load = book.shelf('loads').need(packed.loadId);
      book.shelf('loads').put({ ...load, outAtMs: (load.outAtMs ?? 0) + 48 * 3_600_000, takenOut: [{ batchId: packed.batchId, pointId: null, atMs: load.outAtMs ?? 0 }] });
      book.record({ kind: 'test.write', subjectId: 'book', happenedAtMs: null, summary: 'Taken out early.', after: {} });
    });
    expect((await csvOf(kitchen)).rows.map(({ event }) => event)).toContain('TRANSFORM');
    expect((await csvOf(kitchen, { fromDay: '2026-11-27', toDay: '2026-11-27' })).rows).toEqual([]);
  });

  it('leaves a guest’s fish out of what left for somebody else, too', async () => {
    const packed = await openPackedKitchen({}, { speciesId: LAKE_TROUT, source: guest('Ida Moen', 'L-77') });
    const { rows } = await csvOf(packed.kitchen);
    expect(rows.filter(({ event }) => event === 'SHIP')).toEqual([]);
  });

  it('refuses days that can’t be', async () => {
    const { kitchen } = await openPackedKitchen();
    const ask = (fromDay: string, toDay: string) => refusal(kitchen.reply('export.traceability', { fromDay, toDay, form: 'csv', withGuests: false }));
    expect(await ask('2026-11-26', '2026-11-25')).toMatchObject({ code: 'INVALID_INPUT', message: 'The last day lies before the first.' });
    expect(await ask('2026-02-30', '2026-03-01')).toMatchObject({ code: 'INVALID_INPUT', message: 'There is no day 2026-02-30.' });
  });
});

describe('readings as CSV', () => {
  it('are a row each, as they were read, with the thermometer and the entry that vouches for them', async () => {
    const packed = await openPackedKitchen();
    const answer = await packed.kitchen.ask('export.readings', { of: 'load', id: packed.loadId, fromDay: null, toDay: null });
    const rows = initParser(inferSchema(answer.text)).stringArrs(answer.text);
    expect(answer).toMatchObject({ fileName: 'readings-load-1.csv', rows: rows.length });
    // Four points through the smoke, three through the cooling: a reading a minute.
    expect(rows).toHaveLength(4 * 361 + 3 * 271);
    expect(rows[0]).toEqual(['Thick end', 'piece', expect.stringMatching(/^2026-11-25T\d\d:\d\d:00\.000Z$/), expect.stringMatching(/^2026-11-25T\d\d:\d\d:00\.000-06:00$/), '42.0', 'F', 'Probe 1', 'file', expect.stringMatching(/^\d+$/)]);
    const [, , utc = '', local = ''] = rows[0] ?? [];
    expect(Date.parse(utc)).toBe(Date.parse(local));
  });

  it('of a place begin and end with the days that were asked for', async () => {
    const packed = await openPackedKitchen();
    const { kitchen, coolerId } = packed;
    const atMs = kitchen.clock.nowMs();
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [atMs - 86_400_000, atMs].map((at, index) => ({ pointId: coolerId, atMs: at, value: { text: index === 0 ? '36' : '-0.5', unit: 'F' as const }, instrumentId: null })) });
    const ask = (fromDay: string | null) => kitchen.ask('export.readings', { of: 'place', id: coolerId, fromDay, toDay: null });
    expect((await ask(null)).rows).toBe(2);
    const one = await ask('2026-11-25');
    expect(one).toMatchObject({ fileName: 'readings-walk-in-cooler.csv', rows: 1 });
    expect(one.text).toContain(',-0.5,F,,by-hand,');
  });
});
