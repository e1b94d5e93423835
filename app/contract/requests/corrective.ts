/** What is done when a limit was missed, the review of a record, weights on the way, and what must be ready before a load is lit. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { EnteredMass, Id, InstantMs, TypedMass, Words } from './quantities.ts';

export const Disposition = z.enum(['go-on-cooking', 'rework', 'release-as-evaluated', 'destroy', 'return-raw']);
/** A corrective action: why, what it touches, who evaluated it, what becomes of the fish, what was mended, and who verified. */
export const Corrective = z.strictObject({
  id: Id,
  batchId: Id,
  checkId: z.string(),
  cause: z.string(),
  quantity: z.string(),
  keptWhere: z.string(),
  evaluatedBy: z.string(),
  evaluation: z.string(),
  disposition: Disposition,
  fix: z.string(),
  openedBy: z.string(),
  openedAtMs: InstantMs,
  verified: z.strictObject({ initials: z.string(), atMs: InstantMs, how: z.string() }).nullable(),
});
export const Review = z.strictObject({ id: Id, batchId: Id, initials: z.string(), personId: Id, atMs: InstantMs, remark: z.string(), trained: z.boolean() });
/** Weights of a batch on its way: drained after the brine, and finished. */
export const BatchWeight = z.strictObject({ what: z.enum(['brined', 'finished']), mass: EnteredMass, atMs: InstantMs, initials: z.string() });

/** One line of “before you light it”. */
export const ReadyItem = z.strictObject({
  id: z.enum(['probes', 'checks', 'thickest', 'place', 'load-weight', 'time', 'brine', 'raw']),
  state: z.enum(['ready', 'missing', 'unknown']),
  text: z.string(),
  /** What to do; empty when ready. */
  needed: z.string(),
});

export const correctiveRequests = {
  'corrective.open': command(
    z.strictObject({
      batchId: Id, checkId: z.string().trim().max(60), cause: Words, quantity: Words, keptWhere: z.string().trim().max(100),
      evaluatedBy: Words, evaluation: z.string().trim().max(1000), disposition: Disposition, fix: z.string().trim().max(1000),
    }),
    z.strictObject({ corrective: Corrective }),
    ['chef', 'manager'],
  ),
  'corrective.verify': command(z.strictObject({ correctiveId: Id, how: Words }), z.strictObject({ corrective: Corrective }), ['manager']),
  'corrective.list': query(z.strictObject({ batchId: Id }), z.strictObject({ correctives: z.array(Corrective), reviews: z.array(Review), weights: z.array(BatchWeight) })),
  /** One act by name on the record shelf. */
  'record.review': command(z.strictObject({ batchId: Id, remark: z.string().trim().max(500) }), z.strictObject({ review: Review })),
  'batch.weigh': command(z.strictObject({ batchId: Id, what: z.enum(['brined', 'finished']), mass: TypedMass, atMs: InstantMs }), z.strictObject({ weights: z.array(BatchWeight) })),
  /** What is ready and what is missing before this load is lit. */
  'load.ready': query(
    z.strictObject({
      smokerId: Id, batchIds: z.array(Id).min(1).max(8),
      pieces: z.array(z.strictObject({ batchId: Id, thicknessMm: z.number().nullable(), instrumentId: Id.nullable(), rackPlace: z.string().max(60) })).max(24),
    }),
    z.strictObject({ items: z.array(ReadyItem), latestOutMs: InstantMs.nullable() }),
  ),
} as const;

export type Corrective = z.infer<typeof Corrective>;
export type Review = z.infer<typeof Review>;
export type ReadyItem = z.infer<typeof ReadyItem>;
export type BatchWeight = z.infer<typeof BatchWeight>;
