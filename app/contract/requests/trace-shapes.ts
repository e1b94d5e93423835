/** What tracing keeps beside the record itself: ingredients' lots, complaints, recall drills. */
import { z } from 'zod';
import { Id, InstantMs, Words } from './quantities.ts';

/** A delivery of an ingredient, and the batches whose brine took from it. */
export const IngredientLot = z.strictObject({
  id: Id,
  ingredientId: Id,
  ingredientName: Words,
  lotCode: Words,
  supplierName: z.string().trim().max(120),
  receivedAtMs: InstantMs,
  /** Since when brines are made of it; null before and after. */
  inUseSinceMs: InstantMs.nullable().default(null),
  usedIn: z.array(z.strictObject({ batchId: Id, atMs: InstantMs, initials: z.string() })),
});

export const Complaint = z.strictObject({
  id: Id,
  batchId: Id,
  packId: Id.nullable(),
  atMs: InstantMs,
  fromName: Words,
  contact: z.string().trim().max(200),
  what: z.string().trim().min(1).max(1000),
  initials: z.string(),
  outcome: z.strictObject({ atMs: InstantMs, text: z.string().trim().min(1).max(1000), initials: z.string() }).nullable(),
});

/** Where a pack of a recall was found. */
export const FoundWhere = z.enum(['in-store', 'with-them', 'eaten', 'served', 'destroyed', 'not-found']);

/** A recall, or a drill of one: what was looked for, what of it was found where, and who was reached. */
export const Recall = z.strictObject({
  id: Id,
  isDrill: z.boolean(),
  about: z.strictObject({ kind: z.string().max(40), id: z.string().max(64), label: z.string().max(200) }),
  startedAtMs: InstantMs,
  startedBy: z.string(),
  /** Every batch it reaches, those without packs too. */
  batchIds: z.array(Id).default([]),
  packs: z.array(z.strictObject({
    packId: Id,
    code: z.string(),
    grams: z.number(),
    /** What the book said when it began, or when the pack joined it. */
    expected: z.string(),
    /** Where it is looked for, of those that `found` knows; absent where an earlier program began it. */
    bookedAs: FoundWhere.optional(),
    found: z.strictObject({ atMs: InstantMs, where: FoundWhere, initials: z.string() }).nullable(),
  })),
  calls: z.array(z.strictObject({ guestId: Id, name: z.string(), contact: z.string(), packs: z.int(), reached: z.strictObject({ atMs: InstantMs, initials: z.string(), note: z.string() }).nullable() })),
  finished: z.strictObject({ atMs: InstantMs, initials: z.string(), note: z.string() }).nullable(),
});

export type IngredientLot = z.infer<typeof IngredientLot>;
export type Complaint = z.infer<typeof Complaint>;
export type FoundWhere = z.infer<typeof FoundWhere>;
export type Recall = z.infer<typeof Recall>;
