import { describe, expect, it } from 'vitest';
import { exactTicks } from '../../app/measures/temperature.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, smokeColumns, SMOKE_MINUTES, takeOver, type SmokeKitchen } from './smoke-kitchen.ts';
import { csvOf, steadyAir } from './smoke-log.ts';

async function readyLoad(): Promise<{ smoke: SmokeKitchen; load: Awaited<ReturnType<typeof openLoad>>; inMs: number; outMs: number }> {
  const smoke = await openSmokeKitchen();
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  const outMs = inMs + SMOKE_MINUTES * MINUTE_MS;
  smoke.kitchen.clock.set(outMs + MINUTE_MS);
  return { smoke, load, inMs, outMs };
}

describe('a logger’s file', () => {
  it('is shown before it is taken over, each column with the point it is likely of', async () => {
    const { smoke, load, inMs, outMs } = await readyLoad();
    const fileId = await smoke.kitchen.takeFile('smoke.csv', csvOf(inMs, smokeColumns()));
    const preview = await smoke.kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id });
    expect(preview).toMatchObject({ fileName: 'smoke.csv', questions: [], refusedCount: 0 });
    expect(preview.places.map((place) => place.likelyPointId)).toEqual(['Thick end', 'Centre cut', 'Tail', 'Chamber'].map((name) => pointId(load, name)));
    expect(preview.places.at(0)).toMatchObject({ unit: 'F', count: SMOKE_MINUTES + 1, firstAtMs: inMs, lastAtMs: outMs, lowestTicks: exactTicks(42, 'F') });
  });

  it('is taken over whole, and again without doubling anything', async () => {
    const { smoke, load, inMs } = await readyLoad();
    const csv = csvOf(inMs, smokeColumns());
    expect(await takeOver(smoke, load, 'smoke.csv', csv, false)).toEqual({ kept: 4 * (SMOKE_MINUTES + 1), refused: 0, alreadyThere: 0 });
    expect(await takeOver(smoke, load, 'smoke.csv', csv, false)).toEqual({ kept: 0, refused: 0, alreadyThere: 4 * (SMOKE_MINUTES + 1) });
    expect((await smoke.kitchen.ask('load.get', { loadId: load.id })).load).toMatchObject({ inAtMs: null, outAtMs: null });
    const { entries, chain } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.find((entry) => entry.kind === 'readings.import')?.summary).toBe('Took over 1444 readings of Thick end, Centre cut, Tail, Chamber from smoke.csv.');
    expect(chain.intact).toBe(true);
  });

  it('sets the marks by the chamber when it runs from in to out, but moves none that is set', async () => {
    const { smoke, load, inMs, outMs } = await readyLoad();
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs + 5 * MINUTE_MS });
    await takeOver(smoke, load, 'smoke.csv', csvOf(inMs, smokeColumns()), true);
    expect((await smoke.kitchen.ask('load.get', { loadId: load.id })).load).toMatchObject({ inAtMs: inMs + 5 * MINUTE_MS, outAtMs: outMs });
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch.lotCode).toMatch(/^WF26329A/);
  });

  it('keeps nothing when a mark can’t be: the log began before the soak had ended', async () => {
    const { smoke, load } = await readyLoad();
    const fileId = await smoke.kitchen.takeFile('early.csv', csvOf(smoke.readyMs - HOUR_MS, { 'Probe 1': steadyAir(60, 70) }));
    const error = await refusal(smoke.kitchen.reply('readings.import', {
      fileId, answers: {}, columns: [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }], coversInToOut: true, loadId: load.id,
    }));
    expect(error.message).toMatch(/^Going in can’t be at 09:00 .*: the end of the soak of WF 329 was at 10:00/);
    expect((await smoke.kitchen.ask('load.get', { loadId: load.id })).series.every(({ series }) => series.length === 0)).toBe(true);
  });

  it('must be asked about first where it can’t be read without an answer', async () => {
    const { smoke, load } = await readyLoad();
    const fileId = await smoke.kitchen.takeFile('unclear.csv', 'Time,Probe 1\n03/04/2026 10:00,50\n04/04/2026 10:01,51\n');
    const { questions, places } = await smoke.kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id });
    expect(questions.map((question) => question.id)).toEqual(expect.arrayContaining(['dateOrder']));
    expect(places).toEqual([]);
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }];
    const error = await refusal(smoke.kitchen.reply('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId: load.id }));
    expect(error).toMatchObject({ code: 'INVALID_INPUT', remedy: 'Answer what is asked, then take it over.', fields: expect.arrayContaining([expect.objectContaining({ path: ['answers', 'dateOrder'] })]) });
  });

  it('is refused where its times are still to come', async () => {
    const { smoke, load, inMs } = await readyLoad();
    const fileId = await smoke.kitchen.takeFile('ahead.csv', csvOf(inMs + 24 * HOUR_MS, smokeColumns()));
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }];
    const error = await refusal(smoke.kitchen.reply('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId: load.id }));
    expect(error.message).toBe('ahead.csv has readings up to 16:10 on 26 Nov 2026, which is still to come.');
  });

  it('is refused for columns that aren’t in it, named twice, or of another load', async () => {
    const { smoke, load, inMs } = await readyLoad();
    const fileId = await smoke.kitchen.takeFile('smoke.csv', csvOf(inMs, smokeColumns()));
    const [thick, tail] = [pointId(load, 'Thick end'), pointId(load, 'Tail')];
    const take = (columns: { name: string; pointId: string }[], loadId: string | null = load.id) => refusal(smoke.kitchen.reply('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId }));
    expect((await take([{ name: 'Probe 9', pointId: thick }])).message).toBe('smoke.csv has no column of readings called “Probe 9”.');
    const named = (await smoke.kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id })).places.map((place) => place.name);
    const [one = '', two = ''] = named;
    expect((await take([{ name: one, pointId: thick }, { name: one, pointId: tail }])).message).toBe(`Column “${one}” is named twice.`);
    expect((await take([{ name: one, pointId: thick }, { name: two, pointId: thick }])).message).toBe('Two columns go to the same point.');
    expect((await take([{ name: one, pointId: thick }], null)).message).toBe('“Thick end” is of another load.');
  });

  it('that isn’t one is said to be unreadable', async () => {
    const { smoke, load } = await readyLoad();
    const fileId = await smoke.kitchen.takeFile('photo.jpg', Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 2, 0, 0, 1]));
    const error = await refusal(smoke.kitchen.reply('readings.preview', { fileId, answers: {}, loadId: load.id }));
    expect(error.code).toBe('FILE_UNREADABLE');
    expect(error.message).toContain('photo.jpg');
    expect((await refusal(smoke.kitchen.reply('readings.preview', { fileId: 'gone', answers: {}, loadId: load.id }))).code).toBe('NOT_FOUND');
  });

  it('of a freezer goes to the freezer, by its name', async () => {
    const { smoke, inMs } = await readyLoad();
    const fileId = await smoke.kitchen.takeFile('chest-freezer.csv', csvOf(inMs, { Temperature: steadyAir(30, -6) }));
    const preview = await smoke.kitchen.ask('readings.preview', { fileId, answers: {}, loadId: null });
    expect(preview.places).toMatchObject([{ likelyPointId: smoke.freezerId, count: 31 }]);
    const columns = [{ name: preview.places[0]?.name ?? '', pointId: smoke.freezerId }];
    expect(await smoke.kitchen.ask('readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId: null })).toEqual({ kept: 31, refused: 0, alreadyThere: 0 });
    expect((await smoke.kitchen.ask('place.get', { placeId: smoke.freezerId })).series.length).toBe(31);
  });
});
