/** A broker of MQTT listened to, with every message acknowledged only once it is in the book. */
import { connect, type IClientOptions, type IPublishPacket, type MqttClient } from 'mqtt';
import type { MqttLink } from '../../../app/contract/requests/feeds.ts';
import { readPath, readPayload, type PathStep, type PayloadPaths } from '../../../app/probes/feed-payload.ts';
import { isUnder } from '../../../app/probes/feed-topics.ts';
import { shorten } from '../../../app/probes/feed-value.ts';
import { CONNECT_MS, faultWords, untilDown, type Arrival, type Link, type LinkParts } from './feed-link.ts';

/** Between two signs of life: a dead link is noticed within half as long again (our choice). */
const KEEPALIVE_SECONDS = 10;
/** A sender's clock may be this much ahead of ours (our choice); further, and its times are wrong. */
const AHEAD_MS = 60_000;
const REFUSED_SUBSCRIPTION = 128;

/** The answers to a connection (OASIS, MQTT Version 3.1.1, 3.2.2.3, 2014; from memory). */
const CONNACK_WORDS: Readonly<Record<number, string>> = {
  1: 'the broker speaks another version of MQTT', 2: 'the broker refuses this computer’s name', 3: 'the broker is not ready',
  4: 'the broker refuses the user or the password', 5: 'the broker doesn’t let this user in',
};

export interface MqttParts extends LinkParts {
  readonly clientId: string;
  readonly password: string | null;
}

interface TopicChannel extends PayloadPaths {
  readonly index: number;
  readonly topic: string;
}

type SendPacket = (packet: { readonly cmd: string }, done?: () => void, stored?: unknown) => unknown;

/** Opens it; the settings were checked when they were saved. */
export function openMqttLink(link: MqttLink, { events: told, clock, clientId, password }: MqttParts): Link {
  const channels = link.channels.map((channel, index): TopicChannel => ({
    index, topic: channel.topic, unit: channel.unit, path: stepsOf(channel.path), timePath: channel.timePath === '' ? null : stepsOf(channel.timePath),
  }));
  // What a broker kept for us while the link was down comes late: without a time of its own nobody knows how late.
  const keepsSession = channels.every(({ timePath }) => timePath !== null);
  const options: IClientOptions = {
    protocol: 'mqtt', host: link.host, port: link.port, clientId, clean: !keepsSession, keepalive: KEEPALIVE_SECONDS, connectTimeout: CONNECT_MS,
    reconnectPeriod: 0, resubscribe: false, protocolVersion: 4,
    ...(link.user === '' ? {} : { username: link.user }), ...(password === null ? {} : { password }),
  };
  const client = connect(options);
  const acknowledge = holdAcknowledgements(client);
  const events = untilDown(told, () => client.end(true));

  // It goes on complaining after it was ended; unheard errors would end the program.
  client.on('error', (problem) => events.down(errorWords(problem)));
  client.on('close', () => events.down('the broker broke the connection off, or did not answer'));
  client.on('connect', () => {
    client.subscribe(link.topicFilter, { qos: 1 }, (problem, granted) => {
      if (problem !== null || granted?.some(({ qos }) => Number(qos) === REFUSED_SUBSCRIPTION) === true) events.down(`the broker doesn’t let this user listen to ${link.topicFilter}`);
      else events.up();
    });
  });
  client.on('message', (topic, payload, packet) => {
    // Of an older session something else may still come.
    if (!isUnder(topic, link.topicFilter)) return;
    const mine = channels.filter((channel) => channel.topic === topic);
    if (mine.length === 0) events.other(shorten(topic), shorten(Buffer.from(payload.subarray(0, 200)).toString('utf8')));
    else events.arrived(mine.map((channel) => arrivalOf(channel, payload, packet, clock.nowMs())));
  });
  return { acknowledge, close: events.stop };
}

function arrivalOf(channel: TopicChannel, payload: Uint8Array, packet: Pick<IPublishPacket, 'retain' | 'dup'>, nowMs: number): Arrival {
  const { value, atMs, timeFault } = readPayload(payload, channel);
  return { channel: channel.index, value, atMs: atMs ?? nowMs, unkept: whyUnkept() };

  function whyUnkept(): string | null {
    if (timeFault !== null) return `it is not kept, since ${timeFault}`;
    if (atMs !== null) return atMs > nowMs + AHEAD_MS ? 'it is not kept, since its time is still to come: the sender’s clock is wrong' : null;
    if (packet.retain) return 'it is not kept, since the broker had it in store and nobody knows how long';
    return packet.dup ? 'it is not kept, since it was sent before' : null;
  }
}

function stepsOf(path: string): readonly PathStep[] {
  const steps = readPath(path);
  return steps.ok ? steps.value : [];
}

function errorWords(problem: unknown): string {
  const code = typeof problem === 'object' && problem !== null && 'code' in problem ? problem.code : undefined;
  if (typeof code === 'number') return CONNACK_WORDS[code] ?? `the broker refuses (${code})`;
  if (problem instanceof Error && /connack timeout/i.test(problem.message)) return 'nothing that speaks MQTT answers at this address';
  if (problem instanceof Error && /keepalive timeout/i.test(problem.message)) return 'the broker no longer answers';
  return code === undefined ? 'what came is no MQTT' : faultWords(problem);
}

/**
 * The library acknowledges a message as soon as it was heard, and a broker forgets it then. Its acknowledgements are
 * held back until `release`; the way to them is the library's own and private, so a test holds it to its version.
 */
function holdAcknowledgements(client: MqttClient): () => void {
  const send = (client['_sendPacket'] as SendPacket).bind(client);
  let held: { readonly cmd: string }[] = [];
  const sendOrHold: SendPacket = (packet, done, stored) => {
    if (packet.cmd !== 'puback') return send(packet, done, stored);
    held.push(packet);
    done?.();
    return client;
  };
  client['_sendPacket'] = sendOrHold;
  return () => {
    const due = held;
    held = [];
    for (const packet of due) send(packet);
  };
}
