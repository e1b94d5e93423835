/**
 * What is in doubt about the readings a batch is judged on, and what people have left out of them. A doubt is a
 * proposal: it counts against the batch until a named person decides, and then no more.
 */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { ExcludedReading } from '../../../../app/limits/judge-case.ts';
import type { StoredDoubtDecision } from '../../book/stored.ts';
import type { BookRoom, SeriesReading } from '../../room.ts';
import { correctionsOf, coverReading } from './corrections.ts';
import { isBy, lookThrough, type FoundDoubt, type ReadBy } from './doubt-looking.ts';
import { readingsWithin, type PointPlan, type TakenReadings } from './taken-readings.ts';
import type { ReadingsAt } from './points.ts';

/** A doubt that nobody has decided yet; every reading by that thermometer from one instant to the other, both included, counts against the batch. */
export interface UndecidedDoubt {
  readonly pointId: string;
  readonly by: ReadBy;
  readonly fromMs: number;
  readonly toMs: number;
  /** In two words; the whole sentence stands with the doubt. */
  readonly reason: string;
}

/** A doubt with the point it is about, and what was decided. */
export interface PointDoubt extends FoundDoubt {
  readonly pointId: string;
  readonly pointName: string;
  readonly decided: StoredDoubtDecision | undefined;
}

const IN_SHORT: Readonly<Record<PointDoubt['kind'], string>> = {
  'open-circuit': 'open circuit', spike: 'a spike', 'pulled-probe': 'a pulled probe', 'flat-line': 'a flat line', stuck: 'a stuck value', clock: 'its clock',
};

/** Shorter records are looked through in no time. */
const LONG_READINGS = 20_000;

/** Every doubt about the readings that some points take, with what was decided; point by point, in order of time. */
export function doubtsAbout(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): PointDoubt[] {
  return stretchesOf(plans).flatMap(({ plan, taken }) => doubtsOf(room, plan, taken, plans, readingsAt));
}

/**
 * Looks through long records point by point, each in a turn of its own, so that the back room answers others in
 * between and finds it all done. Copying the readings to a helper thread takes as long as looking through them.
 */
export async function warmDoubts(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): Promise<void> {
  for (const { plan, taken } of stretchesOf(plans)) {
    if (readingsAt(taken.pointId).length < LONG_READINGS) continue;
    doubtsOf(room, plan, taken, plans, readingsAt);
    await nextTurn();
  }
}

/** The doubts that still count against a batch. */
export function undecidedDoubts(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): UndecidedDoubt[] {
  return doubtsAbout(room, plans, readingsAt).filter(({ decided }) => decided === undefined).map(({ pointId, by, fromMs, toMs, kind }) => ({ pointId, by, fromMs, toMs, reason: IN_SHORT[kind] }));
}

/** The readings that named people have left out, with their reasons: those of the thermometer in doubt that were on record then. */
export function excludedReadings(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): ExcludedReading[] {
  return stretchesOf(plans).flatMap(({ taken }) => {
    const decisions = room.book.shelf('doubtDecisions').where('pointId', taken.pointId);
    if (decisions.every(({ decision }) => decision === 'keep')) return [];
    const kinds = [...new Set(decisions.map(({ kind }) => kind))];
    const out = readingsWithin(taken, readingsAt).flatMap((reading) => {
      // Of several decisions on the same reading the last one counts; the others stay in the record.
      const last = kinds.flatMap((kind) => decisions.findLast((each) => each.kind === kind && decidesOn(each, reading)) ?? []);
      const decision = last.find((each) => each.decision === 'exclude');
      return decision === undefined ? [] : [{ reading, decision }];
    });
    const corrections = correctionsOf(room, [...new Set(out.flatMap(({ reading }) => reading.instrumentId ?? []))]);
    return out.map(({ reading, decision: { why, initials } }): ExcludedReading => (
      { pointId: taken.pointId, atMs: reading.atMs, ...coverReading(corrections, reading), reason: why, byInitials: initials }));
  });
}

/** What is in doubt about a point's reading; undefined where nothing is. */
export function doubtAt(doubts: readonly UndecidedDoubt[], pointId: string, reading: SeriesReading): string | undefined {
  if (doubts.length === 0) return undefined;
  return doubts.find((doubt) => doubt.pointId === pointId && reading.atMs >= doubt.fromMs && reading.atMs <= doubt.toMs && isBy(reading, doubt.by))?.reason;
}

/** The last entry that vouches for any of a point's readings; what is entered later takes no part in what is decided now. */
export function lastEntryOf(readings: readonly SeriesReading[]): number {
  return readings.reduce((last, { entry }) => Math.max(last, entry), 0);
}

interface Stretch {
  readonly plan: PointPlan;
  readonly taken: TakenReadings;
}

/** One point may be read in several stretches, and one stretch be of several records, which asks no second look. */
function stretchesOf(plans: readonly PointPlan[]): Stretch[] {
  const stretches = plans.flatMap((plan): [string, Stretch][] => (plan.taken === null || plan.role === 'water' ? [] : [[keyOf(plan.taken), { plan, taken: plan.taken }]]));
  return [...new Map(stretches.toReversed()).values()].toReversed();
}

function keyOf({ pointId, fromMs, toMs }: TakenReadings): string {
  return JSON.stringify([pointId, fromMs ?? null, toMs ?? null]);
}

function doubtsOf(room: BookRoom, { role, name }: PointPlan, taken: TakenReadings, plans: readonly PointPlan[], readingsAt: ReadingsAt): PointDoubt[] {
  if (role === 'water') return [];
  const air = plans.flatMap((plan) => (plan.role === 'chamber' && plan.taken !== null ? [readingsWithin(plan.taken, readingsAt)] : []));
  const chamber = air.length === 1 ? (air[0] ?? []) : air.flat();
  const found = lookThrough(room, keyOf(taken), { role, readings: readingsWithin(taken, readingsAt), chamber });
  if (found.length === 0) return [];
  const decisions = room.book.shelf('doubtDecisions').where('pointId', taken.pointId);
  return found.map((doubt) => ({ ...doubt, pointId: taken.pointId, pointName: name, decided: decidedOf(doubt, decisions) }));
}

/** A doubt that has grown past what was decided, by time or by readings entered later, is a new one. */
function decidedOf({ kind, fromMs, toMs, readings }: FoundDoubt, decisions: readonly StoredDoubtDecision[]): StoredDoubtDecision | undefined {
  return decisions.findLast((decision) => decision.kind === kind && decision.fromMs <= fromMs && decision.toMs >= toMs && readings.every((reading) => decidesOn(decision, reading)));
}

/** Whether a decision was made about a reading: within its stretch, by its thermometer, and on record then; one that comes in live has no entry yet. */
function decidesOn({ fromMs, toMs, by, lastEntry, atMs }: StoredDoubtDecision, reading: SeriesReading): boolean {
  if (reading.atMs < fromMs || reading.atMs > toMs || !isBy(reading, by)) return false;
  return (reading.entry > 0 && reading.entry <= lastEntry) || (reading.how === 'instrument' && reading.atMs <= atMs);
}
