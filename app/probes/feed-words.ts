/** How a live feed stands, in a sentence for people. */

/** How its link stands. */
export type FeedLink =
  | { readonly state: 'off' }
  /** This run of the program opens no feeds. */
  | { readonly state: 'not-here' }
  | { readonly state: 'needs-password' }
  | { readonly state: 'connecting' }
  | { readonly state: 'connected' }
  /** `why` is a part of a sentence; `heardMs` when anything last came over it, null where nothing ever did. */
  | { readonly state: 'lost'; readonly why: string; readonly heardMs: number | null; readonly againMs: number };

export interface FeedStanding {
  readonly kind: 'modbus' | 'mqtt';
  readonly link: FeedLink;
  /** When the last temperature came; null where none did. */
  readonly lastMs: number | null;
  /** Longer than this without a temperature is silence. */
  readonly silentAfterMs: number;
  /** What holds no temperature just now: “register 40012”, and why. */
  readonly missing: readonly { readonly where: string; readonly why: string }[];
  /** Why what came can't be kept just now; null where it can. */
  readonly notKept: string | null;
  readonly nowMs: number;
}

/**
 * The sentence, or two.
 * @param clock an instant as the kitchen's clock shows it, with seconds
 */
export function feedWords(standing: FeedStanding, clock: (atMs: number) => string): string {
  const words = linkWords(standing, clock);
  return standing.notKept === null ? words : `${words} It can’t be kept: ${standing.notKept}`;
}

function linkWords({ kind, link, lastMs, silentAfterMs, missing, nowMs }: FeedStanding, clock: (atMs: number) => string): string {
  switch (link.state) {
    case 'off': return 'Switched off.';
    case 'not-here': return 'Feeds run while Alderbook is open in its window or browser.';
    case 'needs-password': return 'Waits for its password, which is asked again after each start.';
    case 'connecting': return 'Connecting …';
    case 'lost': return `No answer ${link.heardMs === null ? 'yet' : `since ${clock(link.heardMs)}`} (trying again every ${Math.round(link.againMs / 1000)} s): ${link.why}.`;
    case 'connected': {
      const absent = missing.map(({ where, why }) => `${where} holds no temperature (${why})`).join(', and ');
      const who = kind === 'modbus' ? 'The device' : 'The broker';
      const isFresh = lastMs !== null && nowMs - lastMs <= silentAfterMs;
      if (isFresh) return `Receiving: last value ${clock(lastMs)}.${absent === '' ? '' : ` But ${absent}.`}`;
      if (absent !== '') return `${who} answers, but ${absent}.`;
      return lastMs === null ? `${who} answers; no temperature has come yet.` : `${who} answers, but no temperature has come since ${clock(lastMs)}.`;
    }
  }
}
