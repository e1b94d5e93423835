/**
 * What is in doubt about the readings a batch is judged on, and what people have left out of them. A doubt is a
 * proposal: it counts against the batch until a named person decides, and then no more.
 */
import type { ExcludedReading } from '../../../../app/limits/judge-case.ts';
import { clockWords, type Words } from '../../../../app/limits/words.ts';
import { localTime } from '../../../../app/measures/zone.ts';
import { findDoubts, type Doubt } from '../../../../app/probes/doubts.ts';
import type { StoredDoubtDecision } from '../../book/stored.ts';
import type { BookRoom, SeriesReading } from '../../room.ts';
import { kitchenOf } from '../kitchen.ts';
import { sayDay } from '../when.ts';
import { readingsWithin, type PointPlan, type TakenReadings } from './taken-readings.ts';
import type { ReadingsAt } from './points.ts';

/** A doubt that nobody has decided yet; every reading of the point from one instant to the other, both included, counts against the batch. */
export interface UndecidedDoubt {
  readonly pointId: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly reason: string;
}

/** A doubt with the point it is about, and what was decided. */
export interface PointDoubt extends Pick<Doubt, 'kind' | 'fromMs' | 'toMs' | 'reason'> {
  readonly pointId: string;
  readonly pointName: string;
  readonly readings: number;
  readonly decided: StoredDoubtDecision | undefined;
}

/** Looking through a long record takes a while; one that only grew at its end is looked through again after so many more. */
const LONG_READINGS = 20_000;
const FEW_MORE = 600;
const MOST_KEPT = 64;

interface Looked {
  readonly count: number;
  readonly lastMs: number;
  readonly found: readonly Doubt[];
}
const looked = new Map<string, Looked>();

/** Every doubt about the readings that some points take, with what was decided, in order of time. */
export function doubtsAbout(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): PointDoubt[] {
  const words = wordsOfDoubts(room);
  const chamber = plans.filter((plan) => plan.role === 'chamber').flatMap(({ taken }) => (taken === null ? [] : readingsWithin(taken, readingsAt)));
  const once = new Set<string>();
  return plans.flatMap((plan) => {
    const { taken, role } = plan;
    if (taken === null || role === 'water' || once.has(taken.pointId)) return [];
    once.add(taken.pointId);
    const readings = readingsWithin(taken, readingsAt);
    const decisions = room.book.shelf('doubtDecisions').where('pointId', taken.pointId);
    return lookThrough(taken, readings, (records) => records.flatMap((record) => findDoubts({ role, ...record, chamber, words })))
      .map((doubt) => pointDoubt(plan, taken, doubt, readings, decisions));
  });
}

/** The doubts that still count against a batch. */
export function undecidedDoubts(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): UndecidedDoubt[] {
  return doubtsAbout(room, plans, readingsAt).filter(({ decided }) => decided === undefined).map(({ pointId, fromMs, toMs, reason }) => ({ pointId, fromMs, toMs, reason }));
}

/** The readings that named people have left out, with their reasons. */
export function excludedReadings(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): ExcludedReading[] {
  const once = new Set<string>();
  return plans.flatMap(({ taken }) => {
    if (taken === null || once.has(taken.pointId)) return [];
    once.add(taken.pointId);
    const decisions = latestOf(room.book.shelf('doubtDecisions').where('pointId', taken.pointId)).filter(({ decision }) => decision === 'exclude');
    if (decisions.length === 0) return [];
    const readings = readingsWithin(taken, readingsAt);
    return decisions.flatMap(({ fromMs, toMs, why, initials }) => [...new Set(readings.filter(({ atMs }) => atMs >= fromMs && atMs <= toMs).map(({ atMs }) => atMs))]
      .map((atMs): ExcludedReading => ({ pointId: taken.pointId, atMs, reason: why, byInitials: initials })));
  });
}

/** What is in doubt about a point's reading; undefined where nothing is. */
export function doubtAt(doubts: readonly UndecidedDoubt[], pointId: string, atMs: number): string | undefined {
  return doubts.length === 0 ? undefined : doubts.find((doubt) => doubt.pointId === pointId && atMs >= doubt.fromMs && atMs <= doubt.toMs)?.reason;
}

/** Of several decisions on the same readings the last one counts; the others stay in the record. */
function latestOf(decisions: readonly StoredDoubtDecision[]): StoredDoubtDecision[] {
  return [...new Map(decisions.map((decision) => [`${decision.kind} ${decision.fromMs} ${decision.toMs}`, decision])).values()];
}

function pointDoubt(plan: PointPlan, taken: TakenReadings, doubt: Doubt, readings: readonly SeriesReading[], decisions: readonly StoredDoubtDecision[]): PointDoubt {
  const { kind, fromMs, toMs, reason } = doubt;
  return {
    pointId: taken.pointId, pointName: plan.name, kind, fromMs, toMs, reason,
    readings: readings.filter(({ atMs }) => atMs >= fromMs && atMs <= toMs).length,
    // A doubt that has grown past what was decided is a new one.
    decided: latestOf(decisions).findLast((decision) => decision.kind === kind && decision.fromMs <= fromMs && decision.toMs >= toMs),
  };
}

/** The readings of one thermometer, as it was read. */
interface ByOne {
  readonly how: 'logged' | 'typed';
  readonly readings: readonly SeriesReading[];
}

function lookThrough(taken: TakenReadings, readings: readonly SeriesReading[], find: (records: readonly ByOne[]) => Doubt[]): readonly Doubt[] {
  const last = readings.at(-1);
  if (last === undefined) return [];
  const key = JSON.stringify([taken.pointId, taken.fromMs ?? null, taken.toMs ?? null, readings[0]?.atMs]);
  const before = looked.get(key);
  const isSame = before !== undefined && before.count === readings.length && before.lastMs === last.atMs;
  const hasBarelyGrown = before !== undefined && before.count > LONG_READINGS && last.atMs > before.lastMs && readings.length - before.count < FEW_MORE && taken.toMs === undefined;
  if (isSame || hasBarelyGrown) return before.found;
  const groups = Map.groupBy(readings, ({ instrumentId, how }) => `${how === 'file' || how === 'instrument' ? 'logged' : 'typed'} ${instrumentId ?? ''}`);
  const found = find([...groups].map(([group, its]) => ({ how: group.startsWith('logged') ? 'logged' : 'typed', readings: its })));
  looked.delete(key);
  looked.set(key, { count: readings.length, lastMs: last.atMs, found });
  const [oldest] = looked.keys();
  if (looked.size > MOST_KEPT && oldest !== undefined) looked.delete(oldest);
  return found;
}

/** Clock times with their day: a doubt is read long after. */
function wordsOfDoubts(room: BookRoom): Words {
  const { timeZone, temperatureUnit } = kitchenOf(room.book);
  const say = (ms: number) => localTime(ms, timeZone);
  return clockWords(temperatureUnit, (ms) => `${say(ms).clock} on ${sayDay(say(ms).day)}`, (ms) => sayDay(say(ms).day));
}
