/** The verdict of a batch as it crosses the contract: checks with their evidence, gates, decisions. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Day, Id, InstantMs, PackKind, StoreKind, Ticks, Words } from './quantities.ts';
import { Confirmation, Mark, Question } from './limits.ts';

export const Verdict = z.enum(['misses', 'not-proven', 'no-figure', 'open', 'meets-within-error', 'meets', 'does-not-apply']);
export const Span = z.strictObject({ fromMs: InstantMs, toMs: InstantMs, counts: z.boolean(), why: z.string(), pointId: Id.nullable() });
export const CheckResult = z.strictObject({
  checkId: z.string(),
  title: z.string(),
  question: Question,
  gate: z.string(),
  verdict: Verdict,
  reason: z.string(),
  provenMinutes: z.number().optional(),
  possibleMinutes: z.number().optional(),
  requiredMinutes: z.number().optional(),
  shortestMinutes: z.number().optional(),
  longestMinutes: z.number().optional(),
  spans: z.array(Span),
  pieces: z.array(z.strictObject({ pointId: Id.nullable(), name: z.string(), verdict: Verdict, provenMinutes: z.number().optional(), text: z.string() })),
  /** What would have been needed, or is still needed, in a sentence; empty when met. */
  needed: z.string(),
  source: z.string(),
  mark: Mark,
  confirmation: Confirmation.nullable(),
});
export const SetResult = z.strictObject({
  setId: z.string(),
  setName: z.string(),
  version: z.string(),
  verdict: Verdict,
  /** “meets all 6 limits of …; not judged here: raw, thaw.” */
  words: z.string(),
  checks: z.array(CheckResult),
  notJudgedHere: z.array(z.string()),
});
export const GateLine = z.strictObject({
  gate: z.enum(['brine', 'smoke', 'pack', 'leave']),
  /** `initials`: meets only within the thermometer's error, so a person must initial it. */
  state: z.enum(['may', 'initials', 'not-yet', 'blocked']),
  line: z.string(),
  blocking: z.array(z.strictObject({ checkId: z.string(), reason: z.string(), needed: z.string() })),
  later: z.array(z.string()),
  /** What the set allows when something was missed: go on with the same cook, process authority, destroy. */
  ways: z.array(z.string()),
});
/** Time inside the bands in which organisms grow, over every step on record; information, never a verdict. */
const WithinMinutes = { shortestMinutes: z.number(), longestMinutes: z.number() };
export const Exposure = z.strictObject({
  steps: z.array(z.strictObject({ name: z.string(), fromMs: InstantMs, toMs: InstantMs, readings: z.int(), isApart: z.boolean() })),
  /** By organism; only bands that some time was or may have been spent in. */
  bands: z.array(z.strictObject({ organism: z.string(), effect: z.string(), band: z.string(), allowedMinutes: z.number(), ...WithinMinutes, note: z.string(), source: z.string(), mark: Mark })),
  /** What published texts count and allow in all. */
  rules: z.array(z.strictObject({
    title: z.string(), tiers: z.string(), source: z.string(), mark: Mark,
    limbs: z.array(z.strictObject({ text: z.string(), allowedMinutes: z.number(), ...WithinMinutes })),
  })),
  /** The smoking, and the cooling after a completed hold, which are judged by limits of their own. */
  apart: z.array(z.strictObject({ what: z.enum(['smoking', 'cooling']), ...WithinMinutes })),
  /** Where texts differ, and stretches that no temperature tells of. */
  notes: z.array(z.string()),
});
/** What the heat did, for the detail only. */
export const Lethality = z.strictObject({
  targets: z.array(z.strictObject({
    name: z.string(), organism: z.string(), requiredMinutes: z.number(), sources: z.array(z.strictObject({ text: z.string(), mark: Mark })),
    pieces: z.array(z.strictObject({ name: z.string(), minutes: z.number(), logReductions: z.number().nullable(), gapMinutes: z.number() })),
  })),
  notes: z.array(z.string()),
});
export const LabResult = z.strictObject({
  id: Id,
  sampledOn: Day,
  sample: z.string(),
  laboratory: z.string(),
  saltPercent: z.string(),
  moisturePercent: z.string(),
  nitritePpm: z.string().nullable(),
  waterPhasePercent: z.number(),
  enteredBy: z.string(),
  enteredAtMs: InstantMs,
});
export const Decision = z.strictObject({
  id: Id,
  decision: z.enum(['release', 'hold', 'reject']),
  reason: z.string(),
  initials: z.string(),
  personId: Id,
  atMs: InstantMs,
  pack: PackKind,
  store: StoreKind,
  /** The marked place of the HOLD tag. */
  keptWhere: z.string(),
  verdictWords: z.string(),
  judgementDigest: z.string(),
  /** Whether the initials were given for what meets only within the thermometers’ error. */
  initialsForError: z.boolean().default(false),
});
/** Exact decimals as typed, so that 3.5 is 3.5. */
const DecimalText = z.string().regex(/^\d{1,3}(\.\d{1,4})?$/);

export const verdictRequests = {
  'batch.verdict': query(
    /** `pack` and `store` ask the gates for another way of packing than the batch's plan. */
    z.strictObject({ batchId: Id, pack: PackKind.optional(), store: StoreKind.optional() }),
    z.strictObject({
      deciding: SetResult,
      /** Judged without the readings that people left out; null where nobody left any out. */
      asRecorded: SetResult.nullable(),
      others: z.array(SetResult),
      exposure: Exposure.nullable(),
      /** Null where the heat check isn't met: it says nothing of such a batch. */
      lethality: Lethality.nullable(),
      gates: z.array(GateLine),
      labResults: z.array(LabResult),
      decisions: z.array(Decision),
      /** Deciding limits that rest on memory or a second-hand text and aren't confirmed yet. */
      unconfirmed: z.array(z.string()),
      process: z.enum(['hot', 'cold']),
      coldest: Ticks.nullable(),
    }),
  ),
  'lab.record': command(
    z.strictObject({
      batchId: Id, sampledOn: Day, sample: Words, laboratory: Words,
      saltPercent: DecimalText, moisturePercent: DecimalText,
      nitritePpm: z.string().regex(/^\d{1,5}(\.\d{1,2})?$/).nullable(),
    }),
    z.strictObject({ result: LabResult }),
  ),
  /** Marks of the freezer and the sealing, with the freezer that holds it. */
  'batch.mark': command(
    z.strictObject({ batchId: Id, what: z.enum(['sealed', 'into-freezer', 'frozen', 'out-of-freezer']), atMs: InstantMs, placeId: Id.nullable() }),
    z.strictObject({ batchId: Id }),
  ),
  'batch.decide': command(
    z.strictObject({
      batchId: Id,
      decision: z.enum(['release', 'hold', 'reject']),
      reason: Words,
      /** How it will be packed and kept: the gate is judged for this. */
      pack: PackKind,
      store: StoreKind,
      keptWhere: z.string().trim().max(100),
      /** Given when something meets only within the thermometer's error. */
      initialsForError: z.boolean(),
    }),
    z.strictObject({ decision: Decision }),
    ['manager'],
  ),
} as const;

export type Verdict = z.infer<typeof Verdict>;
export type CheckResultWire = z.infer<typeof CheckResult>;
export type SetResultWire = z.infer<typeof SetResult>;
export type GateLine = z.infer<typeof GateLine>;
export type Exposure = z.infer<typeof Exposure>;
export type Lethality = z.infer<typeof Lethality>;
export type LabResult = z.infer<typeof LabResult>;
export type Decision = z.infer<typeof Decision>;
