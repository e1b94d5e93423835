/** A load fed through a broker of MQTT that runs in a process of its own. */
import { describe, expect, it } from 'vitest';
import { feedNow, mqttLink, openFeedKitchen, pause, readingsOf, saveFeed, startForTest, topic, waitForFeed, type FeedKitchen } from './feed-kitchen.ts';
import { pointId } from './smoke-kitchen.ts';
import type { Sender } from '../support/feeds/sender.ts';

interface Message {
  readonly topic: string;
  readonly payload: string;
  readonly retain?: boolean;
}

function timed(name: string, atMs: number, value: number | string): Message {
  return { topic: name, payload: JSON.stringify({ t: new Date(atMs).toISOString(), v: value }) };
}

const send = (broker: Sender, ...publish: Message[]) => broker.tell({ publish });
const thickEnd = (smoke: FeedKitchen) => readingsOf(smoke, pointId(smoke.load, 'Thick end'));

describe('messages of MQTT', () => {
  it('are kept exactly, at their own time, each once, late ones too', async () => {
    const smoke = await openFeedKitchen();
    const broker = await startForTest('mqtt-broker.ts');
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? ''), topic(smoke.probeIds[1] ?? '', { topic: 'lodge/2', path: '', timePath: '', unit: 'F' })]));
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    const nowMs = smoke.kitchen.clock.nowMs() - 500;
    await send(broker, timed('lodge/1', nowMs - 200, 62.8), timed('lodge/1', nowMs, '62.9'), timed('lodge/1', nowMs, '62.9'), timed('lodge/1', nowMs - 400, 61.25), { topic: 'lodge/2', payload: '145.05' });
    const now = await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept + counts.repeated >= 5);
    expect(now.counts).toMatchObject({ came: 5, kept: 4, repeated: 1, homeless: 0, nonsense: 0 });
    expect(await thickEnd(smoke)).toEqual([{ atMs: nowMs - 400, ticks: 551_250 }, { atMs: nowMs - 200, ticks: 565_200 }, { atMs: nowMs, ticks: 566_100 }]);
    expect((await readingsOf(smoke, pointId(smoke.load, 'Centre cut'))).map(({ ticks }) => ticks)).toEqual([565_250]);
    expect(now.text).toMatch(/^Receiving: last value/);
    expect(smoke.kitchen.faults).toEqual([]);
  });

  it('that make no sense are counted, said, and keep nothing', async () => {
    const smoke = await openFeedKitchen();
    const broker = await startForTest('mqtt-broker.ts');
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    const nowMs = smoke.kitchen.clock.nowMs();
    await send(broker, { topic: 'lodge/1', payload: '\u0000\u0001' }, { topic: 'lodge/1', payload: '{"v":' }, timed('lodge/1', nowMs, 'OL'), timed('lodge/1', nowMs, 9999), { topic: 'lodge/elsewhere', payload: '12' });
    const now = await waitForFeed(smoke, feed.id, ({ counts, others }) => counts.nonsense >= 4 && others.length > 0);
    expect(now.counts).toMatchObject({ came: 0, kept: 0, nonsense: 4 });
    expect(now.text).toBe('The broker answers, but lodge/1 (v) holds no temperature (9999).');
    expect(now.others).toEqual([{ topic: 'lodge/elsewhere', sample: '12' }]);
    await send(broker, timed('lodge/1', nowMs + 600_000, 62.8), { topic: 'lodge/1', payload: '{"v":62.8,"t":"2026-11-25T14:00:00"}' });
    const later = await waitForFeed(smoke, feed.id, ({ counts }) => counts.came === 2);
    expect(later.channels[0]).toMatchObject({ value: { text: '62.8' }, problem: expect.stringContaining('which has no zone or is no time'), keptIn: null });
    await pause(1200);
    expect(await thickEnd(smoke)).toEqual([]);
    expect(smoke.kitchen.faults).toEqual([]);
  });

  it('sent while the link was down come late with their own time; without one they would be stamped wrongly, and the broker keeps none', async () => {
    const smoke = await openFeedKitchen();
    const broker = await startForTest('mqtt-broker.ts');
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? '')]));
    const plain = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[1] ?? '', { path: '', timePath: '', topic: 'lodge/2' })]), 'Second box');
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    await waitForFeed(smoke, plain.id, ({ state }) => state === 'connected');
    await broker.tell({ cut: true });
    await waitForFeed(smoke, feed.id, ({ text }) => text.startsWith('No answer since'));
    const nowMs = smoke.kitchen.clock.nowMs();
    await send(broker, timed('lodge/1', nowMs - 30, 62.8), timed('lodge/1', nowMs - 20, 62.9), { topic: 'lodge/2', payload: '50' });
    await broker.tell({ cut: false });
    await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept === 2);
    await waitForFeed(smoke, plain.id, ({ state }) => state === 'connected');
    await send(broker, { topic: 'lodge/2', payload: '51' });
    await waitForFeed(smoke, plain.id, ({ counts }) => counts.kept === 1);
    expect(await thickEnd(smoke)).toEqual([{ atMs: nowMs - 30, ticks: 565_200 }, { atMs: nowMs - 20, ticks: 566_100 }]);
    expect((await readingsOf(smoke, pointId(smoke.load, 'Centre cut'))).map(({ ticks }) => ticks)).toEqual([459_000]);
  });

  it('that the broker had in store are shown and kept only with a time of their own', async () => {
    const smoke = await openFeedKitchen();
    const broker = await startForTest('mqtt-broker.ts');
    const nowMs = smoke.kitchen.clock.nowMs();
    await send(broker, { topic: 'lodge/2', payload: '50', retain: true }, { ...timed('lodge/1', nowMs, 62.8), retain: true });
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? ''), topic(smoke.probeIds[1] ?? '', { path: '', timePath: '', topic: 'lodge/2' })]));
    const now = await waitForFeed(smoke, feed.id, ({ counts }) => counts.came === 2 && counts.kept === 1);
    expect(now.channels[1]).toMatchObject({ value: { text: '50' }, problem: 'it is not kept, since the broker had it in store and nobody knows how long', keptIn: null });
    expect(await readingsOf(smoke, pointId(smoke.load, 'Centre cut'))).toEqual([]);
  });

  it('are acknowledged to the broker only once they are in the book', async () => {
    const smoke = await openFeedKitchen();
    const broker = await startForTest('mqtt-broker.ts');
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? '')]));
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    const before = (await broker.tell({})).acknowledged ?? 0;
    await send(broker, timed('lodge/1', smoke.kitchen.clock.nowMs(), 62.8));
    for (;;) {
      // The broker is asked first: what was acknowledged by then must be in the book already.
      const { acknowledged = 0 } = await broker.tell({});
      const kept = (await thickEnd(smoke)).length;
      expect(acknowledged - before).toBeLessThanOrEqual(kept);
      if (acknowledged > before) break;
      await pause(10);
    }
  });

  it('of 24 probes, 5 a second each, come without loss or delay', async () => {
    const smoke = await openFeedKitchen();
    const broker = await startForTest('mqtt-broker.ts');
    const extra = await Promise.all(Array.from({ length: 23 }, async (_, index) => (await smoke.kitchen.ask('office.addInstrument', { name: `Box ${index + 1}`, kind: 'wired-probe', error: null })).id));
    const [place] = (await smoke.kitchen.ask('office.get', {})).places;
    const channels = [smoke.probeIds[0] ?? '', ...extra].map((id, index) => topic(id, { topic: `lodge/${index}`, placeId: index === 0 ? null : (place?.id ?? null) }));
    const feed = await saveFeed(smoke, mqttLink(broker.port, channels));
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    const beganMs = smoke.kitchen.clock.nowMs();
    for (let round = 0; round < 10; round += 1) {
      await send(broker, ...channels.map((channel, index) => timed(channel.topic, beganMs + round, 50 + index)));
      await pause(200);
    }
    const now = await waitForFeed(smoke, feed.id, ({ counts }) => counts.kept >= 240, 5);
    expect(now.counts).toMatchObject({ came: 240, kept: 240, repeated: 0 });
    expect(await thickEnd(smoke)).toHaveLength(10);
    expect(await readingsOf(smoke, place?.id ?? '')).toHaveLength(230);
  });
});

describe('a broker with a password', () => {
  it('is asked for after each start, kept out of the book, and refused in words where it is wrong', async () => {
    const smoke = await openFeedKitchen();
    const broker = await startForTest('mqtt-broker.ts', '0', 'probes', 'trout-and-alder');
    const feed = await saveFeed(smoke, mqttLink(broker.port, [topic(smoke.probeIds[0] ?? '')], { user: 'probes', hasPassword: true }));
    expect((await feedNow(smoke, feed.id)).text).toBe('Waits for its password, which is asked again after each start.');
    await smoke.kitchen.ask('feed.password', { feedId: feed.id, password: 'pike' });
    await waitForFeed(smoke, feed.id, ({ text }) => /the broker doesn’t let this user in|the broker refuses the user or the password/.test(text));
    await smoke.kitchen.ask('feed.password', { feedId: feed.id, password: 'trout-and-alder' });
    await waitForFeed(smoke, feed.id, ({ state }) => state === 'connected');
    await smoke.kitchen.close();
    const { readFileSync } = await import('node:fs');
    expect(readFileSync(smoke.kitchen.file).includes('probes')).toBe(true);
    expect(readFileSync(smoke.kitchen.file).includes('trout-and-alder')).toBe(false);
  });
});
