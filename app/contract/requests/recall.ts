/** Recalls and drills of them: every pack accounted for against the clock, everybody called, the result kept. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id, Words } from './quantities.ts';
import { TraceStartKind } from './trace.ts';
import { FoundWhere, Recall } from './trace-shapes.ts';

/** A limit of time or of share, with where it stands and how that is known. */
export const RecallLimit = z.strictObject({ text: z.string(), source: z.string(), state: z.enum(['met', 'missed', 'running']) });
export const RecallView = z.strictObject({
  recall: Recall,
  balance: z.strictObject({
    packs: z.int(),
    accounted: z.int(),
    notFound: z.int(),
    open: z.int(),
    /** “97.9 %”: of the packs made, those whose place is known. */
    percent: z.string(),
    isWhole: z.boolean(),
    grams: z.number(),
    accountedGrams: z.number(),
    byWhere: z.array(z.strictObject({ where: FoundWhere, packs: z.int(), grams: z.number() })),
  }),
  /** What the book said of the packs when it began, counted. */
  expected: z.array(z.strictObject({ where: z.string(), packs: z.int() })),
  /** Batches of it with fish that isn't in packs. */
  unpacked: z.array(z.string()),
  /** Batches that may have lain in a brine of it: their brine was used before, and nothing says for which batch. */
  brines: z.array(z.string()),
  /** Of each batch: fillets in, packs made, and the rest that was entered. */
  weights: z.array(z.string()),
  limits: z.array(RecallLimit),
});

export const recallRequests = {
  'recall.list': query(z.strictObject({}), z.strictObject({
    recalls: z.array(z.strictObject({ id: Id, isDrill: z.boolean(), label: z.string(), startedAtMs: z.number(), finishedAtMs: z.number().nullable(), packs: z.int(), percent: z.string() })),
  })),
  /** One that runs as it is now: with what was made, sealed or given away since. */
  'recall.get': query(z.strictObject({ recallId: Id }), RecallView),
  /** In earnest every batch of it goes on HOLD. */
  'recall.start': command(z.strictObject({ isDrill: z.boolean(), kind: TraceStartKind, id: z.string().min(1).max(200) }), RecallView),
  /** Where packs were found; null takes a tick back. */
  'recall.found': command(z.strictObject({ recallId: Id, packIds: z.array(Id).min(1).max(1000), where: FoundWhere.nullable() }), RecallView),
  'recall.reached': command(z.strictObject({ recallId: Id, guestId: Id, note: z.string().trim().max(300) }), RecallView),
  'recall.finish': command(z.strictObject({ recallId: Id, note: Words }), RecallView),
} as const;

export type RecallView = z.infer<typeof RecallView>;
export type RecallLimit = z.infer<typeof RecallLimit>;
