/** Limits as data: the registry of checks, and the sets that answer a batch's questions with them. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import type { EarlyRecordKind, PackKind, PointRole, Process, RecordKind, StoreKind } from './judge-case.ts';

export type Gate = 'brine' | 'smoke' | 'pack' | 'leave';
export const GATES: readonly Gate[] = ['brine', 'smoke', 'pack', 'leave'];

/** What a set is asked. `pack` holds rules on the pack itself: a ban, frozen before sealing. */
export type Question =
  | 'raw' | 'thaw' | 'brine' | 'dry' | 'chamber' | 'cooling' | 'exposure' | 'parasite' | 'salt' | 'pack' | 'store' | 'record';
export const QUESTIONS: readonly Question[] = [
  'raw', 'thaw', 'brine', 'dry', 'chamber', 'cooling', 'exposure', 'parasite', 'salt', 'pack', 'store', 'record',
];

/** How a text is known: seen, seen restated, recalled, worked out, or usual in the trade. */
export type SourceMark = 'read' | 'second-hand' | 'from memory' | 'computed' | 'common practice';
export interface Source {
  readonly publisher: string;
  readonly title: string;
  readonly section: string;
  readonly year: number | null;
  readonly mark: SourceMark;
}

/** A limit in the unit of the law: decimal text, compared exactly. */
export interface Figure {
  readonly value: string;
  readonly unit: TemperatureUnit;
}

/** When a check applies. Contradicted: it does not. Not given: it is judged, unless the check only relaxes. */
export interface Conditions {
  readonly process?: Process | undefined;
  /** Scientific names. */
  readonly species?: readonly string[] | undefined;
  readonly notSpecies?: readonly string[] | undefined;
  readonly pack?: readonly PackKind[] | undefined;
  readonly store?: StoreKind | undefined;
  /** `found`: nitrite in the fish; `permitted`: every sample within 100 to 200 ppm. */
  readonly nitrite?: 'found' | 'permitted' | undefined;
  readonly cure?: 'wet' | 'dry' | undefined;
  readonly wasFrozen?: boolean | undefined;
  /** Dried somewhere else than in the chamber. */
  readonly driedApart?: boolean | undefined;
  /** Applies only without a variance of the authority. */
  readonly withoutVariance?: boolean | undefined;
}

interface CheckBase {
  readonly id: string;
  /** In plain words, with the figures. */
  readonly title: string;
  readonly question: Question;
  readonly gate: Gate;
  readonly conditions?: Conditions | undefined;
  /** Only relaxes another limit: without its conditions known it proves nothing. */
  readonly relaxes?: boolean | undefined;
  /** The first is the one cited where a set names none. */
  readonly sources: readonly Source[];
}

/** Core at or above the limit for an unbroken time. */
export interface HoldCheck extends CheckBase {
  readonly kind: 'hold';
  readonly limit: Figure;
  readonly minutes: number;
}
/** At or below the limit for an unbroken time; `untilSolid` must hold until the fish is frozen solid, where the time begins. */
export interface FreezeCheck extends CheckBase {
  readonly kind: 'freeze';
  readonly limit: Figure;
  readonly minutes: number;
  readonly reads: 'pieces' | 'pieces-or-store';
  readonly untilSolid?: Figure | undefined;
}
/** Every reading at or below the limit, with an optional time limit. */
export interface CeilingCheck extends CheckBase {
  readonly kind: 'ceiling';
  readonly limit: Figure;
  /** The limit itself is too much. */
  readonly below?: boolean | undefined;
  readonly reads: PointRole | 'water';
  readonly record: RecordKind | EarlyRecordKind;
  readonly minutes?: number | undefined;
  /** `once-chilled`: from the first reading at or below the limit. */
  readonly stretch: 'whole' | 'once-chilled';
  readonly gap: 'ceiling' | 'frozen-store';
}
/** From a start down to targets, each within a time. */
export interface DescentCheck extends CheckBase {
  readonly kind: 'descent';
  /** Absent: the clock starts at the end-of-smoking mark. */
  readonly from?: Figure | undefined;
  readonly targets: readonly { readonly limit: Figure; readonly minutes: number }[];
  readonly clock: 'shared' | 'separate';
}
export interface ProbeCountCheck extends CheckBase {
  readonly kind: 'probe-count';
  readonly pieces: number;
}
export interface BrineStartCheck extends CheckBase {
  readonly kind: 'brine-start';
  readonly limit: Figure;
}
/** The room of a soak longer than `overMinutes`. */
export interface SoakRoomCheck extends CheckBase {
  readonly kind: 'soak-room';
  readonly limit: Figure;
  readonly overMinutes: number;
}
/** Salt in the water phase of every sample, with nitrite between two bounds where the check asks it. */
export interface WaterPhaseSaltCheck extends CheckBase {
  readonly kind: 'water-phase-salt';
  readonly percent: string;
  readonly nitritePpm?: { readonly least: string; readonly most: string } | undefined;
  /** A minimum that keeping the pack frozen stands in for. */
  readonly frozenStandsIn: boolean;
}
/** Salt over the whole contents. */
export interface TotalSaltCheck extends CheckBase {
  readonly kind: 'total-salt';
  readonly percent: string;
  readonly frozenStandsIn: boolean;
}
export interface NitriteMaximumCheck extends CheckBase {
  readonly kind: 'nitrite-maximum';
  readonly ppm: string;
}
/** No nitrite at all, in species that no rule permits it for. */
export interface NitriteNoneCheck extends CheckBase {
  readonly kind: 'nitrite-none';
}
/** A figure on something that no record of ours holds yet; never met. */
export interface UnmeasuredCheck extends CheckBase {
  readonly kind: 'unmeasured';
  readonly what: string;
}
/** Frozen solid before it is sealed. */
export interface FrozenBeforeSealCheck extends CheckBase {
  readonly kind: 'frozen-before-seal';
}
/** This pack is forbidden, unless spores are killed after sealing. */
export interface PackBanCheck extends CheckBase {
  readonly kind: 'pack-ban';
}
/** The text asks something without a figure. */
export interface NoFigureCheck extends CheckBase {
  readonly kind: 'no-figure';
}
/** New brine, or at most so many batches, `freshMinutes` old unless filtered. */
export interface BrineReuseCheck extends CheckBase {
  readonly kind: 'presence';
  readonly batches: number;
  readonly freshMinutes?: number | undefined;
}
export interface ReviewCheck extends CheckBase {
  readonly kind: 'review';
  readonly days: number;
}
/** What shows a permission or an exemption: a paper on file, a manager's initials, or the species itself. */
export type PermissionProof = 'permission' | 'variance' | 'fed-pellets' | 'frozen-by-supplier' | 'manager-initials' | 'species';
/** A permission on file; where it only relaxes, an exemption that is proven by it and never assumed. */
export interface PermissionCheck extends CheckBase {
  readonly kind: 'permission';
  readonly proof: PermissionProof;
  /** What a supplier's statement of freezing must state, any one of them. */
  readonly stated?: readonly { readonly limit: Figure; readonly hours: number }[] | undefined;
}
/** Every thermometer used checked within so many months of its use, or on the day of the load before it went in. */
export interface CalibrationCheck extends CheckBase {
  readonly kind: 'calibration';
  readonly within: { readonly months: number } | 'day';
}
/** The record kept for a time from a day. */
export interface RetentionCheck extends CheckBase {
  readonly kind: 'retention';
  readonly from: 'made' | 'served';
  readonly length: { readonly years: number } | { readonly days: number };
}
/** The shelf life that a label gives, or the use of a pack once it is opened. */
export interface LabelCheck extends CheckBase {
  readonly kind: 'label';
  readonly lifeDays?: number | undefined;
  readonly openedHours?: number | undefined;
}
/** The oxygen that a film lets through, in cc/m² a day at 24 °C and 1 atm: at least this. */
export interface FilmCheck extends CheckBase {
  readonly kind: 'film';
  readonly oxygenRate: string;
}

