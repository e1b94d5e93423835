import { describe, expect, it } from 'vitest';
import { openTestKitchen } from '../support/test-kitchen.ts';

describe('the people of the kitchen', () => {
  it('are added by a manager and by nobody else', async () => {
    const kitchen = await openTestKitchen();
    const person = { initials: 'NN', name: 'Nils Norberg', role: 'chef' } as const;
    for (const as of ['CH', 'HA']) {
      expect(await kitchen.reply('office.addPerson', person, as)).toMatchObject({ ok: false, error: { code: 'NOT_ALLOWED', message: expect.stringContaining('a manager') } });
    }
    const { id } = await kitchen.ask('office.addPerson', person, 'MG');
    expect((await kitchen.ask('office.get', {})).people.at(-1)).toEqual({ id, ...person });
  });

  it('have initials of their own, whatever the capitals', async () => {
    const kitchen = await openTestKitchen();
    const refused = await kitchen.reply('office.addPerson', { initials: 'ch', name: '', role: 'hand' });
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: 'The initials ch belong to Cal Hurst already.', fields: [{ path: ['initials'] }] } });
    expect((await kitchen.ask('office.get', {})).people).toHaveLength(3);
  });
});

describe('instruments', () => {
  it('count with 2 °F without a check on file, and with what the kitchen entered otherwise', async () => {
    const kitchen = await openTestKitchen();
    await kitchen.ask('office.addInstrument', { name: 'Probe 1', kind: 'wired-probe', error: null });
    await kitchen.ask('office.addInstrument', { name: 'Probe 2', kind: 'wired-probe', error: { text: '0.5', unit: 'C' } });
    const { instruments } = await kitchen.ask('office.get', {});
    expect(instruments.map(({ errorTicks, errorGround }) => [errorTicks, errorGround])).toEqual([
      [10_000, 'no check on file, so 2 °F'], [4500, '0.5 °C, as the kitchen entered it'],
    ]);
  });

  it.each(['-1', '1,5', 'small', '', '30'])('refuse an error of “%s”', async (text) => {
    const kitchen = await openTestKitchen();
    const refused = await kitchen.reply('office.addInstrument', { name: 'Probe 1', kind: 'wired-probe', error: { text, unit: 'F' } });
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['error'] }] } });
  });

  it('have names of their own', async () => {
    const kitchen = await openTestKitchen();
    await kitchen.ask('office.addInstrument', { name: 'Probe 1', kind: 'wired-probe', error: null });
    expect(await kitchen.reply('office.addInstrument', { name: 'probe 1', kind: 'logger', error: null })).toMatchObject({ ok: false, error: { code: 'CONFLICT', fields: [{ path: ['name'] }] } });
  });
});

describe('smokers and places', () => {
  it('keep their probes and show the last reading of a place', async () => {
    const kitchen = await openTestKitchen();
    const probe = await kitchen.ask('office.addInstrument', { name: 'Probe 1', kind: 'wired-probe', error: null });
    const chamber = await kitchen.ask('office.addInstrument', { name: 'Chamber probe', kind: 'wired-probe', error: null });
    const smoker = await kitchen.ask('office.addSmoker', { name: 'Old smoker', chamberInstrumentId: chamber.id, probeIds: [probe.id] });
    const place = await kitchen.ask('office.addPlace', { name: 'Walk-in', kind: 'cooler' });
    const atMs = kitchen.clock.nowMs();
    await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: place.id, atMs, value: { text: '36', unit: 'F' }, instrumentId: probe.id }] });
    const office = await kitchen.ask('office.get', {});
    expect(office.smokers).toEqual([{ id: smoker.id, name: 'Old smoker', chamberInstrumentId: chamber.id, probeIds: [probe.id], coldestPlace: '', warmestPlace: '', largestLoadGrams: null }]);
    expect(office.places).toEqual([{ id: place.id, name: 'Walk-in', kind: 'cooler', lastTicks: 20_000, lastAtMs: atMs }]);
    expect(office.backupHint).toContain('kitchen.alderbook');
  });

  it('refuse probes that are not there, named twice, or both in the chamber and in a piece', async () => {
    const kitchen = await openTestKitchen();
    const { id } = await kitchen.ask('office.addInstrument', { name: 'Probe 1', kind: 'wired-probe', error: null });
    const codes: unknown[] = [];
    for (const probes of [{ chamberInstrumentId: null, probeIds: ['nowhere'] }, { chamberInstrumentId: null, probeIds: [id, id] }, { chamberInstrumentId: id, probeIds: [id] }]) {
      const refused = await kitchen.reply('office.addSmoker', { name: 'Old smoker', ...probes });
      codes.push(refused.ok ? 'ok' : refused.error.code);
    }
    expect(codes).toEqual(['NOT_FOUND', 'INVALID_INPUT', 'INVALID_INPUT']);
  });

  it('have names of their own', async () => {
    const kitchen = await openTestKitchen();
    await kitchen.ask('office.addPlace', { name: 'Freezer', kind: 'freezer' });
    expect(await kitchen.reply('office.addPlace', { name: 'Freezer', kind: 'freezer' })).toMatchObject({ ok: false, error: { code: 'CONFLICT' } });
  });
});

describe('the kitchen’s settings', () => {
  it('are changed by a manager, with before and after in the record', async () => {
    const kitchen = await openTestKitchen();
    const { demo, ...draft } = (await kitchen.ask('office.get', {})).kitchen;
    expect(demo).toBe(false);
    expect(await kitchen.reply('office.saveKitchen', { ...draft, temperatureUnit: 'C' }, 'CH')).toMatchObject({ ok: false, error: { code: 'NOT_ALLOWED' } });
    const saved = await kitchen.ask('office.saveKitchen', { ...draft, temperatureUnit: 'C' });
    expect(saved.kitchen).toEqual({ ...draft, temperatureUnit: 'C', demo: false });
    expect((await kitchen.ask('book.status', {})).kitchen).toEqual(saved.kitchen);
  });

  it('refuse a zone that is none, and a set that may not decide', async () => {
    const kitchen = await openTestKitchen();
    const { demo: _demo, ...draft } = (await kitchen.ask('office.get', {})).kitchen;
    expect(await kitchen.reply('office.saveKitchen', { ...draft, timeZone: 'Lake/Time' })).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['timeZone'] }] } });
    expect(await kitchen.reply('office.saveKitchen', { ...draft, decidingSetId: 'wi' })).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', fields: [{ path: ['decidingSetId'] }] } });
  });
});
