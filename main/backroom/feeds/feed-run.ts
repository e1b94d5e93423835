/** One feed while it runs: its link made again whenever it is lost, and what came over it. */
import type { Feed } from '../../../app/contract/requests/feeds.ts';
import type { FeedLink, FeedStanding } from '../../../app/probes/feed-words.ts';
import type { Clock } from '../room.ts';
import type { Link, LinkEvents } from './feed-link.ts';
import { openFeedSeen, type FeedSeen, type SeenParts } from './feed-seen.ts';

export interface FeedRunParts extends SeenParts {
  readonly clock: Clock;
  /** Makes one connection. */
  connect(events: LinkEvents): Promise<Link>;
  /** Its link stands otherwise than before. */
  changed(): void;
}

export interface FeedRun {
  readonly seen: FeedSeen;
  /** Everything about how it stands but whether it can be kept. */
  standing(): Omit<FeedStanding, 'notKept'>;
  /** All that arrived is in the book. */
  acknowledge(): void;
  /** Makes the link anew: what lies unread in the old one came nobody knows when. */
  restart(why: string): void;
  stop(): void;
}

/** Growing waits between attempts (our choice): a device that was switched off is asked every half minute. */
const WAITS_MS = [1000, 2000, 4000, 8000, 16_000, 30_000] as const;
const LONGEST_WAIT_MS = 30_000;
/** Without a temperature for so long a sender is taken for silent (our choice); one that is asked, after three questions. */
const SILENT_MS = 60_000;

export function openFeedRun({ link: settings }: Pick<Feed, 'link'>, parts: FeedRunParts): FeedRun {
  const { clock } = parts;
  const seen = openFeedSeen(settings.channels, parts);
  let state: FeedLink = { state: 'connecting' };
  let link: Link | null = null;
  let timer: NodeJS.Timeout | undefined;
  let heardMs: number | null = null;
  let failures = 0;
  let attempt = 0;

  function stand(next: FeedLink): void {
    const isNews = JSON.stringify(next) !== JSON.stringify(state);
    state = next;
    if (isNews) parts.changed();
  }
  /** What an attempt that is over still says is not heard. */
  function eventsOf(mine: number): LinkEvents {
    const hear = (act: () => void): void => {
      if (mine !== attempt) return;
      heardMs = clock.nowMs();
      failures = 0;
      act();
    };
    return {
      up: () => hear(() => stand({ state: 'connected' })),
      arrived: (arrivals) => hear(() => { for (const arrival of arrivals) seen.receive(arrival, clock.nowMs()); }),
      other: (topic, sample) => hear(() => seen.receiveOther(topic, sample)),
      down: (why) => { if (mine === attempt) lose(why); },
    };
  }
  function start(): void {
    attempt += 1;
    const mine = attempt;
    const events = eventsOf(mine);
    parts.connect(events).then(
      (opened) => {
        if (mine === attempt) link = opened;
        else opened.close();
      },
      () => events.down('the connection could not be tried'),
    );
  }
  function leave(): void {
    clearTimeout(timer);
    attempt += 1;
    link?.close();
    link = null;
  }
  function lose(why: string): void {
    leave();
    const againMs = WAITS_MS[failures] ?? LONGEST_WAIT_MS;
    failures += 1;
    stand({ state: 'lost', why, heardMs, againMs });
    timer = setTimeout(start, againMs);
    timer.unref();
  }
  start();
  return {
    seen,
    standing: () => ({
      kind: settings.kind, link: state, lastMs: seen.lastMs(), nowMs: clock.nowMs(), missing: seen.missing(),
      silentAfterMs: settings.kind === 'modbus' ? Math.max(5000, 3000 * settings.pollSeconds) : SILENT_MS,
    }),
    acknowledge: () => link?.acknowledge(),
    restart(why) {
      failures = 0;
      lose(why);
    },
    stop: leave,
  };
}
