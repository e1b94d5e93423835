/** The steps of a batch on the line: what the marks say, and what its recipe plans. */
import type { LineBar } from '../../../app/contract/requests/record.ts';
import type { StoredBatch, StoredLoad } from '../book/stored.ts';

type Step = LineBar['steps'][number];

const HOUR_MS = 3_600_000;

/** Steps in order; one that still runs ends at now, and the rest of a planned soak follows as planned. */
export function stepsOf(batch: StoredBatch, load: StoredLoad | undefined, nowMs: number): Step[] {
  const soakEndAtMs = timeOf(batch, 'end');
  const inAtMs = load?.inAtMs ?? null;
  const outAtMs = load?.outAtMs ?? null;
  return [
    ...ran('soak', timeOf(batch, 'start'), soakEndAtMs, nowMs),
    ...plannedSoak(batch, nowMs),
    ...ran('dry', soakEndAtMs, inAtMs, nowMs),
    ...ran('smoke', inAtMs, outAtMs, nowMs),
    ...(batch.process === 'hot' ? ran('cool', outAtMs, load?.cooledAtMs ?? null, nowMs) : []),
    ...ran('freeze', batch.intoFreezerAtMs, freezingEnd(batch), nowMs),
  ];
}

/** Hot-smoked fish is done freezing when it is frozen; in cold-smoked fish the hold in the freezer is the step. */
function freezingEnd(batch: StoredBatch): number | null {
  return batch.process === 'hot' ? (batch.frozenAtMs ?? batch.outOfFreezerAtMs) : batch.outOfFreezerAtMs;
}

function ran(kind: Step['kind'], fromMs: number | null, endMs: number | null, nowMs: number): Step[] {
  if (fromMs === null) return [];
  return [{ kind, fromMs, toMs: Math.max(fromMs, endMs ?? nowMs), planned: false }];
}

function plannedSoak(batch: StoredBatch, nowMs: number): Step[] {
  const planned = plannedSoakEnd(batch);
  if (planned === null || planned <= nowMs) return [];
  return [{ kind: 'soak', fromMs: nowMs, toMs: planned, planned: true }];
}

/** When the recipe has a running soak end; null where it hasn't begun or has ended. */
function plannedSoakEnd(batch: StoredBatch): number | null {
  const startedAtMs = timeOf(batch, 'start');
  if (startedAtMs === null || timeOf(batch, 'end') !== null) return null;
  return startedAtMs + batch.recipe.soakHours * HOUR_MS;
}

/** Turns as they were done, and while the soak runs those that the recipe still asks for. */
export function turnsOf(batch: StoredBatch): LineBar['turns'] {
  const done = batch.soak.filter((event) => event.what === 'turn').map(({ atMs }) => ({ atMs, done: true }));
  return [...done, ...turnsToCome(batch).map((atMs) => ({ atMs, done: false }))];
}

/** The first turn logged stands for the first asked for, and so on. */
function turnsToCome(batch: StoredBatch): number[] {
  const startedAtMs = timeOf(batch, 'start');
  if (startedAtMs === null || timeOf(batch, 'end') !== null) return [];
  const doneCount = batch.soak.filter((event) => event.what === 'turn').length;
  return batch.recipe.turnHours.toSorted((one, other) => one - other).slice(doneCount).map((hours) => startedAtMs + hours * HOUR_MS);
}

/** What a running soak asks for: its turns, and its end. */
export function soakDues(batch: StoredBatch, nowMs: number): LineBar['dues'] {
  const endAtMs = plannedSoakEnd(batch);
  const turns = turnsToCome(batch).map((atMs) => ({ atMs, text: `Turn ${batch.shortName} in its brine`, overdue: atMs < nowMs, what: 'turn' as const }));
  if (endAtMs === null) return turns;
  return [...turns, { atMs: endAtMs, text: `Take ${batch.shortName} out of the brine`, overdue: endAtMs < nowMs, what: 'end' }];
}

function timeOf(batch: StoredBatch, what: 'start' | 'end'): number | null {
  return batch.soak.find((event) => event.what === what)?.atMs ?? null;
}
