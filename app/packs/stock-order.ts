/** The order in which packs are taken, and those whose date runs out. Days as YYYY-MM-DD. */
import { addDays, daysBetween, dayText, readDay } from './dates.ts';

export interface Stocked {
  readonly packId: string;
  readonly code: string;
  readonly marketName: string;
  readonly sealedAtMs: number;
  readonly bestBy: string | null;
}

/** So many days before its date a pack is named as one to take soon (our choice). */
export const SOON_DAYS = 14;
/** How long a frozen pack is at its best: our choice (common practice; extension sheets say two to six months). */
const FROZEN_BEST_DAYS = 90;
/**
 * Michigan’s 14 days from smoking (MSU Extension, Labels for commercial smoked fish, second-hand) can be read with the day of
 * smoking as the first of them or as none: the earlier end is taken.
 */
const CHILLED_LAST_DAY = 13;

/** First in, first out: by species, then by date, then by when it was sealed, then by code. */
export function inOrderOfTaking<T extends Stocked>(packs: readonly T[]): T[] {
  return packs.toSorted((one, other) => compare(one.marketName, other.marketName)
    || compare(one.bestBy ?? '', other.bestBy ?? '')
    || one.sealedAtMs - other.sealedAtMs
    || compare(one.code, other.code));
}

/** Whether a pack’s date is past or within a fortnight. */
export function isExpiring(bestBy: string | null, today: string): boolean {
  const [date, now] = [readDay(bestBy ?? ''), readDay(today)];
  return date.ok && now.ok && daysBetween(now.value, date.value) <= SOON_DAYS;
}

/** The last day a pack is meant to be eaten by, on its label and in the cold store: 90 days after it was packed if kept frozen, the 14th day of smoking if chilled. */
export function bestByOf(store: 'frozen' | 'refrigerated', days: { readonly smokedOn: string; readonly packedOn: string }): string | null {
  const from = readDay(store === 'frozen' ? days.packedOn : days.smokedOn);
  return from.ok ? dayText(addDays(from.value, store === 'frozen' ? FROZEN_BEST_DAYS : CHILLED_LAST_DAY)) : null;
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
