import { describe, expect, it } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { ReadyItem } from '../../app/contract/requests/corrective.ts';
import { KITCHEN_NOW_MS } from '../support/test-kitchen.ts';
import { HOUR_MS } from './fish-and-brine.ts';
import { loadInput, openSmokeKitchen, saveKitchen, type SmokeKitchen } from './smoke-kitchen.ts';

const asked = (smoke: SmokeKitchen, more: Partial<Input<'load.ready'>> = {}): Input<'load.ready'> => ({
  smokerId: smoke.smokerId, batchIds: [smoke.batchId],
  pieces: loadInput(smoke).pieces.map(({ batchId, thicknessMm, instrumentId, rackPlace }) => ({ batchId, thicknessMm, instrumentId: instrumentId ?? null, rackPlace })), ...more,
});
async function itemOf(smoke: SmokeKitchen, id: ReadyItem['id'], more: Partial<Input<'load.ready'>> = {}): Promise<ReadyItem> {
  const { items } = await smoke.kitchen.ask('load.ready', asked(smoke, more));
  const item = items.find((one) => one.id === id);
  if (item === undefined) throw new Error(`no line ${id}`);
  return item;
}
/** A second smoker with what is known of it. */
async function knownSmoker(smoke: SmokeKitchen): Promise<string> {
  return (await smoke.kitchen.ask('office.addSmoker', {
    name: 'New smoker', chamberInstrumentId: null, probeIds: [], coldestPlace: 'Bottom rack, by the door', warmestPlace: 'Top rack', largestLoad: { text: '20', unit: 'lb' },
  })).id;
}
const noPieces: Output<'load.ready'>['items'] = [];

