/** What is judged: the record of one batch, as measured points, marks, laboratory samples and facts. */

export type Process = 'hot' | 'cold';
export type PackKind = 'vacuum' | 'air' | 'unpacked';
export type StoreKind = 'refrigerated' | 'frozen';
export type PointRole = 'piece' | 'chamber' | 'room' | 'brine' | 'store';
/** Which record a point or a mark belongs to: the chamber and the cooling, the soak, the freezer, the store. */
export type RecordKind = 'process' | 'soak' | 'freezer' | 'store';

/**
 * One temperature at one instant. `lowTicks` and `highTicks` hold the less favourable of the raw and
 * the corrected value for a minimum and for a maximum.
 */
export interface Reading {
  readonly atMs: number;
  readonly lowTicks: number;
  readonly highTicks: number;
  /** Entered long after it was read, or copied from paper: said in the reason. */
  readonly entered?: 'late' | 'paper' | undefined;
  /** A maximum–minimum thermometer reset at this instant: the reading covers the stretch since. */
  readonly coversSinceMs?: number | undefined;
}

export interface MeasuredPoint {
  readonly id?: string | undefined;
  readonly name: string;
  readonly role: PointRole;
  /** Absent: the point serves every record. */
  readonly record?: RecordKind | undefined;
  /** In any order; two values at one instant are allowed, the worse counts. */
  readonly readings: readonly Reading[];
  readonly thicknessMm?: number | undefined;
}

/**
 * The marks of one record. The process record is open until the fish is marked cooled: its out mark
 * (out of the chamber) ends the hold, not the cooling. The others end with their out mark.
 */
export interface RecordSpan {
  readonly inMs?: number | undefined;
  readonly outMs?: number | undefined;
  readonly open: boolean;
}

/** One laboratory sample; decimals as text, exactly as reported. */
export interface SaltSample {
  readonly saltPercent: string;
  readonly moisturePercent: string;
  readonly nitritePpm?: string | undefined;
  /** The method's error on the salt result, in the same per cent. */
  readonly errorPercent?: string | undefined;
}

/** One limit of a process authority's window and what this batch was; decimals as text. */
export interface WindowItem {
  readonly what: string;
  readonly limit: string;
  readonly side: 'at-least' | 'at-most' | 'exactly';
  readonly actual?: string | undefined;
}
export interface ScheduledProcess {
  readonly name: string;
  readonly window: readonly WindowItem[];
  /** Whether a laboratory verification of this window is current. */
  readonly verified: boolean;
}

/** What the book knows beside measurements. Absent means not known, which is never taken in the batch's favour. */
export interface CaseFacts {
  readonly cure?: 'wet' | 'dry' | undefined;
  readonly wasFrozen?: boolean | undefined;
  readonly nitriteUsed?: boolean | undefined;
  /** Whether the brine was used before for other fish. */
  readonly brineReused?: boolean | undefined;
  /** Which batch of this brine it is: 1 for new brine. */
  readonly brineBatchNumber?: number | undefined;
  /** Age of the brine when the fish went in, and whether it was filtered free of bacteria. */
  readonly brineAgeMinutes?: number | undefined;
  readonly brineFiltered?: boolean | undefined;
  /** A variance (permission) of the authority for smoking, curing or vacuum packing. */
  readonly variance?: boolean | undefined;
  /** Heat after sealing that kills all spores of C. botulinum. */
  readonly sporesKilledAfterSealing?: boolean | undefined;
  readonly review?: { readonly recordedMs: number; readonly reviewedMs?: number | undefined } | undefined;
  /** The label was printed as the batch was sealed (frozen or chilled), and is on the packs. */
  readonly labelledAsSealed?: boolean | undefined;
}

export interface JudgeCase {
  readonly process: Process;
  /** Scientific name. */
  readonly species?: string | undefined;
  readonly pack?: PackKind | undefined;
  readonly store?: StoreKind | undefined;
  readonly points: readonly MeasuredPoint[];
  readonly records: Readonly<Record<RecordKind, RecordSpan>>;
  readonly endOfSmokingMs?: number | undefined;
  readonly sealedMs?: number | undefined;
  /** Frozen solid. */
  readonly frozenMs?: number | undefined;
  /** When it was taken out of the freezer again, where that is known: frozen no longer. */
  readonly thawedMs?: number | undefined;
  /** When the finished fish was known to be chilled; its store's record is judged from here where it is known. */
  readonly chilledMs?: number | undefined;
  readonly nominalIntervalMs?: number | undefined;
  readonly maxGapMs?: number | undefined;
  /** The instrument's error as a difference, not below zero. */
  readonly errorTicks: number;
  readonly saltSamples: readonly SaltSample[];
  readonly scheduledProcess?: ScheduledProcess | undefined;
  /** Readings alone were given: a first and a last reading may stand for missing marks. */
  readonly readingsStandForMarks?: boolean | undefined;
  readonly facts?: CaseFacts | undefined;
}
