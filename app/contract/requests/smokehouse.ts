/** The smokehouse: loads, pieces, readings by hand and from files, and what the record needs next. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Batch } from './brine-bench.ts';
import { EarlierInstrument } from './point-instrument.ts';
import { Id, InstantMs, PointRole, Process, Series, TemperatureUnit, Ticks, TypedTemperature, Words } from './quantities.ts';
import { ThinnedSeries } from './series.ts';
import { TakenOut } from './taken-out.ts';
import { SetResult } from './verdict.ts';

export const PieceDraft = z.strictObject({
  name: Words,
  batchId: Id,
  thicknessMm: z.number().min(1).max(300),
  rackPlace: z.string().trim().max(60),
  instrumentId: Id.nullable(),
});
/** A measuring point: a piece, the chamber, a place of the office, or a tub of brine. */
export const Point = z.strictObject({
  id: Id,
  name: z.string(),
  role: PointRole,
  batchId: Id.nullable(),
  thicknessMm: z.number().nullable(),
  rackPlace: z.string(),
  instrumentId: Id.nullable(),
  instrumentName: z.string(),
  /** The thermometers before this one, oldest first; left out where it was always this one. */
  earlier: z.array(z.strictObject({ ...EarlierInstrument.shape, instrumentName: z.string() })).optional(),
});
export const Load = z.strictObject({
  id: Id,
  number: z.int(),
  smokerId: Id,
  smokerName: z.string(),
  process: Process,
  batchIds: z.array(Id),
  openedAtMs: InstantMs,
  openedBy: z.string(),
  inAtMs: InstantMs.nullable(),
  endOfSmokingAtMs: InstantMs.nullable(),
  outAtMs: InstantMs.nullable(),
  /** Set when the cooling record is closed. */
  cooledAtMs: InstantMs.nullable(),
  /** What came out before the rest, in the order of marking; left out where nothing did. */
  takenOut: z.array(TakenOut).optional(),
  points: z.array(Point),
});
/** What one piece still needs, for the biggest thing on the page. */
export const Need = z.strictObject({
  pointId: Id,
  lastTicks: Ticks.nullable(),
  lastAtMs: InstantMs.nullable(),
  /** Hold so far, in whole minutes proven, and what the set asks. Null where no hold applies. */
  provenMinutes: z.number().nullable(),
  requiredMinutes: z.number().nullable(),
  /** “4.1 °F to go”, “kept 22 of 30 min”, “70 °F or less by 14:05”. */
  text: z.string(),
});
export const NextReading = z.strictObject({ pointId: Id.nullable(), atMs: InstantMs, text: z.string(), overdue: z.boolean() });
/** A limit drawn in the chart. */
export const LimitLine = z.strictObject({
  checkId: z.string(),
  ticks: Ticks,
  kind: z.enum(['minimum', 'maximum', 'target']),
  text: z.string(),
  byMs: InstantMs.nullable(),
});
const LogColumn = z.strictObject({ index: z.int(), heading: z.string(), role: z.string(), unit: z.string().nullable() });
const LogQuestion = z.strictObject({
  id: z.string(),
  text: z.string(),
  choices: z.array(z.strictObject({ id: z.string(), text: z.string() })),
  column: z.int().optional(),
});

/** What the logger's own clock showed at an instant: all its readings are moved by the difference. */
const LoggerClock = z.strictObject({ showsMs: InstantMs, atMs: InstantMs });
const ColumnPoint = z.strictObject({ name: z.string(), pointId: Id });
/** `instrumentId` tells which thermometer the column is from, where the point had several; null: one that nobody named. */
const ImportedColumn = z.strictObject({ ...ColumnPoint.shape, instrumentId: Id.nullable().optional() });

