/** The latest time out, so that the set's cooling ends before the kitchen closes. */
import type { ReadyItem } from '../../../app/contract/requests/corrective.ts';
import type { DescentCheck, HoldCheck } from '../../../app/limits/limit-set.ts';
import { instantOf, localTime } from '../../../app/measures/zone.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { kitchenOf } from './kitchen.ts';
import { checksOf, isReady, type LoadPlan } from './ready-plan.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/**
 * The clock of a cooling starts after the fish is out, so a load that is out by then can still be shown to have cooled
 * in time by whoever closes the kitchen. Null where no cooling is asked or no closing time is on file.
 */
export function timeItem(room: BookRoom, plan: LoadPlan): { item: ReadyItem; latestOutMs: number | null } {
  const checks = plan.batches.map((batch) => checksOf(room, batch));
  const coolings = checks.flatMap((own) => own.find((check): check is DescentCheck => check.kind === 'descent') ?? []);
  if (coolings.length === 0) return { item: isReady('time', 'Its limit set asks nothing of the cooling.'), latestOutMs: null };
  const coolingMinutes = Math.max(...coolings.map(minutesOf));
  const { closesAt, timeZone } = kitchenOf(room.book);
  if (closesAt === undefined) {
    return { latestOutMs: null, item: { id: 'time', state: 'unknown', text: `Cooling may take ${hours(coolingMinutes)}. When the kitchen closes is not on file.`, needed: 'Write the closing time down in the office, or make sure that someone reads the fish until it is cooled.' } };
  }
  const nowMs = room.clock.nowMs();
  const latestOutMs = nextClosingMs(nowMs, closesAt, timeZone) - coolingMinutes * MINUTE_MS;
  const holdMinutes = Math.max(0, ...checks.flat().filter((check): check is HoldCheck => check.kind === 'hold' && check.question === 'chamber').map((check) => check.minutes));
  const said = `${hours(coolingMinutes)} of cooling before the kitchen closes at ${closesAt}`;
  if (nowMs + holdMinutes * MINUTE_MS <= latestOutMs) {
    return { latestOutMs, item: isReady('time', `Out by ${localTime(latestOutMs, timeZone).clock} at the latest: ${said}.`) };
  }
  return {
    latestOutMs,
    item: {
      id: 'time', state: 'missing',
      text: latestOutMs <= nowMs ? `It should have been out by ${localTime(latestOutMs, timeZone).clock}: ${said}.` : `Out by ${localTime(latestOutMs, timeZone).clock} at the latest, and ${holdMinutes} min of heat must be kept before: ${said}.`,
      needed: 'Smoke it tomorrow, or let someone stay or a logger record until the last cooling limit is shown.',
    },
  };
}

/** With one clock the last target's time is the whole; with clocks of their own the times add up. */
function minutesOf({ targets, clock }: DescentCheck): number {
  return clock === 'shared' ? Math.max(...targets.map((target) => target.minutes)) : targets.reduce((sum, target) => sum + target.minutes, 0);
}

function nextClosingMs(nowMs: number, closesAt: string, timeZone: string): number {
  const today = unwrap(instantOf(localTime(nowMs, timeZone).day, closesAt, timeZone));
  return today > nowMs ? today : unwrap(instantOf(localTime(nowMs + DAY_MS, timeZone).day, closesAt, timeZone));
}

function hours(minutes: number): string {
  return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
