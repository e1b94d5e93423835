/** When a load must be out, so that its cooling can be shown before the kitchen closes. */
import type { DescentCheck } from '../../../app/limits/limit-set.ts';
import { instantOf, localTime } from '../../../app/measures/zone.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { kitchenOf } from './kitchen.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/**
 * By the first closing time that leaves room for the hold and the whole cooling after the fish went in; null where no
 * closing time is on file or nothing is asked of the cooling.
 */
export function latestOutMs(room: BookRoom, inMs: number, holdMinutes: number, cooling: DescentCheck | undefined): number | null {
  const { closesAt, timeZone } = kitchenOf(room.book);
  if (closesAt === undefined || cooling === undefined) return null;
  const coolingMinutes = cooling.clock === 'shared' ? Math.max(...cooling.targets.map((target) => target.minutes)) : cooling.targets.reduce((sum, target) => sum + target.minutes, 0);
  const earliestMs = inMs + (holdMinutes + coolingMinutes) * MINUTE_MS;
  const closings = [0, 1, 2].map((days) => unwrap(instantOf(localTime(earliestMs + days * DAY_MS, timeZone).day, closesAt, timeZone)));
  const closingMs = closings.find((atMs) => atMs >= earliestMs);
  return closingMs === undefined ? null : closingMs - coolingMinutes * MINUTE_MS;
}
