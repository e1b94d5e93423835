import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { HOUR_MS, makeBatch, receive, soakInput } from './fish-and-brine.ts';

type Batch = Output<'batch.list'>['batches'][number];

async function batchOf(kitchen: TestKitchen, marketName: string): Promise<Batch> {
  const batch = (await kitchen.ask('batch.list', {})).batches.find((one) => one.marketName === marketName);
  if (batch === undefined) throw new Error(`the demonstration kitchen has no ${marketName}`);
  return batch;
}

/** The deciding checks that don’t meet, of those that apply. A choice of several meets by its best. */
function withoutMeeting({ checks }: Output<'batch.verdict'>['deciding']): [string, string][] {
  return checks.filter(({ verdict }) => verdict !== 'meets' && verdict !== 'does-not-apply').map(({ checkId, verdict }) => [checkId, verdict]);
}

describe('the demonstration kitchen', () => {
  it('is marked as invented and has people of every role, instruments, smokers and places', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const office = await kitchen.ask('office.get', {});
    expect(office.kitchen).toMatchObject({ name: 'Tamarack Narrows Lodge', demo: true, kind: 'custom-processor', decidingSetId: 'lodge-default' });
    expect(new Set(office.people.map((person) => person.role))).toEqual(new Set(['manager', 'chef', 'hand']));
    expect(office.smokers.map((smoker) => [smoker.name, smoker.probeIds.length, smoker.chamberInstrumentId === null])).toEqual([['North smoker', 4, false], ['Stone smoker', 4, false]]);
    expect(office.places.map((place) => [place.name, place.kind])).toEqual([['Brining room', 'brining-room'], ['Walk-in cooler', 'cooler'], ['Chest freezer', 'freezer']]);
    for (const place of office.places) expect(place.lastAtMs).toBeGreaterThan(kitchen.clock.nowMs() - 24 * HOUR_MS);
    expect(office.instruments.map((instrument) => instrument.kind)).toEqual(expect.arrayContaining(['wired-probe', 'hand-thermometer', 'logger']));
    expect((await kitchen.ask('recipe.list', {})).recipes.length).toBeGreaterThan(3);
  });

  it('has a whitefish batch that met every limit so far, was released, sealed in packs and labelled; four packs are in the freezer still', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const batch = await batchOf(kitchen, 'Lake Whitefish');
    const record = await kitchen.ask('record.batch', { batchId: batch.id });
    expect(batch.stage).toBe('released');
    expect(record.deciding).toMatchObject({ setId: 'lodge-default', verdict: 'open' });
    expect(withoutMeeting(record.deciding)).toEqual([['FROZEN-0F', 'open']]);
    expect(record.deciding.checks.find((check) => check.checkId === 'HOT-145-30')).toMatchObject({ verdict: 'meets', requiredMinutes: 30 });
    expect(record.deciding.checks.find((check) => check.checkId === 'COOL-AFDO')?.verdict).toBe('meets');
    expect(record.gates.map((gate) => [gate.gate, gate.state])).toEqual([['brine', 'may'], ['smoke', 'may'], ['pack', 'may'], ['leave', 'may']]);
    expect(record.packs).toHaveLength(12);
    expect(record.labels).toHaveLength(12);
    expect(record.packs[0]?.code).toBe(`${batch.lotCode ?? ''}-001`);
    expect(record.series.length).toBe(5);
    expect(record.decisions.map((decision) => decision.decision)).toEqual(['release']);
    const stock = await kitchen.ask('pack.stock', {});
    expect(stock.packs.map(({ code }) => code.slice(-3))).toEqual(['009', '010', '011', '012']);
    expect(stock.byPlace).toMatchObject([{ name: 'Chest freezer', packs: 4 }]);
    const { trays } = await kitchen.ask('tray.list', { batchId: batch.id });
    expect(trays.map(({ name, packs, outAtMs }) => [name, packs, outAtMs === null])).toEqual([['Tray 2', 4, true], ['Tray 1', 0, false]]);
  });

  it('has a guest’s lake trout on HOLD because a gap broke its hold', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const batch = await batchOf(kitchen, 'Lake Trout');
    expect(batch).toMatchObject({ stage: 'on-hold', sourceKind: 'guest', ownerName: 'Anders Holm' });
    const { deciding, gates, decisions } = await kitchen.ask('record.batch', { batchId: batch.id });
    expect(deciding.checks.find((check) => check.checkId === 'HOT-145-30')).toMatchObject({ verdict: 'not-proven', provenMinutes: 10, requiredMinutes: 30 });
    expect(deciding.checks.find((check) => check.checkId === 'COOL-AFDO')?.verdict).toBe('meets');
    expect(gates.find((gate) => gate.gate === 'pack')?.state).toBe('blocked');
    expect(decisions.at(-1)).toMatchObject({ decision: 'hold', initials: 'RO', keptWhere: expect.stringContaining('Walk-in cooler') });
    expect(await kitchen.reply('pack.seal', { batchId: batch.id, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: kitchen.clock.nowMs() })).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS' } });
  });

  it('has a batch in its soak today, with a turn done and the next one due on the line', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const batch = await batchOf(kitchen, 'Rainbow Trout');
    expect(batch.stage).toBe('soaking');
    const bar = (await kitchen.ask('line.get', {})).bars.find((one) => one.batchId === batch.id);
    const { series } = await kitchen.ask('record.batch', { batchId: batch.id });
    expect(series.map((one) => one.series.length)).toEqual([4]);
    expect(bar?.turns.map((turn) => turn.done)).toEqual([true, false]);
    expect(bar?.dues.length).toBe(2);
    for (const due of bar?.dues ?? []) {
      expect(due.overdue).toBe(false);
      expect(due.atMs).toBeLessThan(kitchen.clock.nowMs() + 24 * HOUR_MS);
    }
  });

  it('has fish that waits for its brine', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const { lots } = await kitchen.ask('fishLot.list', {});
    expect(lots.filter((lot) => lot.batchIds.length === 0).map((lot) => [lot.species.commonName, lot.source.kind])).toEqual([['Walleye', 'guest']]);
  });

  it('was written down as it happened, by the people named, on an intact chain', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const batch = await batchOf(kitchen, 'Lake Whitefish');
    const { entries, chain } = await kitchen.ask('record.batch', { batchId: batch.id });
    expect(chain.intact).toBe(true);
    expect(entries.length).toBeGreaterThan(30);
    const initials = new Set((await kitchen.ask('office.get', {})).people.map((person) => person.initials));
    for (const entry of entries) {
      expect(initials).toContain(entry.person);
      expect(entry.enteredAtMs).toBeLessThanOrEqual(kitchen.clock.nowMs());
      expect(entry.happenedAtMs ?? entry.enteredAtMs).toBeLessThanOrEqual(entry.enteredAtMs);
    }
    const times = entries.map((entry) => entry.enteredAtMs);
    expect(times).toEqual(times.toSorted((one, other) => one - other));
  });

  it('has both smokers free for a batch of today', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const { smokers } = await kitchen.ask('office.get', {});
    const lot = await receive(kitchen);
    for (const smoker of smokers) {
      const batch = await makeBatch(kitchen, [lot.id], { fillets: { text: '4', unit: 'lb' } });
      const nowMs = kitchen.clock.nowMs();
      kitchen.clock.advance(2 * HOUR_MS);
      await kitchen.ask('soak.log', soakInput(batch.id, 'start', nowMs));
      await kitchen.ask('soak.log', soakInput(batch.id, 'end', nowMs + HOUR_MS));
      const opened = await kitchen.reply('load.open', {
        smokerId: smoker.id, batchIds: [batch.id], chamberInstrumentId: null,
        pieces: [{ name: 'Thickest', batchId: batch.id, thicknessMm: 25, rackPlace: '', instrumentId: smoker.probeIds[0] ?? null }],
      });
      expect(opened).toMatchObject({ ok: true, value: { load: { smokerName: smoker.name } } });
    }
  });

  it.each([
    ['just after midnight', Date.UTC(2026, 6, 14, 5, 5)],
    ['late at night', Date.UTC(2026, 6, 15, 4, 55)],
    ['on the day the clocks go forward', Date.UTC(2026, 2, 8, 18)],
    ['the morning after', Date.UTC(2026, 2, 9, 12)],
    ['on the day the clocks go back', Date.UTC(2026, 10, 1, 18)],
    ['on a leap day', Date.UTC(2028, 1, 29, 18)],
  ])('tells the same story when it is opened %s', async (_what, nowMs) => {
    const kitchen = await openTestKitchen({ demo: true, nowMs });
    const { batches } = await kitchen.ask('batch.list', {});
    expect(batches.map((batch) => [batch.marketName, batch.stage])).toEqual([['Rainbow Trout', 'soaking'], ['Lake Trout', 'on-hold'], ['Lake Whitefish', 'released']]);
    const whitefish = batches.find((batch) => batch.marketName === 'Lake Whitefish');
    const { deciding, gates } = await kitchen.ask('batch.verdict', { batchId: whitefish?.id ?? '' });
    expect(withoutMeeting(deciding)).toEqual([['FROZEN-0F', 'open']]);
    expect(gates.find(({ gate }) => gate === 'leave')?.state).toBe('may');
    expect((await kitchen.ask('worklist.get', {})).items).toEqual([]);
  });

  it('is opened again as it was left', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const before = await kitchen.ask('batch.list', {});
    expect(await kitchen.ask('book.openDemo', {})).toMatchObject({ state: 'open', kitchen: { demo: true } });
    expect(await kitchen.ask('batch.list', {})).toEqual(before);
  });
});