export const smokehouseRequests = {
  'load.list': query(
    /** With `newest` those that aren't cooled yet, and so many of the others with the highest numbers. */
    z.strictObject({ newest: z.int().min(1).max(100).exactOptional() }),
    z.strictObject({ loads: z.array(Load) }),
  ),
  'load.open': command(
    z.strictObject({ smokerId: Id, batchIds: z.array(Id).min(1).max(8), pieces: z.array(PieceDraft).min(1).max(24), chamberInstrumentId: Id.nullable() }),
    z.strictObject({ load: Load }),
  ),
  'load.get': query(
    z.strictObject({ loadId: Id }),
    z.strictObject({
      load: Load,
      batches: z.array(Batch),
      /** The whole record of each point, thinned to what a chart of it can show. */
      series: z.array(ThinnedSeries),
      needs: z.array(Need),
      nextReadings: z.array(NextReading),
      limitLines: z.array(LimitLine),
      /** One result per batch, by its deciding set. */
      results: z.array(z.strictObject({ batchId: Id, result: SetResult })),
      nowMs: InstantMs,
      /** What is lost because the program was off, and what was not read since; left out where nothing is. */
      off: z.strictObject({ fromMs: InstantMs, toMs: InstantMs, pointIds: z.array(Id) }).optional(),
    }),
  ),
  /** In and out of the chamber, the end of smoking, and the end of the cooling record. */
  'load.mark': command(
    z.strictObject({ loadId: Id, what: z.enum(['in', 'end-of-smoking', 'out', 'cooled']), atMs: InstantMs, why: z.string().trim().max(300).optional() }),
    z.strictObject({ load: Load }),
  ),
  'readings.enter': command(
    z.strictObject({
      readings: z.array(z.strictObject({ pointId: Id, atMs: InstantMs, value: TypedTemperature, instrumentId: Id.nullable() })).min(1).max(200),
      how: z.enum(['by-hand', 'copied-from-paper']),
      /** The number on the sheet that they were copied from. */
      sheet: z.string().trim().min(1).max(20).optional(),
    }),
    z.strictObject({
      kept: z.int(),
      /** Typed for the same point less than a minute apart, the same figure: not kept again. Left out where there are none. */
      already: z.int().optional(),
      /** Typed for the same point less than a minute apart as another figure: both are kept, and the less favourable counts. */
      beside: z.array(z.strictObject({ pointId: Id, text: z.string(), unit: TemperatureUnit })).optional(),
    }),
  ),
  /** Reads a file of the inbox and shows what it can and can't know. */
  'readings.preview': query(
    z.strictObject({
      fileId: Id, answers: z.record(z.string(), z.string()), loadId: Id.nullable(),
      /** Answers what is open as it was answered for the last file of the same shape. */
      asBefore: z.boolean().optional(),
      /** Which column is to go to which point: tells how much of it is in the book already. */
      columns: z.array(ColumnPoint).max(64).optional(),
      loggerClock: LoggerClock.optional(),
    }),
    z.strictObject({
      fileName: z.string(),
      /** Of a workbook: the sheet that was read. */
      sheet: z.string().optional(),
      /** The answers it was read with, those from before included. */
      answers: z.record(z.string(), z.string()).optional(),
      /** The last file of the same shape, where answers or points were taken from it. */
      before: z.strictObject({ fileName: z.string(), takenAtMs: InstantMs }).optional(),
      /** Of the readings of the columns asked for. */
      already: z.strictObject({ there: z.int(), all: z.int() }).optional(),
      /** This very file was taken over before, with its readings at other times. */
      otherTimes: z.strictObject({ takenAtMs: InstantMs, firstAtMs: InstantMs }).optional(),
      columns: z.array(LogColumn),
      questions: z.array(LogQuestion),
      places: z.array(z.strictObject({
        name: z.string(), unit: TemperatureUnit, count: z.int(),
        firstAtMs: InstantMs.nullable(), lastAtMs: InstantMs.nullable(),
        lowestTicks: Ticks.nullable(), highestTicks: Ticks.nullable(),
        /** The point it most likely belongs to, by name. */
        likelyPointId: Id.nullable(),
      })),
      refusedRows: z.array(z.strictObject({ line: z.int(), reason: z.string() })),
      refusedCount: z.int(),
      remarks: z.array(z.string()),
    }),
  ),
  'readings.import': command(
    z.strictObject({
      fileId: Id,
      answers: z.record(z.string(), z.string()),
      /** Which column goes to which point; a column may be left out. */
      columns: z.array(ImportedColumn).min(1).max(64),
      loggerClock: LoggerClock.optional(),
      /** Why a file that is in the book is taken over again with its readings at other times: they are there twice then. */
      whyAgain: z.string().trim().min(1).max(300).optional(),
      /** The file runs from in to out of the chamber: sets the load's marks to its first and last reading. */
      coversInToOut: z.boolean(),
      /** Given when the file goes on after the fish came out: the time it came out; the last reading then ends the cooling record. */
      outAtMs: InstantMs.nullable().optional(),
      loadId: Id.nullable(),
    }),
    z.strictObject({ kept: z.int(), refused: z.int(), alreadyThere: z.int() }),
  ),
  /** The record of a cooler, freezer or brining room. */
  'place.get': query(
    z.strictObject({ placeId: Id }),
    z.strictObject({ pointId: Id, name: z.string(), kind: z.string(), series: Series }),
  ),
} as const;

export type Load = z.infer<typeof Load>;
export type Point = z.infer<typeof Point>;
export type Need = z.infer<typeof Need>;
export type NextReading = z.infer<typeof NextReading>;
export type LimitLine = z.infer<typeof LimitLine>;
