/** What a recall is held to, each with where it stands and how that is known. */

export interface RecallLimit {
  readonly id: 'trace-4-h' | 'trace-2-h' | 'records-24-h' | 'all-called' | 'whole';
  readonly text: string;
  readonly source: string;
  /** Null where it isn’t a matter of time. */
  readonly hours: number | null;
}

export type LimitState = 'met' | 'missed' | 'running';

export const RECALL_LIMITS: readonly RecallLimit[] = [
  { id: 'trace-4-h', text: 'Traced and every pack accounted for within 4 hours', hours: 4, source: 'BRCGS Global Standard Food Safety, 3.9.2, as a site’s own procedure and 1stc.uk restate it (second-hand)' },
  { id: 'trace-2-h', text: 'The same within 2 hours, as some buyers ask', hours: 2, source: 'habits of buyers and audit schemes (from memory)' },
  { id: 'records-24-h', text: 'The records could be shown within 24 hours', hours: 24, source: '21 CFR 1.361, ecfr.gov (read)' },
  { id: 'all-called', text: 'Everybody who has packs was reached', hours: null, source: '21 CFR 7.42(b)(3), effectiveness checks of level A: 100 % (from memory)' },
  { id: 'whole', text: 'Every pack is accounted for: exactly 100 %', hours: null, source: 'our choice: each pack has a number of its own. Buyers’ bands of 99.5 to 102 % are known from memory only' },
];

const HOUR_MS = 3_600_000;

export interface RecallStand {
  readonly elapsedMs: number;
  readonly isWhole: boolean;
  readonly allReached: boolean;
  readonly isFinished: boolean;
}

/** Where a limit stands: a time is met once all packs are accounted for in time, and missed once it has passed or the recall ended short. */
export function standOf({ id, hours }: RecallLimit, stand: RecallStand): LimitState {
  if (hours === null) {
    if (id === 'all-called' ? stand.allReached : stand.isWhole) return 'met';
    return stand.isFinished ? 'missed' : 'running';
  }
  if (stand.elapsedMs > hours * HOUR_MS) return 'missed';
  // Records are shown by printing this page; the packs need not be found for that.
  if (stand.isWhole || (id === 'records-24-h' && stand.isFinished)) return 'met';
  return stand.isFinished ? 'missed' : 'running';
}
