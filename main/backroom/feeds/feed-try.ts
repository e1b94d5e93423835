/** A feed that is tried before it is kept: what comes of it in a few seconds. */
import type { FeedLinkDraft } from '../../../app/contract/requests/feeds.ts';
import type { Clock } from '../room.ts';
import type { FeedDesk, FeedState } from './feed-desk.ts';
import { loadLanguage, openLink } from './feed-languages.ts';
import { openFeedRun, type FeedRun } from './feed-run.ts';
import type { SeenParts } from './feed-seen.ts';

const LOOK_EVERY_MS = 50;
/** How long it listens on for topics that no thermometer has (our choice). */
const OTHERS_MS = 700;

/** Connects, waits until each thermometer was heard of or the time is over, and ends the connection. */
export async function tryLink(link: FeedLinkDraft, { password, clientId, milliseconds }: Parameters<FeedDesk['tryLink']>[1], parts: Omit<SeenParts, 'keep'> & { readonly clock: Clock }): Promise<FeedState> {
  const { clock } = parts;
  // The time counts from the first attempt, not from the loading of a library.
  await loadLanguage(link);
  const run = openFeedRun({ link }, { ...parts, keep: () => undefined, changed: () => undefined, connect: (events) => openLink(link, { clock, events, clientId, password }) });
  const endMs = performance.now() + milliseconds;
  const leftMs = (): number => endMs - performance.now();
  while (leftMs() > 0 && run.standing().link.state !== 'lost' && !hasHeardAll(run)) await pause(LOOK_EVERY_MS);
  if (link.kind === 'mqtt' && hasHeardAll(run)) await pause(Math.min(OTHERS_MS, Math.max(0, leftMs())));
  const state = stateOf(run, null);
  run.stop();
  return state;
}

/** @param notKept why what came can't be written just now */
export function stateOf(run: FeedRun, notKept: string | null): FeedState {
  const { seen } = run;
  return { standing: { ...run.standing(), notKept }, channels: seen.channels(), others: seen.others(), counts: seen.counts() };
}

function hasHeardAll({ seen }: FeedRun): boolean {
  return seen.channels().every(({ value, problem }) => value !== null || problem !== null);
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => { setTimeout(resolve, milliseconds); });
}
