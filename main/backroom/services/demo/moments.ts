/** Moments of the demonstration kitchen as instants. */
import type { DemoMoment } from '../../../../app/contract/assets-demo.ts';
import { instantOf, localDay } from '../../../../app/measures/zone.ts';
import { addDays, dayText, readDay } from '../../../../app/packs/dates.ts';
import { unwrap } from '../../refusal.ts';

const MINUTE_MS = 60_000;

/** The instant of a moment before `nowMs`, in UTC ms; whole minutes, as people write them. */
export function momentMs(moment: DemoMoment, nowMs: number, timeZone: string): number {
  if ('minutesAgo' in moment) return Math.floor(nowMs / MINUTE_MS) * MINUTE_MS - moment.minutesAgo * MINUTE_MS;
  const today = unwrap(readDay(localDay(nowMs, timeZone)));
  return unwrap(instantOf(dayText(addDays(today, -moment.daysAgo)), moment.clock, timeZone));
}
