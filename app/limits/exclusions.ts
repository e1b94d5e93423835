/** Readings that people exclude: the verdict with them out, and the verdict as recorded, side by side. */
import type { ExcludedReading, JudgeCase, MeasuredPoint, Reading } from './judge-case.ts';
import { judgeSet, type SetOptions, type SetResult } from './judge-set.ts';
import type { LimitBook, LimitSet } from './limit-set.ts';
import { listText, nameText, type Words } from './words.ts';

/** An exclusion that was not applied, and why. */
export interface RefusedExclusion {
  readonly excluded: ExcludedReading;
  readonly why: string;
}

export interface ExcludedCase {
  /** The case without the excluded readings. */
  readonly judged: JudgeCase;
  readonly applied: readonly ExcludedReading[];
  readonly refused: readonly RefusedExclusion[];
}

export interface BothVerdicts {
  /** With the named exclusions: this one decides. */
  readonly deciding: SetResult;
  /** Every reading counted as recorded. The same result where nothing was excluded. */
  readonly asRecorded: SetResult;
  readonly applied: readonly ExcludedReading[];
  readonly refused: readonly RefusedExclusion[];
  /** Both verdicts in a sentence, with who excluded what and why; empty where nothing was excluded. */
  readonly words: string;
}

/**
 * Takes out what named people excluded with a reason. Everything read at that instant by that point
 * goes, or where the exclusion gives ticks, the reading that has them; the hole it leaves is a hole of the record. An exclusion without a reason, without initials
 * or without a reading that it names is refused.
 */
export function applyExclusions(judged: JudgeCase): ExcludedCase {
  const applied: ExcludedReading[] = [];
  const refused: RefusedExclusion[] = [];
  const instants = new Map<MeasuredPoint, Set<number>>();
  const taken = new Map<MeasuredPoint, Map<number, ExcludedReading[]>>();
  const instantsOf = (point: MeasuredPoint): Set<number> => {
    const known = instants.get(point) ?? new Set(point.readings.map((reading) => reading.atMs));
    instants.set(point, known);
    return known;
  };
  for (const excluded of judged.excluded ?? []) {
    const named = judged.points.filter((point) => isNamed(point, excluded));
    const why = refusalOf(excluded, named, instantsOf);
    if (why !== undefined) {
      refused.push({ excluded, why });
      continue;
    }
    applied.push(excluded);
    for (const point of named) {
      const out = taken.get(point) ?? new Map<number, ExcludedReading[]>();
      taken.set(point, out.set(excluded.atMs, [...(out.get(excluded.atMs) ?? []), excluded]));
    }
  }
  const points = judged.points.map((point) => {
    const out = taken.get(point);
    return out === undefined ? point : { ...point, readings: point.readings.filter((reading) => out.get(reading.atMs)?.some((excluded) => isMeant(reading, excluded)) !== true) };
  });
  return { judged: { ...judged, points, excluded: undefined }, applied, refused };
}

/** Judges twice: with the named exclusions, which decides, and as recorded. */
export function judgeBothWays(set: LimitSet, judged: JudgeCase, book: LimitBook, options: SetOptions): BothVerdicts {
  const { judged: without, applied, refused } = applyExclusions(judged);
  const asRecorded = judgeSet(set, judged, book, options);
  const deciding = applied.length === 0 ? asRecorded : judgeSet(set, without, book, options);
  return { deciding, asRecorded, applied, refused, words: bothWords(deciding.words, asRecorded.words, applied, judged, options.words) };
}

/** “With 1 reading excluded (Piece B at minute 25, by KM: pulled probe): meets … As recorded: does not meet …”. */
export function bothWords(deciding: string, asRecorded: string, applied: readonly ExcludedReading[], judged: JudgeCase, words: Words): string {
  if (applied.length === 0) return '';
  const told = stretchesOf(applied).map(({ first, last, count }) => {
    const point = judged.points.find((one) => isNamed(one, first));
    const when = count === 1 ? `at ${words.at(first.atMs)}` : `from ${words.at(first.atMs)} to ${words.at(last.atMs)}, ${count} readings`;
    return `${point === undefined ? '' : nameText(point.role, point.name)} ${when}, by ${first.byInitials}: ${first.reason}`;
  });
  const count = `${applied.length} reading${applied.length === 1 ? '' : 's'} excluded (${listText(told)})`;
  return `With ${count}: ${lower(deciding)} As recorded: ${lower(asRecorded)}`;
}

interface ExcludedStretch {
  readonly first: ExcludedReading;
  readonly last: ExcludedReading;
  readonly count: number;
}

/** Readings that follow each other in the list, of one point, taken out by one person for one reason. */
function stretchesOf(applied: readonly ExcludedReading[]): ExcludedStretch[] {
  return applied.reduce<ExcludedStretch[]>((stretches, excluded) => {
    const before = stretches.at(-1);
    const isSame = before !== undefined && before.first.pointId === excluded.pointId && before.first.pointName === excluded.pointName
      && before.first.byInitials === excluded.byInitials && before.first.reason === excluded.reason && excluded.atMs >= before.last.atMs;
    if (!isSame) return [...stretches, { first: excluded, last: excluded, count: 1 }];
    stretches[stretches.length - 1] = { first: before.first, last: excluded, count: before.count + 1 };
    return stretches;
  }, []);
}

function refusalOf(excluded: ExcludedReading, named: readonly MeasuredPoint[], instantsOf: (point: MeasuredPoint) => ReadonlySet<number>): string | undefined {
  if (excluded.reason.trim() === '') return 'It gives no reason.';
  if (excluded.byInitials.trim() === '') return 'It names nobody who decided it.';
  if (named.length === 0) return 'There is no such point in the record.';
  if (excluded.pointId === undefined && new Set(named.map((point) => point.role)).size > 1) return 'Several points have that name.';
  return named.some((point) => instantsOf(point).has(excluded.atMs)) ? undefined : 'There is no reading at that moment.';
}

function isMeant(reading: Reading, { lowTicks, highTicks }: ExcludedReading): boolean {
  return (lowTicks === undefined || reading.lowTicks === lowTicks) && (highTicks === undefined || reading.highTicks === highTicks);
}

function isNamed(point: MeasuredPoint, { pointId, pointName }: ExcludedReading): boolean {
  return pointId === undefined ? pointName !== undefined && point.name === pointName : point.id === pointId;
}

function lower(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}