describe('before a load is lit', () => {
  it('says each thing in one line, in the order a cook goes through them, and changes nothing', async () => {
    const smoke = await openSmokeKitchen();
    smoke.kitchen.announced();
    const { items } = await smoke.kitchen.ask('load.ready', asked(smoke));
    expect(items.map((item) => item.id)).toEqual(['probes', 'checks', 'thickest', 'place', 'load-weight', 'time', 'brine', 'raw']);
    expect(items.filter((item) => item.state === 'ready' && item.needed !== '')).toEqual(noPieces);
    expect(items.filter((item) => item.state !== 'ready' && item.needed === '')).toEqual(noPieces);
    expect(smoke.kitchen.announced()).toEqual([]);
  });

  it('asks for as many pieces as the deciding set, of each batch', async () => {
    const smoke = await openSmokeKitchen();
    expect((await itemOf(smoke, 'probes')).state).toBe('ready');
    const two = await itemOf(smoke, 'probes', { pieces: asked(smoke).pieces.slice(0, 2) });
    expect(two).toMatchObject({ state: 'missing', text: 'WF 329: 2 pieces to measure, its limit set asks for 3.' });
  });

  it('names the thermometers that were not checked in ice today', async () => {
    const smoke = await openSmokeKitchen();
    expect(await itemOf(smoke, 'checks')).toMatchObject({
      state: 'missing',
      text: 'Not checked in ice today: Probe 1, Probe 2, Probe 3, Chamber probe. Without a check at two points within 12 months: Probe 1, Probe 2, Probe 3, Chamber probe.',
    });
    const { kitchen } = smoke;
    for (const { instrument } of (await kitchen.ask('instrument.list', {})).instruments.filter((one) => / [123]$|^Chamber/.test(one.instrument.name))) {
      const isChamber = instrument.name.startsWith('Chamber');
      await kitchen.ask('instrument.check', {
        instrumentId: instrument.id, atMs: kitchen.clock.nowMs(), ice: { text: '32', unit: 'F' },
        boiling: isChamber ? null : { text: '212', unit: 'F' }, altitudeMetres: '0', pressureHectopascals: '',
      });
    }
    expect(await itemOf(smoke, 'checks')).toMatchObject({ state: 'missing', text: 'Without a check at two points within 12 months: Chamber probe.' });
    await kitchen.ask('instrument.check', { instrumentId: smoke.chamberProbeId, atMs: kitchen.clock.nowMs(), ice: null, boiling: { text: '100', unit: 'C' }, altitudeMetres: '', pressureHectopascals: '1013' });
    expect(await itemOf(smoke, 'checks')).toMatchObject({ state: 'missing' });
    await kitchen.ask('instrument.check', { instrumentId: smoke.chamberProbeId, atMs: kitchen.clock.nowMs(), ice: { text: '0', unit: 'C' }, boiling: { text: '100', unit: 'C' }, altitudeMetres: '', pressureHectopascals: '1013' });
    expect(await itemOf(smoke, 'checks')).toMatchObject({ state: 'ready', text: 'Checked in ice today: Probe 1, Probe 2, Probe 3, Chamber probe.' });
  });

  it('wants the thickest fillet of the batch among the pieces', async () => {
    const smoke = await openSmokeKitchen({ thickestMm: 32 });
    expect((await itemOf(smoke, 'thickest')).state).toBe('ready');
    const thin = asked(smoke).pieces.map((piece) => ({ ...piece, thicknessMm: 31.9 }));
    expect(await itemOf(smoke, 'thickest', { pieces: thin })).toMatchObject({ state: 'missing', text: 'WF 329: the thickest measured is 31.9 mm, its thickest fillet is 32 mm.' });
    const unknown = asked(smoke).pieces.map((piece) => ({ ...piece, thicknessMm: null }));
    expect((await itemOf(smoke, 'thickest', { pieces: unknown })).state).toBe('unknown');
  });

  it('wants a piece in the coldest place for hot smoke and in the warmest for cold, as the office has them', async () => {
    const hot = await openSmokeKitchen();
    expect((await itemOf(hot, 'place')).state).toBe('unknown');
    const smokerId = await knownSmoker(hot);
    expect(await itemOf(hot, 'place', { smokerId })).toMatchObject({ state: 'missing', text: 'No piece is in the coldest place of New smoker: Bottom rack, by the door.' });
    const there = asked(hot).pieces.map((piece, index) => (index === 0 ? { ...piece, rackPlace: 'bottom rack by the door' } : piece));
    expect((await itemOf(hot, 'place', { smokerId, pieces: there })).state).toBe('ready');
    const cold = await openSmokeKitchen({ process: 'cold' });
    const coldSmoker = await knownSmoker(cold);
    expect((await itemOf(cold, 'place', { smokerId: coldSmoker })).text).toBe('No piece is in the warmest place of New smoker: Top rack.');
  });

  it('compares the load with the largest that the smoker was proven with, drained weight before fillets', async () => {
    const smoke = await openSmokeKitchen({ fillets: { text: '19', unit: 'lb' } }, { mass: { text: '30', unit: 'lb' } });
    expect((await itemOf(smoke, 'load-weight')).state).toBe('unknown');
    const smokerId = await knownSmoker(smoke);
    expect(await itemOf(smoke, 'load-weight', { smokerId })).toMatchObject({ state: 'ready', text: 'This load is 19.0 lb; New smoker was proven with 20.0 lb.' });
    await smoke.kitchen.ask('batch.weigh', { batchId: smoke.batchId, what: 'brined', mass: { text: '20.5', unit: 'lb' }, atMs: smoke.kitchen.clock.nowMs() });
    expect((await itemOf(smoke, 'load-weight', { smokerId })).state).toBe('missing');
  });

  it('gives the latest time out so that the cooling ends before the kitchen closes', async () => {
    const smoke = await openSmokeKitchen();
    expect(await itemOf(smoke, 'time')).toMatchObject({ state: 'unknown' });
    await saveKitchen(smoke.kitchen, { closesAt: '22:00' });
    const ready = await smoke.kitchen.ask('load.ready', asked(smoke));
    expect(ready.items.find((item) => item.id === 'time')).toMatchObject({ state: 'ready', text: 'Out by 16:00 at the latest: 6 h of cooling before the kitchen closes at 22:00.' });
    // 16:00 in the kitchen is 8 h after it opened at 08:00.
    expect(ready.latestOutMs).toBe(KITCHEN_NOW_MS + 8 * HOUR_MS);
    smoke.kitchen.clock.set(KITCHEN_NOW_MS + 9 * HOUR_MS);
    expect(await itemOf(smoke, 'time')).toMatchObject({ state: 'missing', text: 'It should have been out by 16:00: 6 h of cooling before the kitchen closes at 22:00.' });
  });

  it('says what the record shows of the brine', async () => {
    const smoke = await openSmokeKitchen();
    const brine = await itemOf(smoke, 'brine');
    const { deciding } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    const met = deciding.checks.filter((check) => check.question === 'brine').every((check) => check.verdict === 'meets' || check.verdict === 'meets-within-error' || check.verdict === 'does-not-apply');
    expect(brine.state === 'ready').toBe(met);
  });

  it('never calls ready what the set asks and no record here answers', async () => {
    const smoke = await openSmokeKitchen();
    const { deciding } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    const raw = deciding.checks.filter((check) => check.question === 'raw' || check.question === 'thaw' || check.question === 'dry');
    const isOpen = deciding.notJudgedHere.includes('raw') || raw.some((check) => check.verdict === 'not-proven' || check.verdict === 'misses');
    expect((await itemOf(smoke, 'raw')).state === 'ready').toBe(!isOpen);
  });

  it('refuses a smoker or batch that isn’t in the book', async () => {
    const smoke = await openSmokeKitchen();
    const gone = await smoke.kitchen.reply('load.ready', asked(smoke, { smokerId: 'no-such' }));
    expect(gone.ok ? '' : gone.error.code).toBe('NOT_FOUND');
  });
});
