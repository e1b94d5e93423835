/** When an alarm that somebody acknowledged sounds again. Pure. */

/** So long is it quiet (our choice: a round's time and a half, long enough to do something about it). */
export const QUIET_MS = 15 * 60_000;

export interface Acknowledged {
  readonly atMs: number;
  /** How bad it was then. */
  readonly level: number;
}

/** Until when an alarm is quiet; null where it sounds: never acknowledged, too long ago, or worse now. */
export function quietUntilMs(level: number, acknowledged: Acknowledged | undefined, nowMs: number): number | null {
  if (acknowledged === undefined || level > acknowledged.level) return null;
  const untilMs = acknowledged.atMs + QUIET_MS;
  return untilMs > nowMs ? untilMs : null;
}
