/** When a soak is turned and ends, as its card plans it. Pure. */
import type { Batch } from '../../app/contract/requests/brine-bench.ts';

const HOUR_MS = 3_600_000;

type Soaking = Pick<Batch, 'soak'> & { readonly card: Pick<Batch['card'], 'soakHours' | 'turnHours'> };

/** The planned turns and the end in UTC ms, or null where the soak hasn't started. */
export function plannedTimes(batch: Soaking): { turnsAtMs: readonly number[]; endAtMs: number } | null {
  const start = batch.soak.find((event) => event.what === 'start');
  if (start === undefined) return null;
  const turnHours = batch.card.turnHours.toSorted((one, other) => one - other);
  return { turnsAtMs: turnHours.map((hours) => start.atMs + hours * HOUR_MS), endAtMs: start.atMs + batch.card.soakHours * HOUR_MS };
}

/** What the plan asks for next: the first turn logged stands for the first planned, and so on. Null before the start and after the end. */
export function nextOfSoak(batch: Soaking): { what: 'turn' | 'end'; atMs: number } | null {
  const planned = plannedTimes(batch);
  if (planned === null || batch.soak.some((event) => event.what === 'end')) return null;
  const turnedCount = batch.soak.filter((event) => event.what === 'turn').length;
  const turnAtMs = planned.turnsAtMs[turnedCount];
  return turnAtMs === undefined ? { what: 'end', atMs: planned.endAtMs } : { what: 'turn', atMs: turnAtMs };
}
