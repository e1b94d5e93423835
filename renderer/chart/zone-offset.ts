/** The zone's wall clock against UTC, for whole hours on the time axis. Pure. */
import { localTime } from '../../app/measures/zone.ts';

/** Every zone's offset is whole quarters of an hour. */
const QUARTER_HOUR_MS = 900_000;

/** How far the zone's wall clock is ahead of UTC at an instant. */
export function zoneOffsetMs(atMs: number, timeZone: string): number {
  const { day, clock } = localTime(atMs, timeZone);
  return Math.round((Date.parse(`${day}T${clock}:00Z`) - atMs) / QUARTER_HOUR_MS) * QUARTER_HOUR_MS;
}
