/** What use cases may reach of the live feeds. */
import type { ChannelNow, Feed, FeedCounts, FeedLinkDraft, OtherTopic } from '../../../app/contract/requests/feeds.ts';
import type { FeedStanding } from '../../../app/probes/feed-words.ts';

/** How a feed stands now. */
export interface FeedState {
  readonly standing: FeedStanding;
  readonly channels: readonly ChannelNow[];
  readonly others: readonly OtherTopic[];
  readonly counts: FeedCounts;
}

export interface FeedDesk {
  /** Undefined where it doesn't run. */
  stateOf(feed: Feed): FeedState | undefined;
  /** Whether this run of the program opens feeds at all. */
  readonly runs: boolean;
  hasPassword(feedId: string): boolean;
  /** Keeps a password for as long as the program runs, and nowhere else. */
  setPassword(feedId: string, password: string): void;
  /** Connects as drafted, for so long, and keeps nothing. */
  tryLink(link: FeedLinkDraft, how: { readonly password: string | null; readonly clientId: string; readonly milliseconds: number }): Promise<FeedState>;
}
