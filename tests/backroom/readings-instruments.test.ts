import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from './fish-and-brine.ts';
import { coolingColumns, COOL_MINUTES, openLoad, openSmokeKitchen, pointId, refusal, SMOKE_MINUTES, smokeColumns, takeOver, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf, type MinuteSeries } from './smoke-log.ts';

/** A logger that lies in the cooler; the pieces are put on it when they come out. */
async function addLogger({ kitchen }: SmokeKitchen, name = 'Cooler logger'): Promise<string> {
  return (await kitchen.ask('office.addInstrument', { name, kind: 'wired-probe', error: { text: '1', unit: 'F' } })).id;
}

async function takeFile(smoke: SmokeKitchen, loadId: string, fileName: string, csv: string, columns: readonly { name: string; pointId: string; instrumentId?: string | null }[]) {
  const fileId = await smoke.kitchen.takeFile(fileName, csv);
  return smoke.kitchen.reply('readings.import', { fileId, answers: {}, columns: [...columns], coversInToOut: false, loadId });
}

interface ImportEntry {
  readonly refused: number;
  readonly refusedRows: readonly { readonly line: number; readonly reason: string }[];
  readonly columns: readonly { readonly pointId: string; readonly instrumentId?: string; readonly count: number }[];
}

/** What the book's record keeps of each import, in order; the book is closed for it. */
async function importEntries({ kitchen }: SmokeKitchen): Promise<ImportEntry[]> {
  await kitchen.close();
  const database = new Database(kitchen.file, { readonly: true });
  const rows = database.prepare<[], { after_json: string }>("SELECT after_json FROM entries WHERE kind = 'readings.import' ORDER BY sequence").all();
  database.close();
  return rows.map((row): ImportEntry => JSON.parse(row.after_json));
}

/** A load with a log of one piece, and its thermometer changed at minute 60. */
async function changedAtSixty() {
  const smoke = await openSmokeKitchen();
  const { kitchen } = smoke;
  const load = await openLoad(smoke);
  const tail = pointId(load, 'Tail');
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  kitchen.clock.set(inMs + 120 * MINUTE_MS);
  await kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
  await kitchen.ask('point.moveInstrument', { pointId: tail, instrumentId: smoke.handId, atMs: inMs + 60 * MINUTE_MS, why: 'The cable broke.' });
  const values: MinuteSeries = Array.from({ length: 91 }, (_, minute) => 60 + minute);
  return { smoke, kitchen, load, tail, inMs, csv: csvOf(inMs, { 'Probe 3': values }), column: { name: 'Probe 3', pointId: tail } };
}

describe('a logger’s file for a piece whose thermometer was changed', () => {
  it('is asked about where it runs over the change and nobody said which thermometer it is from', async () => {
    const { smoke, load, csv, column } = await changedAtSixty();
    const { message, remedy } = await refusal(takeFile(smoke, load.id, 'tail.csv', csv, [column]));
    expect(message).toMatch(/^Column “Probe 3” runs over a change: “Tail” was read with Probe 3 until \d\d:\d\d on .*, and with Hand thermometer from then on\.$/);
    expect(remedy).toContain('left out');
  });

  it('gives its rows to the thermometer it is from; those of the other’s time are refused by line with the reason', async () => {
    const { smoke, kitchen, load, tail, csv, column } = await changedAtSixty();
    const reply = await takeFile(smoke, load.id, 'tail.csv', csv, [{ ...column, instrumentId: smoke.probeIds[2] ?? '' }]);
    expect(reply).toMatchObject({ ok: true, value: { kept: 60, refused: 31 } });
    const { entries } = await kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.at(-1)?.summary).toContain('31 readings of a time when another thermometer was there left out');
    // The other part comes from the other thermometer, and both are one record.
    expect(await takeFile(smoke, load.id, 'tail-hand.csv', csv, [{ ...column, instrumentId: smoke.handId }])).toMatchObject({ ok: true, value: { kept: 31, refused: 60 } });
    const series = (await kitchen.ask('load.get', { loadId: load.id })).series.find((one) => one.pointId === tail);
    expect(series?.readings).toBe(91);
    const [first, second] = await importEntries(smoke);
    expect(first?.columns).toMatchObject([{ instrumentId: smoke.probeIds[2], count: 60, pointId: tail }]);
    expect(second?.columns).toMatchObject([{ instrumentId: smoke.handId, count: 31, pointId: tail }]);
    expect(first?.refused).toBe(31);
    expect(first?.refusedRows.map(({ line }) => line)).toEqual(Array.from({ length: 31 }, (_, row) => row + 62));
    expect(first?.refusedRows[0]?.reason).toBe('In “Probe 3”: Hand thermometer was in “Tail” then, not Probe 3.');
  });

  it('needs no answer where all its rows are of one thermometer’s time', async () => {
    const { smoke, load, tail, inMs, column } = await changedAtSixty();
    const early = csvOf(inMs, { 'Probe 3': Array.from({ length: 60 }, (_, minute) => 60 + minute) });
    expect(await takeFile(smoke, load.id, 'early.csv', early, [column])).toMatchObject({ ok: true, value: { kept: 60, refused: 0 } });
    expect(await importEntries(smoke)).toMatchObject([{ columns: [{ pointId: tail, instrumentId: smoke.probeIds[2] }] }]);
  });

  it('is refused for a thermometer that was never there, and where no row is of its time', async () => {
    const { smoke, load, inMs, column, csv } = await changedAtSixty();
    expect(await refusal(takeFile(smoke, load.id, 'a.csv', csv, [{ ...column, instrumentId: smoke.probeIds[0] ?? '' }]))).toMatchObject({ message: 'Probe 1 was never in “Tail”.', fields: [{ path: ['columns', 0, 'instrumentId'] }] });
    const late = csvOf(inMs + 61 * MINUTE_MS, { 'Probe 3': [100, 101, 102] });
    expect((await refusal(takeFile(smoke, load.id, 'b.csv', late, [{ ...column, instrumentId: smoke.probeIds[2] ?? '' }]))).message).toBe('No reading of column “Probe 3” is of a time when Probe 3 was in “Tail”.');
  });
});

