/** The feeds that run just now: those of the book that are on and have all they need. */
import type { Feed } from '../../../app/contract/requests/feeds.ts';
import type { BookHandle } from '../book/handle.ts';
import type { FeedRun } from './feed-run.ts';

interface Member {
  readonly key: string;
  readonly run: FeedRun;
}

export interface FeedCrew {
  get(feedId: string): FeedRun | undefined;
  all(): FeedRun[];
  /** Starts and stops them as the book says; one whose set-up changed is started anew. @returns those that changed */
  reconcile(book: BookHandle | null): string[];
  hasPassword(feedId: string): boolean;
  setPassword(feedId: string, password: string): void;
  stop(): void;
}

/** @param start begins one */
export function openFeedCrew(start: (feed: Feed, password: string | null) => FeedRun): FeedCrew {
  const members = new Map<string, Member>();
  const passwords = new Map<string, string>();

  function canRun({ id, isOn, link }: Feed): boolean {
    return isOn && (link.kind === 'modbus' || !link.hasPassword || passwords.has(id));
  }
  function passwordOf({ id, link }: Feed): string | null {
    return link.kind === 'mqtt' && link.hasPassword ? (passwords.get(id) ?? null) : null;
  }
  return {
    get: (feedId) => members.get(feedId)?.run,
    all: () => [...members.values()].map(({ run }) => run),
    reconcile(book) {
      const feeds = book === null || book.readOnly ? [] : book.reader().shelf('feeds').all().filter(canRun);
      const wanted = new Map(feeds.map((feed) => [feed.id, { feed, key: JSON.stringify([feed.name, feed.link, passwordOf(feed)]) }]));
      const changed: string[] = [];
      for (const [id, { run, key }] of members) {
        if (wanted.get(id)?.key === key) continue;
        run.stop();
        members.delete(id);
        changed.push(id);
      }
      for (const [id, { feed, key }] of wanted) {
        if (members.has(id)) continue;
        members.set(id, { key, run: start(feed, passwordOf(feed)) });
        changed.push(id);
      }
      return changed;
    },
    hasPassword: (feedId) => passwords.has(feedId),
    setPassword: (feedId, password) => { passwords.set(feedId, password); },
    stop() {
      for (const { run } of members.values()) run.stop();
      members.clear();
    },
  };
}
