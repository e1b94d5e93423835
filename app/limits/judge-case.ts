/** What is judged: the record of one batch, as measured points, marks, laboratory samples and facts. */
import type { FiledRecord } from './on-file.ts';
import type { ScheduledProcess } from './scheduled-process.ts';

export type Process = 'hot' | 'cold';
export type PackKind = 'vacuum' | 'air' | 'unpacked';
export type StoreKind = 'refrigerated' | 'frozen';
export type PointRole = 'piece' | 'chamber' | 'room' | 'brine' | 'store';
/** `water`: the running water that fish thaws in. */
export type MeasuredRole = PointRole | 'water';
/** Which record a point or a mark belongs to: the chamber and the cooling, the soak, the freezer, the store. */
export type RecordKind = 'process' | 'soak' | 'freezer' | 'store';
/** The records of what comes before the brine and the chamber: raw fish kept, fish thawing, and drying apart from the chamber. */
export type EarlyRecordKind = 'raw' | 'thaw' | 'dry';

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
  /** Put there by the judge where a maximum–minimum thermometer was reset: it begins a covered stretch, and is no step of the interval. */
  readonly isReset?: boolean | undefined;
  /** A computer's doubt (a spike, a pulled probe) that no person has decided yet. It counts against the batch: as out for a hold or a freezing, as real for everything else. */
  readonly doubt?: string | undefined;
}

/** A reading that a named person takes out, with the reason. Without reason or initials it is not taken out. */
export interface ExcludedReading {
  /** The point's id, or without one its name. */
  readonly pointId?: string | undefined;
  readonly pointName?: string | undefined;
  readonly atMs: number;
  /** Of several readings at that instant the one that has these ticks; all of them where none are given. */
  readonly lowTicks?: number | undefined;
  readonly highTicks?: number | undefined;
  readonly reason: string;
  readonly byInitials: string;
}

export interface MeasuredPoint {
  readonly id?: string | undefined;
  readonly name: string;
  readonly role: MeasuredRole;
  /** Absent: the point serves every record. */
  readonly record?: RecordKind | EarlyRecordKind | undefined;
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
  /** The review of the finished record, and who made it, as the training certificate names them; `mayCome` while its days run, or the record does. */
  readonly review?: { readonly recordedMs: number; readonly reviewedMs?: number | undefined; readonly reviewer?: string | undefined } | { readonly mayCome: true; readonly reviewedMs?: undefined } | undefined;
  /** Every paper on file that bears on the batch. Absent: the caller keeps none, and what only they could show is named under “not judged here”. */
  readonly onFile?: readonly FiledRecord[] | undefined;
  /** The numbers of the thermometers whose readings count. */
  readonly probesUsed?: readonly string[] | undefined;
  /** Midnight, in the kitchen's zone, before the load went in. */
  readonly loadDayStartMs?: number | undefined;
  /** The day the fish was made, the day the last of it was served or sold, and the day its record is kept until or was destroyed: YYYY-MM-DD. */
  readonly keeping?: { readonly madeOn?: string | undefined; readonly servedOn?: string | undefined; readonly keptUntil?: string | undefined } | undefined;
  /** The days of shelf life that the label gives, the day of making or smoking counted as the first. */
  readonly labelLifeDays?: number | undefined;
  /** Packs of the batch opened here; an empty list where none was. */
  readonly openedPacks?: readonly { readonly openedMs: number; readonly usedUpMs?: number | undefined }[] | undefined;
  /** The number of the film it is packed in. */
  readonly filmUsed?: string | undefined;
  /** Whether the fish was dried somewhere else than in the chamber. */
  readonly driedApart?: boolean | undefined;
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
  readonly records: Readonly<Record<RecordKind, RecordSpan>> & Readonly<Partial<Record<EarlyRecordKind, RecordSpan>>>;
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
  /** Readings that people have excluded. The judge itself takes none out: `applyExclusions` does, so that both verdicts can be shown. */
  readonly excluded?: readonly ExcludedReading[] | undefined;
}
