/** A kitchen with a load whose probes send: by a real device or broker in a process of its own, on this computer. */
import { onTestFinished } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { FeedLinkDraft, FeedNow, ModbusChannel, MqttChannel } from '../../app/contract/requests/feeds.ts';
import type { Series } from '../../app/contract/requests/quantities.ts';
import { startSender, type Sender } from '../support/feeds/sender.ts';
import { openLoad, openSmokeKitchen, type SmokeKitchen } from './smoke-kitchen.ts';

export type Load = Output<'load.open'>['load'];

export interface FeedKitchen extends SmokeKitchen {
  readonly load: Load;
}

export async function openFeedKitchen(): Promise<FeedKitchen> {
  const smoke = await openSmokeKitchen({}, {}, { runsFeeds: true });
  const load = await openLoad(smoke);
  // The soak made the clock jump, which the feeds take for sleep.
  await pause(1100);
  return { ...smoke, load };
}

export async function startForTest(file: 'modbus-device.ts' | 'mqtt-broker.ts', ...values: readonly string[]): Promise<Sender> {
  const sender = await startSender(file, ...values);
  onTestFinished(() => sender.stop());
  return sender;
}

export function register(instrumentId: string, more: Partial<ModbusChannel> = {}): ModbusChannel {
  return { instrumentId, placeId: null, unit: 'C', register: 0, table: 'holding', type: 'int16', order: 'big', scale: '0.1', offset: '0', ...more };
}

export function modbusLink(port: number, channels: ModbusChannel[], more: Partial<Extract<FeedLinkDraft, { kind: 'modbus' }>> = {}): FeedLinkDraft {
  return { kind: 'modbus', host: '127.0.0.1', port, unitId: 1, pollSeconds: 1, countsFrom: 0, channels, ...more };
}

export function topic(instrumentId: string, more: Partial<MqttChannel> = {}): MqttChannel {
  return { instrumentId, placeId: null, unit: 'C', topic: 'lodge/1', path: 'v', timePath: 't', ...more };
}

export function mqttLink(port: number, channels: MqttChannel[], more: Partial<Extract<FeedLinkDraft, { kind: 'mqtt' }>> = {}): FeedLinkDraft {
  return { kind: 'mqtt', host: '127.0.0.1', port, user: '', hasPassword: false, topicFilter: 'lodge/#', channels, ...more };
}

export async function saveFeed({ kitchen }: Pick<SmokeKitchen, 'kitchen'>, link: FeedLinkDraft, name = 'Smokehouse box'): Promise<Output<'feed.save'>['feed']> {
  return (await kitchen.ask('feed.save', { feedId: null, name, link } satisfies Input<'feed.save'>)).feed;
}

export async function feedNow({ kitchen }: Pick<SmokeKitchen, 'kitchen'>, id: string): Promise<FeedNow> {
  const found = (await kitchen.ask('feed.list', {})).feeds.find(({ feed }) => feed.id === id);
  if (found === undefined) throw new Error('the feed is gone');
  return found;
}

/** Waits until the feed is as expected; fails with how it was. */
export async function waitForFeed(smoke: Pick<SmokeKitchen, 'kitchen'>, id: string, isIt: (now: FeedNow) => boolean, seconds = 10): Promise<FeedNow> {
  const endMs = performance.now() + seconds * 1000;
  for (;;) {
    const now = await feedNow(smoke, id);
    if (isIt(now)) return now;
    if (performance.now() > endMs) throw new Error(`The feed was not as expected: ${JSON.stringify(now)}`);
    await pause(30);
  }
}

export function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => { setTimeout(resolve, milliseconds); });
}

/** Every reading of a point, as the pages get it. */
export async function readingsOf({ kitchen }: Pick<SmokeKitchen, 'kitchen'>, pointId: string): Promise<{ atMs: number; ticks: number }[]> {
  const { series } = await kitchen.ask('series.get', { pointIds: [pointId], fromMs: 0, toMs: 8_000_000_000_000, pixels: 4000 });
  const [one] = series;
  if (one === undefined || !one.isWhole) throw new Error('the series is not whole');
  return unpack(one.series);
}

function unpack({ atMs, ticks, length }: Series): { atMs: number; ticks: number }[] {
  const times = Buffer.from(atMs, 'base64');
  const values = Buffer.from(ticks, 'base64');
  return Array.from({ length }, (_, index) => ({ atMs: times.readDoubleLE(index * 8), ticks: values.readInt32LE(index * 4) }));
}
