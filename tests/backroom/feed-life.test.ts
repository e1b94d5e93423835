/** Feeds through the life of a book: a probe that moves, a load that ends, sleep, a restart, and an hour gone by. */
import { describe, expect, it } from 'vitest';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { feedNow, modbusLink, mqttLink, openFeedKitchen, pause, readingsOf, register, saveFeed, startForTest, topic, waitForFeed } from './feed-kitchen.ts';
import { pointId } from './smoke-kitchen.ts';

const HOUR_MS = 3_600_000;

describe('a feed', () => {
  it('follows its thermometer from piece to piece, and by the time of a late message back again', async () => {
    const smoke = await openFeedKitchen();
    const { kitchen, load } = smoke;
    const broker = await startForTest('mqtt-broker.ts');
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    const send = (atMs: number, v: number) => broker.tell({ publish: [{ topic: 'lodge/1', payload: JSON.stringify({ t: atMs, v }) }] });
    const beforeMs = kitchen.clock.nowMs();
    const movedMs = beforeMs + 100;
    await pause(200);
    await kitchen.ask('point.moveInstrument', { pointId: pointId(load, 'Thick end'), instrumentId: null, atMs: movedMs, why: 'pulled' });
    await kitchen.ask('point.moveInstrument', { pointId: pointId(load, 'Centre cut'), instrumentId: smoke.probeIds[0] ?? null, atMs: movedMs, why: 'moved' });
    await send(movedMs + 20, 50);
    await send(beforeMs, 40);
    await send(load.openedAtMs - HOUR_MS, 30);
    const now = await waitForFeed(smoke, feed.id, ({ counts }) => counts.came === 3 && counts.kept === 2);
    expect(now.counts.homeless).toBe(1);
    expect(await readingsOf(smoke, pointId(load, 'Thick end'))).toEqual([{ atMs: beforeMs, ticks: 360_000 }]);
    expect(await readingsOf(smoke, pointId(load, 'Centre cut'))).toEqual([{ atMs: movedMs + 20, ticks: 450_000 }]);
  });

  it('of a thermometer that stands nowhere is shown and not kept, and is kept from the moment it stands somewhere', async () => {
    const kitchen = await openTestKitchen({ runsFeeds: true });
    const { id } = await kitchen.ask('office.addInstrument', { name: 'Logger', kind: 'logger', error: null });
    const place = await kitchen.ask('office.addPlace', { name: 'Walk-in cooler', kind: 'cooler' });
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 0: 34 } } });
    const feed = await saveFeed({ kitchen }, modbusLink(device.port, [register(id)]));
    const idle = await waitForFeed({ kitchen }, feed.id, ({ counts }) => counts.homeless >= 1);
    expect(idle).toMatchObject({ channels: [{ value: { text: '3.4' }, problem: null, keptIn: null }], counts: { kept: 0 } });
    await kitchen.ask('feed.save', { feedId: feed.id, name: 'Smokehouse box', link: modbusLink(device.port, [register(id, { placeId: place.id })]) });
    const kept = await waitForFeed({ kitchen }, feed.id, ({ counts }) => counts.kept >= 1);
    expect(kept.channels[0]?.keptIn).toBe('Walk-in cooler');
    const { places } = await kitchen.ask('office.get', {});
    expect(places).toMatchObject([{ name: 'Walk-in cooler', lastTicks: 30_600 }]);
  });

  it('sends nothing into a load whose record is closed', async () => {
    const smoke = await openFeedKitchen();
    const { kitchen, load } = smoke;
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 0: 628 } } });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 1);
    for (const what of ['in', 'out', 'cooled'] as const) await kitchen.ask('load.mark', { loadId: load.id, what, atMs: kitchen.clock.nowMs() });
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.homeless >= 2);
    const { counts } = await feedNow(smoke, feed.id);
    expect(await readingsOf(smoke, pointId(load, 'Thick end'))).toHaveLength(counts.kept);
    expect(counts.kept + counts.homeless).toBe(counts.came);
  });

  it('is made anew after sleep, and the gap stays', async () => {
    const smoke = await openFeedKitchen();
    const { kitchen, load } = smoke;
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 0: 628 } } });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 2);
    kitchen.clock.advance(10 * 60_000);
    await waitForFeed(smoke, feed.id, ({ text }) => text.includes('this computer slept, or its clock was set'));
    const { counts } = await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    await waitForFeed(smoke, feed.id, (now) => now.counts.kept >= counts.kept + 2);
    const readings = await readingsOf(smoke, pointId(load, 'Thick end'));
    const steps = readings.map(({ atMs }, index) => atMs - (readings[index - 1]?.atMs ?? atMs));
    expect(steps.filter((step) => step > 5 * 60_000)).toHaveLength(1);
    expect(kitchen.faults).toEqual([]);
  });

  it('that falls silent while its load is in raises the alarm of its probe, by name and time', async () => {
    const smoke = await openFeedKitchen();
    const { kitchen, load } = smoke;
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 0: 628 } } });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? '')]));
    await kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: kitchen.clock.nowMs() });
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 3);
    const silent = async () => (await kitchen.ask('alarms.list', { loadId: load.id })).alarms.filter(({ kind }) => kind === 'probe-silent');
    expect(await silent()).toEqual([]);
    await device.tell({ cut: true });
    kitchen.clock.advance(20 * 60_000);
    expect(await silent()).toMatchObject([{ pointId: pointId(load, 'Thick end'), text: expect.stringMatching(/^Piece Thick end has sent nothing since 10:00/) }]);
  });

  it('goes on by itself when the book is opened again', async () => {
    const smoke = await openFeedKitchen();
    const device = await startForTest('modbus-device.ts');
    await device.tell({ set: { holding: { 0: 628 } } });
    const feed = await saveFeed(smoke, modbusLink(device.port, [register(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 2);
    await smoke.kitchen.close();
    const { asked: before = 0 } = await device.tell({});
    await pause(1500);
    expect((await device.tell({})).asked).toBe(before);
    const still = await openTestKitchen({ bookFile: smoke.kitchen.file, nowMs: smoke.kitchen.clock.nowMs() });
    await pause(1500);
    expect((await device.tell({})).asked).toBe(before);
    expect((await feedNow({ kitchen: still }, feed.id)).state).toBe('not-here');
    await still.close();
    const again = await openTestKitchen({ bookFile: smoke.kitchen.file, nowMs: smoke.kitchen.clock.nowMs(), runsFeeds: true });
    await waitForFeed({ kitchen: again }, feed.id, ({ counts }) => counts.kept >= 1);
    const readings = await readingsOf({ kitchen: again }, pointId(smoke.load, 'Thick end'));
    expect(readings.length).toBeGreaterThanOrEqual(3);
    await again.close();
  });

  it('has its readings put into the record by the hour, by nobody’s name, and loses none', async () => {
    const smoke = await openFeedKitchen();
    const { kitchen, load } = smoke;
    const broker = await startForTest('mqtt-broker.ts');
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    const fromMs = kitchen.clock.nowMs() - 1000;
    await broker.tell({ publish: Array.from({ length: 40 }, (_, index) => ({ topic: 'lodge/1', payload: JSON.stringify({ t: fromMs + index, v: 60 + index / 10 }) })) });
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept === 40);
    kitchen.clock.advance(HOUR_MS);
    const closed = async () => (await kitchen.ask('record.batch', { batchId: smoke.batchId })).entries.find(({ summary }) => summary === '40 readings of Thick end came in live.');
    const endMs = performance.now() + 15_000;
    while ((await closed()) === undefined && performance.now() < endMs) await pause(200);
    expect(await closed()).toMatchObject({ person: '' });
    expect(await readingsOf(smoke, pointId(load, 'Thick end'))).toHaveLength(40);
    expect((await kitchen.ask('record.batch', { batchId: smoke.batchId })).chain.intact).toBe(true);
    expect(kitchen.faults).toEqual([]);
  });
});
