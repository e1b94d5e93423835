/** The instruments' checks, doubts about readings, corrections, and what comes back when they change a released batch. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Instrument } from './office.ts';
import { Id, InstantMs, Ticks, TypedTemperature, Words } from './quantities.ts';

/** One check of a thermometer in ice, in boiling water, or both. */
export const InstrumentCheck = z.strictObject({
  id: Id,
  instrumentId: Id,
  atMs: InstantMs,
  enteredAtMs: InstantMs,
  initials: z.string(),
  iceShownTicks: Ticks.nullable(),
  boilingShownTicks: Ticks.nullable(),
  /** Where water boils at this height or pressure; the middle of what the weather allows where the height alone is known. */
  boilingTrueTicks: Ticks.nullable(),
  altitudeMetres: z.number().nullable(),
  pressureHectopascals: z.number().nullable(),
  /** What it shows above the truth, at each point. */
  iceBiasTicks: z.int().nullable(),
  boilingBiasTicks: z.int().nullable(),
  /** Within the accuracy it is sold with; null where that isn't known. */
  withinClass: z.boolean().nullable(),
  /** Off by so much that no correction is to be trusted. */
  pastCorrecting: z.boolean(),
  /** “Reads 1.0 °F high in ice; …” */
  text: z.string(),
});
export const InstrumentState = z.strictObject({
  instrument: Instrument,
  checks: z.array(InstrumentCheck),
  /** An ice check is wanted today before a load. */
  dueToday: z.boolean(),
  /** Its yearly check against a standard is over. */
  overdue: z.boolean(),
  text: z.string(),
});

const DoubtKind = z.enum(['open-circuit', 'spike', 'pulled-probe', 'flat-line', 'stuck', 'clock']);
/** What a named person decided about readings in doubt. */
export const DoubtDecision = z.strictObject({
  batchId: Id,
  pointId: Id,
  kind: DoubtKind,
  fromMs: InstantMs,
  toMs: InstantMs,
  /** The thermometer in doubt, by itself or typed; others' readings in the same minutes are not decided on. */
  by: z.strictObject({ how: z.enum(['logged', 'typed']), instrumentId: Id.nullable() }),
  /** The last entry that vouched for readings of the point then; later ones are not decided on. */
  lastEntry: z.int(),
  /** What the program found odd. */
  reason: z.string(),
  decision: z.enum(['exclude', 'keep']),
  why: z.string(),
  initials: z.string(),
  personId: Id,
  atMs: InstantMs,
});
/** A proposal of the program's about readings; until a named person decides, the readings count against the batch. */
export const Doubt = z.strictObject({
  id: z.string(),
  pointId: Id,
  pointName: z.string(),
  kind: DoubtKind,
  fromMs: InstantMs,
  toMs: InstantMs,
  readings: z.int(),
  reason: z.string(),
  decided: z.strictObject({ decision: z.enum(['exclude', 'keep']), why: z.string(), initials: z.string(), atMs: InstantMs }).nullable(),
});

export const WorkItem = z.strictObject({
  id: Id,
  batchId: Id,
  batchName: z.string(),
  what: z.enum(['decide-again', 'labels', 'packs', 'call']),
  text: z.string(),
  sinceMs: InstantMs,
  done: z.strictObject({ initials: z.string(), atMs: InstantMs, how: z.string() }).nullable(),
});

export const evidenceRequests = {
  'instrument.list': query(z.strictObject({}), z.strictObject({ instruments: z.array(InstrumentState) })),
  'instrument.check': command(
    z.strictObject({
      instrumentId: Id,
      atMs: InstantMs,
      ice: TypedTemperature.nullable(),
      boiling: TypedTemperature.nullable(),
      altitudeMetres: z.string().trim().max(20),
      pressureHectopascals: z.string().trim().max(20),
    }),
    z.strictObject({ check: InstrumentCheck, affectedBatches: z.array(z.string()) }),
  ),
  'doubt.list': query(z.strictObject({ batchId: Id }), z.strictObject({ doubts: z.array(Doubt) })),
  /** A named person leaves readings out, or keeps them, with a reason. */
  'doubt.decide': command(
    z.strictObject({ batchId: Id, pointId: Id, kind: DoubtKind, fromMs: InstantMs, toMs: InstantMs, decision: z.enum(['exclude', 'keep']), why: Words }),
    z.strictObject({ batchId: Id }),
    ['chef', 'manager'],
  ),
  /** What was entered wrong, put right: the old stays in the record. */
  'fishLot.correct': command(
    z.strictObject({ lotId: Id, speciesId: z.string().max(80).nullable(), ownerName: z.string().trim().max(200).nullable(), why: Words }),
    z.strictObject({ affectedBatches: z.array(z.string()) }),
    ['chef', 'manager'],
  ),
  'batch.correct': command(
    z.strictObject({ batchId: Id, thickestMm: z.number().nullable(), pieces: z.array(z.strictObject({ pointId: Id, thicknessMm: z.number() })).max(24), why: Words }),
    z.strictObject({ affectedBatches: z.array(z.string()) }),
    ['chef', 'manager'],
  ),
  'worklist.get': query(z.strictObject({}), z.strictObject({ items: z.array(WorkItem) })),
  'worklist.done': command(z.strictObject({ itemId: Id, how: Words }), z.strictObject({ items: z.array(WorkItem) })),
} as const;

export type InstrumentCheck = z.infer<typeof InstrumentCheck>;
export type InstrumentState = z.infer<typeof InstrumentState>;
export type Doubt = z.infer<typeof Doubt>;
export type WorkItem = z.infer<typeof WorkItem>;
