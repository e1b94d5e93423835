import { describe, expect, it } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, type SmokeKitchen } from './smoke-kitchen.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

function checkInput(kitchen: TestKitchen, instrumentId: string, more: Partial<Input<'instrument.check'>> = {}): Input<'instrument.check'> {
  return { instrumentId, atMs: kitchen.clock.nowMs(), ice: { text: '32', unit: 'F' }, boiling: null, altitudeMetres: '', pressureHectopascals: '', ...more };
}

async function stateOf(kitchen: TestKitchen, instrumentId: string): Promise<Output<'instrument.list'>['instruments'][number]> {
  const found = (await kitchen.ask('instrument.list', {})).instruments.find(({ instrument }) => instrument.id === instrumentId);
  if (found === undefined) throw new Error('the thermometer is gone');
  return found;
}

async function addProbe(kitchen: TestKitchen, more: Partial<Input<'office.addInstrument'>> = {}): Promise<string> {
  return (await kitchen.ask('office.addInstrument', { name: 'Needle', kind: 'hand-thermometer', error: null, ...more })).id;
}

/** A batch smoked by hand with one probe in each of three pieces: 145 °F to the tenth, every 10 minutes for 40. */
async function atTheLimit(text = '145.0'): Promise<{ smoke: SmokeKitchen; probeId: string; inMs: number; verdict(): Promise<Output<'batch.verdict'>['deciding']['checks'][number] | undefined> }> {
  const smoke = await openSmokeKitchen();
  const { kitchen, batchId } = smoke;
  const probeId = await addProbe(kitchen, { error: { text: '0', unit: 'F' } });
  const load = await openLoad(smoke);
  const inMs = kitchen.clock.nowMs();
  await kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
  kitchen.clock.advance(60 * MINUTE_MS);
  const pieces = load.points.filter((point) => point.role === 'piece').map((point) => pointId(load, point.name));
  await kitchen.ask('readings.enter', { how: 'by-hand', readings: [10, 20, 30, 40].flatMap((minute) => pieces.map((id) => ({ pointId: id, atMs: inMs + minute * MINUTE_MS, value: { text, unit: 'F' as const }, instrumentId: probeId }))) });
  return { smoke, probeId, inMs, verdict: async () => (await kitchen.ask('batch.verdict', { batchId })).deciding.checks.find((check) => check.checkId === 'HOT-145-30') };
}

describe('a check of a thermometer', () => {
  it('in ice says how far off it reads, and is due again tomorrow', async () => {
    const kitchen = await openTestKitchen();
    const id = await addProbe(kitchen, { resolution: { value: '0.1', unit: 'F' }, accuracyClass: { value: '0.9', unit: 'F' } });
    expect(await stateOf(kitchen, id)).toMatchObject({ dueToday: true, overdue: true, text: expect.stringContaining('Never checked in ice.') });
    const { check } = await kitchen.ask('instrument.check', checkInput(kitchen, id, { ice: { text: '33.0', unit: 'F' } }), 'HA');
    expect(check).toMatchObject({ iceBiasTicks: 5000, boilingBiasTicks: null, withinClass: false, initials: 'HA', text: 'Reads 1.0 °F high at the ice point; its class allows 0.9 °F.' });
    expect(await stateOf(kitchen, id)).toMatchObject({ dueToday: false, overdue: true });
    kitchen.clock.advance(DAY_MS);
    expect(await stateOf(kitchen, id)).toMatchObject({ dueToday: true, text: expect.stringContaining('due today before a load') });
  });

  it('at two points is held against boiling water at the place, and stands for a year', async () => {
    const kitchen = await openTestKitchen();
    const id = await addProbe(kitchen);
    // 1600 m: water boils at 94.65 °C in the standard atmosphere (IF97, computed).
    const { check } = await kitchen.ask('instrument.check', checkInput(kitchen, id, { ice: { text: '0.4', unit: 'C' }, boiling: { text: '95.3', unit: 'C' }, altitudeMetres: '1600' }));
    expect((check.boilingTrueTicks ?? 0) / 9000).toBeCloseTo(94.65, 2);
    expect(check.iceBiasTicks).toBe(3600);
    expect(await stateOf(kitchen, id)).toMatchObject({ dueToday: false, overdue: false });
    kitchen.clock.advance(364 * DAY_MS);
    expect((await stateOf(kitchen, id)).overdue).toBe(false);
    kitchen.clock.advance(3 * DAY_MS);
    expect((await stateOf(kitchen, id)).overdue).toBe(true);
  });

  it('that can’t be is refused with a sentence at its field, and nothing is kept', async () => {
    const kitchen = await openTestKitchen();
    const id = await addProbe(kitchen);
    const at = async (more: Partial<Input<'instrument.check'>>) => (await refusal(kitchen.reply('instrument.check', checkInput(kitchen, id, more)))).fields?.[0]?.path.join('.');
    expect(await at({ ice: null })).toBe('ice');
    expect(await at({ boiling: { text: '212', unit: 'F' } })).toBe('altitudeMetres');
    expect(await at({ boiling: { text: '212', unit: 'F' }, altitudeMetres: 'high' })).toBe('altitudeMetres');
    expect(await at({ ice: { text: '68', unit: 'F' } })).toBe('ice.text');
    expect(await at({ atMs: kitchen.clock.nowMs() + DAY_MS })).toBe('atMs');
    expect((await stateOf(kitchen, id)).checks).toEqual([]);
  });

  it('past correcting says that it should be replaced', async () => {
    const kitchen = await openTestKitchen();
    const id = await addProbe(kitchen);
    const { check } = await kitchen.ask('instrument.check', checkInput(kitchen, id, { ice: { text: '37', unit: 'F' } }));
    expect(check.text).toContain('Replace the thermometer');
  });
});

describe('what a check says of readings', () => {
  it('counts against a hold: a probe that read high, found before or after the load', async () => {
    const { smoke, probeId, verdict } = await atTheLimit();
    expect((await verdict())?.verdict).toBe('meets');
    smoke.kitchen.clock.advance(DAY_MS);
    await smoke.kitchen.ask('instrument.check', checkInput(smoke.kitchen, probeId, { ice: { text: '32.5', unit: 'F' } }));
    expect(await verdict()).toMatchObject({ verdict: 'open', provenMinutes: 0 });
  });

  it('never helps: a probe that read low proves no more than it showed', async () => {
    const { smoke, probeId, verdict } = await atTheLimit('144.5');
    await smoke.kitchen.ask('instrument.check', checkInput(smoke.kitchen, probeId, { ice: { text: '31', unit: 'F' } }));
    expect(await verdict()).toMatchObject({ verdict: 'open', provenMinutes: 0 });
  });

  it('is kept apart from what stays open: a true probe checked once meets, within its class', async () => {
    const { smoke, probeId, verdict } = await atTheLimit('146.0');
    await smoke.kitchen.ask('instrument.check', checkInput(smoke.kitchen, probeId));
    // The kitchen told that it may be off by nothing; one check leaves a step of 1 °F and the ice open.
    expect((await verdict())?.verdict).toBe('meets-within-error');
    expect((await stateOf(smoke.kitchen, probeId)).text).toContain('What stays open: 1.1 °F either way');
  });

  it('of a thermometer past correcting leaves its readings with all that the check makes possible', async () => {
    const { smoke, probeId, verdict } = await atTheLimit('149.0');
    await smoke.kitchen.ask('instrument.check', checkInput(smoke.kitchen, probeId, { ice: { text: '37', unit: 'F' } }));
    expect(await verdict()).toMatchObject({ verdict: 'open', provenMinutes: 0 });
  });
});
