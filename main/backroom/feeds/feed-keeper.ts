/** Owns every running feed of the open book: starts and stops them as the book says, writes what comes, tells the fronts. */
import type { Feed } from '../../../app/contract/requests/feeds.ts';
import type { Subject } from '../../../app/contract/events.ts';
import type { BookHandle } from '../book/handle.ts';
import type { Announce } from '../changes.ts';
import type { Log } from '../log.ts';
import type { Clock, Room } from '../room.ts';
import { closeOnePoint } from './feed-closing.ts';
import { openFeedCrew } from './feed-crew.ts';
import type { FeedDesk } from './feed-desk.ts';
import { openLink } from './feed-languages.ts';
import type { LinkEvents } from './feed-link.ts';
import { openFeedPlaces } from './feed-places.ts';
import { openFeedRun, type FeedRun } from './feed-run.ts';
import { stateOf, tryLink } from './feed-try.ts';
import { openFeedWriter } from './feed-writer.ts';

export interface Feeds extends FeedDesk {
  /** Something in the book changed. */
  heard(subject: Subject): void;
  /** Ends every feed, and writes what is left. */
  close(): void;
}

export interface FeedsParts {
  readonly runs: boolean;
  readonly clock: Clock;
  readonly log: Log;
  readonly announce: Announce;
  handle(): BookHandle | null;
  /** The program itself, where it puts live readings into the record. */
  programRoom(): Room;
}

const TICK_MS = 1000;
/** A beat that comes so late was missed in sleep. */
const SLEPT_MS = 5000;
const SLEPT = 'this computer slept, or its clock was set';
const CLOSE_EVERY_TICKS = 10;
/** A broker may keep more than so many unacknowledged messages to itself: one keeps 20 (from memory), so write before that. */
const WRITE_AT = 10;
/** What tells where thermometers stand, and which feeds there are. */
const ALTERS_FEEDS: readonly Subject[] = ['book', 'feeds', 'load', 'office'];

export function openFeeds({ runs, clock, log, announce, handle, programRoom }: FeedsParts): Feeds {
  const reader = () => handle()?.reader() ?? null;
  const places = openFeedPlaces(reader);
  const writer = openFeedWriter(reader, log);
  const crew = openFeedCrew(startRun);
  const changed = new Set<string>();
  let isClosed = false;
  let tickMs = clock.nowMs();
  let ticks = 0;
  const reconcileSoon = onceSoon('starting the feeds', () => { for (const id of crew.reconcile(handle())) changed.add(id); });
  const writeSoon = onceSoon('writing what feeds sent', write);
  const timer = runs ? setInterval(() => guard('a beat of the feeds', tick), TICK_MS) : undefined;
  timer?.unref();

  /** Feeds must never end the back room. */
  function guard(what: string, act: () => void): void {
    try {
      act();
    } catch (thrown) {
      log({ level: 'error', what, outcome: 'threw', detail: thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown) });
    }
  }
  /** After the turn that asked for it, however often it was asked for. */
  function onceSoon(what: string, act: () => void): () => void {
    let isDue = false;
    return () => {
      if (isDue || !runs) return;
      isDue = true;
      setImmediate(() => {
        isDue = false;
        if (!isClosed) guard(what, act);
      });
    };
  }
  function hasSlept(): boolean {
    return clock.nowMs() - tickMs > SLEPT_MS;
  }
  function tick(): void {
    if (hasSlept()) for (const run of crew.all()) run.restart(SLEPT);
    tickMs = clock.nowMs();
    write();
    ticks += 1;
    const open = handle();
    if (open !== null && !open.readOnly && ticks % CLOSE_EVERY_TICKS === 0) closeOnePoint(open, programRoom(), announce);
    if (changed.size > 0) announce('feeds', [...changed]);
    changed.clear();
  }
  function write(): void {
    const written = writer.flush();
    for (const { feedId, kept, repeated } of written) crew.get(feedId)?.seen.wrote(kept, repeated);
    const points = new Set(written.filter(({ kept }) => kept > 0).flatMap(({ pointIds }) => pointIds));
    if (points.size > 0) announce('readings', [...points]);
    if (writer.fault() === null) for (const run of crew.all()) run.acknowledge();
  }
  function startRun(feed: Feed, password: string | null): FeedRun {
    return openFeedRun(feed, {
      clock, standingOf: places.standingOf, instrumentName,
      connect: (events) => openLink(feed.link, { clock, clientId: feed.clientId, password, events: awake(events) }),
      keep({ instrumentId, unit }, { pointId }, { text, lowTicks, highTicks }, atMs) {
        writer.add(feed.id, { pointId, instrumentId, unit, source: feed.name }, { atMs, lowTicks, highTicks, text });
        if (writer.waitingOf(feed.id) >= WRITE_AT && writer.fault() === null) writeSoon();
      },
      changed: () => changed.add(feed.id),
    });
  }
  /** After sleep the first that is heard may come before the first beat. */
  function awake(events: LinkEvents): LinkEvents {
    return { ...events, arrived: (arrivals) => (hasSlept() ? events.down(SLEPT) : events.arrived(arrivals)) };
  }
  function instrumentName(id: string): string {
    return reader()?.shelf('instruments').get(id)?.name ?? '';
  }
  reconcileSoon();
  return {
    runs,
    stateOf(feed) {
      const run = crew.get(feed.id);
      return run === undefined ? undefined : stateOf(run, writer.waitingOf(feed.id) === 0 ? null : writer.fault());
    },
    hasPassword: crew.hasPassword,
    setPassword(feedId, password) {
      crew.setPassword(feedId, password);
      reconcileSoon();
    },
    tryLink: (link, how) => tryLink(link, how, { clock, standingOf: places.standingOf, instrumentName }),
    heard(subject) {
      if (!ALTERS_FEEDS.includes(subject)) return;
      places.forget();
      if (subject === 'book' || subject === 'feeds') reconcileSoon();
    },
    close() {
      clearInterval(timer);
      guard('writing what feeds sent', write);
      isClosed = true;
      crew.stop();
    },
  };
}
