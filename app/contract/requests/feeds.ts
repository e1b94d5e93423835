/** Live feeds: which device is asked or listened to, what comes, and how each feed stands. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id, InstantMs, TemperatureUnit, Ticks, Words } from './quantities.ts';

const Host = z.string().trim().max(253);
const Port = z.number();
/** Whose readings they are: a thermometer, in a piece or chamber of whichever load it stands in, or in a place of the office. */
const Target = { instrumentId: Id, placeId: Id.nullable(), unit: TemperatureUnit };

export const ModbusChannel = z.strictObject({
  ...Target,
  /** As the device's paper prints it. */
  register: z.number(),
  table: z.enum(['holding', 'input']),
  type: z.enum(['int16', 'uint16', 'int32', 'float32']),
  order: z.enum(['big', 'word-swapped', 'byte-swapped', 'little']),
  /** Decimals as text: the number is multiplied by the one, and then the other is added. */
  scale: z.string().trim().max(20),
  offset: z.string().trim().max(20),
});
export const MqttChannel = z.strictObject({
  ...Target,
  topic: z.string().trim().max(400),
  /** Where in the message the temperature stands, such as `sensors[0].value`; empty where the message is the number. */
  path: z.string().trim().max(400),
  /** Where its own time stands; empty where it has none. */
  timePath: z.string().trim().max(400),
});
export const ModbusLink = z.strictObject({
  kind: z.literal('modbus'), host: Host, port: Port, unitId: z.number(), pollSeconds: z.number(),
  /** Whether the paper of the device counts registers from 0 or from 1. */
  countsFrom: z.union([z.literal(0), z.literal(1)]),
  channels: z.array(ModbusChannel).min(1).max(64),
});
export const MqttLink = z.strictObject({
  kind: z.literal('mqtt'), host: Host, port: Port, user: z.string().trim().max(200),
  /** The password itself is kept nowhere: it is asked after each start of the program. */
  hasPassword: z.boolean(),
  topicFilter: z.string().trim().max(400),
  channels: z.array(MqttChannel).min(1).max(64),
});
export const FeedLinkDraft = z.discriminatedUnion('kind', [ModbusLink, MqttLink]);
export const Feed = z.strictObject({
  id: Id, name: Words, isOn: z.boolean(), link: FeedLinkDraft, savedAtMs: InstantMs, savedBy: z.string(),
  /** Names this computer to the broker, for ever the same. */
  clientId: z.string().min(1).max(64),
});

/** What a channel received last. */
const ChannelNow = z.strictObject({
  /** “register 40012”, or the topic and path. */
  where: z.string(),
  instrumentId: Id,
  instrumentName: z.string(),
  /** The temperature with its own text; null where the last that came was none. */
  value: z.strictObject({ text: z.string(), unit: TemperatureUnit, ticks: Ticks, atMs: InstantMs }).nullable(),
  /** Why the last that came is no temperature, or is not kept; null where all is well. */
  problem: z.string().nullable(),
  /** Where it is kept: the piece or place; null where the thermometer stands nowhere now. */
  keptIn: z.string().nullable(),
});
/** A topic that comes in and that no thermometer has. */
const OtherTopic = z.strictObject({ topic: z.string(), sample: z.string() });
const FeedCounts = z.strictObject({
  /** Temperatures that came, of them kept, there already, and of thermometers that stood nowhere; and what was no temperature. */
  came: z.int(), kept: z.int(), repeated: z.int(), homeless: z.int(), nonsense: z.int(),
});
export const FeedNow = z.strictObject({
  feed: Feed,
  state: z.enum(['off', 'not-here', 'needs-password', 'connecting', 'connected', 'lost']),
  /** How it stands, in words. */
  text: z.string(),
  counts: FeedCounts,
  channels: z.array(ChannelNow),
  others: z.array(OtherTopic),
});

export const feedRequests = {
  'feed.list': query(z.strictObject({}), z.strictObject({ feeds: z.array(FeedNow), nowMs: InstantMs })),
  /** A new feed (null), or another set-up of one that is there; either is on from now on. */
  'feed.save': command(z.strictObject({ feedId: Id.nullable(), name: Words, link: FeedLinkDraft }), z.strictObject({ feed: Feed }), ['manager', 'chef']),
  'feed.switch': command(z.strictObject({ feedId: Id, isOn: z.boolean() }), z.strictObject({ feed: Feed }), ['manager', 'chef']),
  /**
   * Gives a feed its password for as long as the program runs. No command, since of a command the book keeps a digest,
   * and the book is given away as a backup.
   */
  'feed.password': query(z.strictObject({ feedId: Id, password: z.string().max(400) }), z.strictObject({})),
  /** Connects as drafted for a few seconds and answers what came; keeps nothing. */
  'feed.try': query(
    z.strictObject({ link: FeedLinkDraft, password: z.string().max(400).nullable(), seconds: z.number().min(1).max(10) }),
    z.strictObject({ worked: z.boolean(), text: z.string(), channels: z.array(ChannelNow), others: z.array(OtherTopic) }),
  ),
} as const;

export type Feed = z.infer<typeof Feed>;
export type FeedNow = z.infer<typeof FeedNow>;
export type FeedLinkDraft = z.infer<typeof FeedLinkDraft>;
export type ModbusLink = z.infer<typeof ModbusLink>;
export type MqttLink = z.infer<typeof MqttLink>;
export type ModbusChannel = z.infer<typeof ModbusChannel>;
export type MqttChannel = z.infer<typeof MqttChannel>;
export type ChannelNow = z.infer<typeof ChannelNow>;
export type OtherTopic = z.infer<typeof OtherTopic>;
export type FeedCounts = z.infer<typeof FeedCounts>;
