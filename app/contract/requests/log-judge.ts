/** Judging a record of temperatures and samples without a book: pure, in minutes and in the readings' own scale. */
import { z } from 'zod';
import { pure } from '../endpoint.ts';

/** Minutes since the record's own zero; may be fractional or below zero. */
const Minute = z.number().min(-100_000_000).max(100_000_000);
const Duration = z.number().positive().max(100_000_000);
const Degrees = z.number().min(-100_000).max(100_000);
const Percent = z.number().min(0).max(100);

export const LogJudgePlace = z.strictObject({
  name: z.string().max(200),
  role: z.enum(['piece', 'chamber', 'room', 'brine', 'store']),
  /** `[minute, value]` in any order; two values at one minute are allowed, the worse counts. */
  points: z.array(z.tuple([Minute, Degrees])),
});

export const LogJudgeIn = z.strictObject({
  process: z.enum(['hot', 'cold']),
  /** One name and role given twice is one piece (or place) read by two instruments. */
  readings: z.strictObject({ unit: z.enum(['F', 'C']), places: z.array(LogJudgePlace).max(1000) }),
  /** A limit set; without it and without `checkIds` it is `lodge-default`. */
  setId: z.string().max(100).optional(),
  /** Checks, each judged alone. */
  checkIds: z.array(z.string().max(100)).max(500).optional(),
  /** Scientific name. */
  species: z.string().max(200).optional(),
  pack: z.enum(['vacuum', 'air', 'unpacked']).optional(),
  store: z.enum(['refrigerated', 'frozen']).optional(),
  nominalIntervalMinutes: Duration.optional(),
  /** Exactly this far apart is no gap. */
  maxGapMinutes: z.number().min(0).max(100_000_000).optional(),
  marks: z.strictObject({
    inMinute: Minute.optional(),
    outMinute: Minute.optional(),
    endOfSmokingMinute: Minute.optional(),
    sealedMinute: Minute.optional(),
    /** Frozen solid. */
    frozenMinute: Minute.optional(),
  }).optional(),
  /** A difference in the readings' unit. */
  instrumentError: z.number().min(0).max(1000).optional(),
  /** The record is still running. */
  open: z.boolean().optional(),
  saltSamples: z.array(z.strictObject({
    saltPercent: Percent,
    moisturePercent: Percent,
    nitritePpm: z.number().min(0).max(1_000_000).optional(),
  })).max(1000).optional(),
});

const VerdictCode = z.enum(['misses', 'not-proven', 'no-figure', 'open', 'meets-within-error', 'meets', 'does-not-apply']);

export const LogJudgeOut = z.strictObject({
  verdict: VerdictCode,
  checks: z.array(z.strictObject({
    /** For a question the set gives no figure for: the question itself. */
    checkId: z.string(),
    verdict: VerdictCode,
    reason: z.string(),
    /** With every hold and freeze check: of its worst piece or place. */
    provenMinutes: z.number().optional(),
    possibleMinutes: z.number().optional(),
    /** With every descent: of its worst piece and stage. Where the record ends above the target, both run to its last reading. */
    shortestMinutes: z.number().optional(),
    longestMinutes: z.number().optional(),
    /** Stretches of the record: `counts` when the stretch speaks for the limit. */
    spans: z.array(z.strictObject({ fromMinute: z.number(), toMinute: z.number(), counts: z.boolean(), why: z.string() })),
  })),
});

export type LogJudgeIn = z.output<typeof LogJudgeIn>;
export type LogJudgeOut = z.output<typeof LogJudgeOut>;

export const logJudgeRequests = { 'log.judge': pure(LogJudgeIn, LogJudgeOut) } as const;
