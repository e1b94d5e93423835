/** One connection to a device or a broker, whichever way it speaks. A link never throws: what goes wrong ends it, with a reason. */
import type { FeedValue } from '../../../app/probes/feed-value.ts';
import type { Clock } from '../room.ts';

/** What came for a channel of the feed. */
export interface Arrival {
  /** The channel's position in the feed's list. */
  readonly channel: number;
  readonly value: FeedValue;
  readonly atMs: number;
  /** Why it is shown and not kept; null where it may be kept. */
  readonly unkept: string | null;
}

export interface LinkEvents {
  /** Connected, and whoever is there has answered. */
  up(): void;
  arrived(arrivals: readonly Arrival[]): void;
  /** A message under a topic that no channel has. */
  other(topic: string, sample: string): void;
  /** The link is over, for this reason (a part of a sentence); told once, and the last that is told. */
  down(why: string): void;
}

export interface Link {
  /** What has arrived so far is in the book, or needs no keeping: a broker may forget it. */
  acknowledge(): void;
  /** Ends it; nothing is told afterwards. */
  close(): void;
}

/** How long to wait for a connection, and for an answer (our choice: a device in the same building answers in milliseconds). */
export const CONNECT_MS = 5000;
export const ANSWER_MS = 3000;

/** What a link needs beside its own settings. */
export interface LinkParts {
  readonly events: LinkEvents;
  readonly clock: Clock;
}

/** Events that end with the first `down`, or when told to: what a library still says afterwards is not passed on. */
export function untilDown(events: LinkEvents, end: () => void): LinkEvents & { stop(): void } {
  let isOver = false;
  const stop = (): void => {
    if (isOver) return;
    isOver = true;
    end();
  };
  return {
    stop,
    up: () => { if (!isOver) events.up(); },
    arrived: (arrivals) => { if (!isOver) events.arrived(arrivals); },
    other: (topic, sample) => { if (!isOver) events.other(topic, sample); },
    down(why) {
      if (isOver) return;
      stop();
      events.down(why);
    },
  };
}

const CODE_WORDS: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'the connection was refused, so the port may be wrong or the device busy with others',
  ECONNRESET: 'it broke the connection off',
  EPIPE: 'it broke the connection off',
  EHOSTUNREACH: 'nothing answers at this address',
  EHOSTDOWN: 'nothing answers at this address',
  ENETUNREACH: 'this computer has no way into that network',
  ENETDOWN: 'this computer’s network is down',
  ENOTFOUND: 'there is no device of that name in the network',
  EAI_AGAIN: 'the network can’t say which device has that name',
  ETIMEDOUT: 'nothing answers at this address',
  EACCES: 'this computer doesn’t let the program connect there',
};

/** Why a connection failed, as a part of a sentence. */
export function faultWords(problem: unknown): string {
  const code = typeof problem === 'object' && problem !== null && 'code' in problem ? String(problem.code) : '';
  const words = CODE_WORDS[code];
  if (words !== undefined) return words;
  // A name with several addresses fails with one error for each.
  if (problem instanceof AggregateError && problem.errors.length > 0) return faultWords(problem.errors[0]);
  return code === '' ? 'the connection failed' : `the connection failed (${code})`;
}