export type Check =
  | HoldCheck | FreezeCheck | CeilingCheck | DescentCheck | ProbeCountCheck | BrineStartCheck | SoakRoomCheck
  | WaterPhaseSaltCheck | TotalSaltCheck | NitriteMaximumCheck | NitriteNoneCheck | UnmeasuredCheck
  | FrozenBeforeSealCheck | PackBanCheck | NoFigureCheck | BrineReuseCheck | ReviewCheck
  | PermissionCheck | CalibrationCheck | RetentionCheck | LabelCheck | FilmCheck;
export type CheckKind = Check['kind'];

/** One line of a set: all of `checks`, or the best of `oneOf`, or the words for why there is no figure. */
export interface Answer {
  readonly question: Question;
  readonly when?: Conditions | undefined;
  readonly checks?: readonly string[] | undefined;
  readonly oneOf?: readonly string[] | undefined;
  readonly noFigure?: string | undefined;
  /** The hold is one common stretch of all pieces. */
  readonly together?: boolean | undefined;
  /** Judged beside the question's answer; answers nothing by itself. */
  readonly besides?: boolean | undefined;
  /** The set's own text for a check, by check id. */
  readonly cites?: Readonly<Record<string, Source>> | undefined;
}

export interface LimitSet {
  readonly id: string;
  /** In plain words. */
  readonly name: string;
  readonly version: string;
  /** The days, YYYY-MM-DD, from which and until which this version is in force; without an end it still is. */
  readonly effectiveFrom: string;
  readonly effectiveUntil?: string | undefined;
  /** Every text of the set was seen whole; else it may be compared against, not decide, until the kitchen confirms its figures. */
  readonly readInFull: boolean;
  readonly note: string;
  readonly answers: readonly Answer[];
  /** What leads on from a miss; freezing is none of them. */
  readonly correctiveActs: readonly string[];
}

export interface LimitBook {
  readonly checks: readonly Check[];
  readonly sets: readonly LimitSet[];
}

/** The check with this id; undefined for an unknown one. */
export function findCheck(book: LimitBook, checkId: string): Check | undefined {
  return book.checks.find((check) => check.id === checkId);
}

/** The set with this id; undefined for an unknown one. */
export function findSet(book: LimitBook, setId: string): LimitSet | undefined {
  return book.sets.find((set) => set.id === setId);
}

/** Whether a version of a set is in force on a day, YYYY-MM-DD; its first and last day count. */
export function isInForce(set: LimitSet, day: string): boolean {
  return day >= set.effectiveFrom && (set.effectiveUntil === undefined || day <= set.effectiveUntil);
}

/** Every check id that a set names, each once, in its order. */
export function checkIdsOf(set: LimitSet): string[] {
  return [...new Set(set.answers.flatMap((answer) => [...(answer.checks ?? []), ...(answer.oneOf ?? [])]))];
}

/** The text a set rests a check on: its own citation, else the check's first. */
export function sourceOf(check: Check, set?: LimitSet): Source {
  const cited = set?.answers.find((answer) => answer.cites?.[check.id] !== undefined)?.cites?.[check.id];
  const source = cited ?? check.sources[0];
  if (source === undefined) throw new Error(`${check.id} has no source`);
  return source;
}
