/** The record shelf and the line: what happened, in order, and what is due. */
import { z } from 'zod';
import { query } from '../endpoint.ts';
import { Batch } from './brine-bench.ts';
import { FishLot } from './fish.ts';
import { Pack, StoredLabel } from './packing.ts';
import { Id, InstantMs, Ticks } from './quantities.ts';
import { HandOver, PackMove } from './packs-where.ts';
import { ThinnedSeries } from './series.ts';
import { Complaint, IngredientLot } from './trace-shapes.ts';
import { Load } from './smokehouse.ts';
import { Decision, GateLine, LabResult, SetResult } from './verdict.ts';
import { Kitchen } from './office.ts';

/** One entry of the append-only record. */
export const Entry = z.strictObject({
  sequence: z.int(),
  id: Id,
  enteredAtMs: InstantMs,
  happenedAtMs: InstantMs.nullable(),
  kind: z.string(),
  subjectId: z.string(),
  person: z.string(),
  device: z.string(),
  /** One line for people: what was done. */
  summary: z.string(),
  why: z.string(),
  digest: z.string(),
});
/** What a point was read at in one stretch of a printed table; null where it wasn't. */
const TableCell = z.strictObject({ lowTicks: Ticks, highTicks: Ticks, readings: z.int() }).nullable();
/** Readings for a printed table: each of them, or a row a stretch with the lowest and the highest where they are many. */
export const ReadingTable = z.strictObject({
  pointIds: z.array(Id),
  /** Null where each reading has a row of its own. */
  stretchMinutes: z.int().nullable(),
  rows: z.array(z.strictObject({ fromMs: InstantMs, cells: z.array(TableCell) })),
  /** Of each point all that the book holds of it for this batch. */
  points: z.array(z.strictObject({
    pointId: Id, name: z.string(), readings: z.int(), firstAtMs: InstantMs.nullable(), lastAtMs: InstantMs.nullable(),
    lowestTicks: Ticks.nullable(), highestTicks: Ticks.nullable(),
    /** SHA-256 over instant and bounds of every one of them, in order. */
    digest: z.string(),
  })),
});
/** What became of a pack, with its moves and the hand-over that gave it away. */
export const PackFate = z.strictObject({ packId: Id, code: z.string(), where: z.string(), moves: z.array(PackMove) });

/** A stretch of the line. `planned` stretches are drawn lighter. */
export const LineBar = z.strictObject({
  batchId: Id,
  name: z.string(),
  steps: z.array(z.strictObject({ kind: z.enum(['soak', 'dry', 'smoke', 'cool', 'freeze']), fromMs: InstantMs, toMs: InstantMs, planned: z.boolean() })),
  turns: z.array(z.strictObject({ atMs: InstantMs, done: z.boolean() })),
  /** `turn`: can be logged as done from the line. */
  dues: z.array(z.strictObject({ atMs: InstantMs, text: z.string(), overdue: z.boolean(), what: z.enum(['turn', 'end', 'reading', 'other']).default('other') })),
});

export const recordRequests = {
  'line.get': query(z.strictObject({}), z.strictObject({ nowMs: InstantMs, fromMs: InstantMs, toMs: InstantMs, bars: z.array(LineBar) })),
  'record.find': query(
    z.strictObject({ text: z.string().max(100) }),
    z.strictObject({ batches: z.array(z.strictObject({ batch: Batch, verdictWords: z.string(), decision: Decision.nullable(), packCount: z.int() })) }),
  ),
  'record.batch': query(
    z.strictObject({ batchId: Id }),
    z.strictObject({
      kitchen: Kitchen,
      batch: Batch,
      lots: z.array(FishLot),
      load: Load.nullable(),
      /** Thinned to what a chart can show; a short record comes whole. */
      series: z.array(ThinnedSeries),
      table: ReadingTable,
      deciding: SetResult,
      gates: z.array(GateLine),
      labResults: z.array(LabResult),
      decisions: z.array(Decision),
      packs: z.array(Pack),
      labels: z.array(StoredLabel),
      fates: z.array(PackFate),
      handOvers: z.array(z.strictObject({ handOver: HandOver, guestName: z.string(), contact: z.string(), codes: z.array(z.string()) })),
      complaints: z.array(Complaint),
      ingredientLots: z.array(IngredientLot),
      entries: z.array(Entry),
      /** The chain of the whole book checked from its first entry to its last. */
      chain: z.strictObject({ entries: z.int(), intact: z.boolean(), digest: z.string() }),
    }),
  ),
} as const;

export type Entry = z.infer<typeof Entry>;
export type ReadingTable = z.infer<typeof ReadingTable>;
export type PackFate = z.infer<typeof PackFate>;
export type LineBar = z.infer<typeof LineBar>;
