/** What came over one feed: the last of each thermometer, and how much of it is kept. */
import type { ChannelNow, Feed, FeedCounts, OtherTopic } from '../../../app/contract/requests/feeds.ts';
import type { FeedValue } from '../../../app/probes/feed-value.ts';
import type { FeedStanding } from '../../../app/probes/feed-words.ts';
import type { Arrival } from './feed-link.ts';
import type { Standing } from './feed-places.ts';

type Channel = Feed['link']['channels'][number];
export type Temperature = Extract<FeedValue, { kind: 'temperature' }>;

export interface SeenParts {
  standingOf(instrumentId: string, placeId: string | null, atMs: number): Standing | null;
  instrumentName(instrumentId: string): string;
  /** Takes a temperature that is to be kept. */
  keep(channel: Channel, standing: Standing, value: Temperature, atMs: number): void;
}

export interface FeedSeen {
  /** Takes what came at `nowMs`. */
  receive(arrival: Arrival, nowMs: number): void;
  receiveOther(topic: string, sample: string): void;
  /** When the last temperature came. */
  lastMs(): number | null;
  missing(): FeedStanding['missing'];
  channels(): ChannelNow[];
  others(): OtherTopic[];
  counts(): FeedCounts;
  /** What was written of it. */
  wrote(kept: number, repeated: number): void;
}

const MOST_OTHERS = 50;

type Seen = Pick<ChannelNow, 'value' | 'problem' | 'keptIn'> & { readonly missing: string | null };
const NOTHING: Seen = { value: null, problem: null, keptIn: null, missing: null };

export function openFeedSeen(channels: readonly Channel[], { standingOf, instrumentName, keep }: SeenParts): FeedSeen {
  const seen: Seen[] = channels.map(() => NOTHING);
  const others = new Map<string, string>();
  let counts: FeedCounts = { came: 0, kept: 0, repeated: 0, homeless: 0, nonsense: 0 };
  let lastMs: number | null = null;

  function receiveTemperature(channel: Channel, index: number, value: Temperature, { atMs, unkept }: Arrival): void {
    counts = { ...counts, came: counts.came + 1 };
    const standing = unkept === null ? standingOf(channel.instrumentId, channel.placeId, atMs) : null;
    if (unkept === null && standing === null) counts = { ...counts, homeless: counts.homeless + 1 };
    seen[index] = { value: { text: value.text, unit: value.unit, ticks: value.lowTicks, atMs }, problem: unkept, keptIn: standing?.name ?? null, missing: null };
    if (standing !== null) keep(channel, standing, value, atMs);
  }
  return {
    receive(arrival, nowMs) {
      const { channel: index, value } = arrival;
      const channel = channels[index];
      if (channel === undefined) return;
      if (value.kind === 'missing') {
        counts = { ...counts, nonsense: counts.nonsense + 1 };
        seen[index] = { ...NOTHING, problem: `no temperature (${value.why})`, missing: value.why };
        return;
      }
      lastMs = nowMs;
      receiveTemperature(channel, index, value, arrival);
    },
    receiveOther(topic, sample) {
      if (others.size < MOST_OTHERS || others.has(topic)) others.set(topic, sample);
    },
    lastMs: () => lastMs,
    missing: () => seen.flatMap(({ missing }, index) => (missing === null ? [] : [{ where: whereOf(channels[index]), why: missing }])),
    channels: () => channels.map((channel, index) => {
      const { value, problem, keptIn } = seen[index] ?? NOTHING;
      return { where: whereOf(channel), instrumentId: channel.instrumentId, instrumentName: instrumentName(channel.instrumentId), value, problem, keptIn };
    }),
    others: () => [...others].map(([topic, sample]) => ({ topic, sample })),
    counts: () => counts,
    wrote(kept, repeated) {
      counts = { ...counts, kept: counts.kept + kept, repeated: counts.repeated + repeated };
    },
  };
}

/** What a channel is called in a sentence. */
export function whereOf(channel: Channel | undefined): string {
  if (channel === undefined) return '';
  if ('register' in channel) return `register ${channel.register}`;
  return channel.path === '' ? channel.topic : `${channel.topic} (${channel.path})`;
}