describe('another logger in the cooler', () => {
  /** Smoked with the probes, then put on the cooler's loggers, whose own files begin so many minutes later. */
  async function cooledByOthers(gapMinutes: number) {
    const smoke = await openSmokeKitchen();
    const { kitchen } = smoke;
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    const outMs = inMs + SMOKE_MINUTES * MINUTE_MS;
    const cooledMs = outMs + COOL_MINUTES * MINUTE_MS;
    kitchen.clock.set(cooledMs);
    const smoked = smokeColumns();
    await takeOver(smoke, load, 'smoke.csv', csvOf(inMs, smoked), true);
    const cooling = coolingColumns(smoked);
    for (const [index, name] of ['Thick end', 'Centre cut', 'Tail'].entries()) {
      const logger = await addLogger(smoke, `Cooler logger ${index + 1}`);
      await kitchen.ask('point.moveInstrument', { pointId: pointId(load, name), instrumentId: logger, atMs: outMs + MINUTE_MS, why: 'It went into the cooler.' });
      const csv = csvOf(outMs + MINUTE_MS, { Core: cooling[`Probe ${index + 1}`] ?? [] }, (minute) => minute < gapMinutes);
      expect(await takeFile(smoke, load.id, `cooler-${index + 1}.csv`, csv, [{ name: 'Core', pointId: pointId(load, name) }])).toMatchObject({ ok: true, value: { refused: 0 } });
    }
    await kitchen.ask('load.mark', { loadId: load.id, what: 'cooled', atMs: cooledMs });
    const { deciding } = await kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    return { smoke, hold: deciding.checks.find(({ checkId }) => checkId === 'HOT-145-30'), cooling: deciding.checks.find(({ question, verdict }) => question === 'cooling' && verdict !== 'does-not-apply') };
  }

  it('goes on with the piece’s story: hold and cooling are met over both, each reading by its own thermometer', async () => {
    const { smoke, hold, cooling } = await cooledByOthers(2);
    expect([hold?.verdict, cooling?.verdict]).toEqual(['meets', 'meets']);
    const [, ...imports] = await importEntries(smoke);
    const used = imports.flatMap(({ columns }) => columns.map((one) => one.instrumentId));
    expect(new Set(used).size).toBe(3);
    expect(used.some((id) => id === undefined || smoke.probeIds.includes(id))).toBe(false);
  });

  it('leaves a gap a gap: the stretch between the two thermometers proves nothing', async () => {
    const { hold, cooling } = await cooledByOthers(130);
    expect([hold?.verdict, cooling?.verdict]).toEqual(['meets', 'not-proven']);
  });
});
