/** Papers on file: permissions, variances, training, suppliers' statements, letters of a process authority; and scheduled processes. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Day, Id, InstantMs, TypedTemperature, Words } from './quantities.ts';

export const PaperKind = z.enum(['permission', 'variance', 'training', 'supplier-statement', 'process-letter', 'limit-letter', 'film', 'other']);
/** What a paper is about, so that a check can find it. */
export const PaperSubject = z.enum([
  'smoking', 'curing', 'vacuum-packing', 'custom-processing', 'nitrite', 'record-review', 'parasites-farmed', 'parasites-frozen', 'film-oxygen', 'limits', 'process', 'other',
]);
export const PaperDraft = z.strictObject({
  kind: PaperKind,
  subject: PaperSubject,
  what: Words,
  number: z.string().trim().max(80),
  /** Who gave it. */
  issuedBy: Words,
  /** Whom or what it is for: a person's initials, a supplier, a smoker; empty for the kitchen. */
  holder: z.string().trim().max(200),
  validFrom: Day.nullable(),
  validUntil: Day.nullable(),
  /** The paper itself, from the inbox. */
  fileId: Id.nullable(),
  /** Of a supplier's statement: the scientific names it states. */
  species: z.array(z.string().trim().min(1).max(80)).max(20).default([]),
  /** Of a statement of freezing: how cold and for how many hours. */
  frozen: z.strictObject({ temperature: TypedTemperature, hours: z.string().trim().max(20) }).nullable().default(null),
  /** Of a film: the oxygen it lets through, cc/m² a day at 24 °C and 1 atm; decimal text. */
  oxygenRate: z.string().trim().max(20).default(''),
});
export const Paper = z.strictObject({
  id: Id,
  ...PaperDraft.shape,
  fileName: z.string(),
  addedBy: z.string(),
  addedAtMs: InstantMs,
  /** Struck out: it counts no more. */
  struck: z.strictObject({ why: z.string(), initials: z.string(), atMs: InstantMs }).nullable(),
});

/** A decimal as typed; empty where the letter sets no such limit. */
const Limit = z.string().trim().max(20);
export const ScheduledDraft = z.strictObject({
  name: Words,
  /** The process authority's letter. */
  paperId: Id,
  recipeId: Id.nullable(),
  recipeVersion: z.int().min(1).nullable(),
  ratioAtLeast: Limit,
  thicknessMmAtMost: Limit,
  soakHoursAtLeast: Limit,
  brineAtMost: TypedTemperature.nullable(),
  /** Finished over brined weight. */
  yieldPercentAtMost: Limit,
  /** The laboratory's verification of it. */
  laboratory: z.string().trim().max(200),
  verifiedOn: Day.nullable(),
  verifiedUntil: Day.nullable(),
});
export const Scheduled = z.strictObject({ id: Id, ...ScheduledDraft.shape, savedBy: z.string(), savedAtMs: InstantMs });

/** A scheduled process beside what one batch was. */
export const ScheduledForBatch = z.strictObject({
  scheduledId: Id,
  name: z.string(),
  /** The process authority and the number of its letter. */
  letter: z.string(),
  inside: z.boolean(),
  /** What the judge makes of it: “Outside …: thickest piece in mm 42, at most 30 asked.” */
  reason: z.string(),
  /** `actual` is null where it isn't recorded, which is outside. */
  window: z.array(z.strictObject({ what: z.string(), asked: z.string(), actual: z.string().nullable(), inside: z.boolean() })),
});

export const paperRequests = {
  'paper.list': query(z.strictObject({}), z.strictObject({ papers: z.array(Paper), scheduled: z.array(Scheduled) })),
  /** A paper's own file, as it was put on file. */
  'paper.file': query(z.strictObject({ paperId: Id }), z.strictObject({ fileName: z.string(), mediaType: z.enum(['application/pdf', 'image/png', 'image/jpeg', 'text/plain', 'application/octet-stream']), base64: z.string() })),
  'paper.add': command(PaperDraft, z.strictObject({ paper: Paper }), ['manager']),
  'paper.strike': command(z.strictObject({ paperId: Id, why: Words }), z.strictObject({ paper: Paper }), ['manager']),
  'scheduled.save': command(z.strictObject({ scheduledId: Id.nullable(), draft: ScheduledDraft }), z.strictObject({ scheduled: Scheduled }), ['manager']),
  /** What a batch was, beside every scheduled process whose letter counts. */
  'scheduled.forBatch': query(z.strictObject({ batchId: Id }), z.strictObject({ chosenId: Id.nullable(), choices: z.array(ScheduledForBatch) })),
  /** Judges this batch's salt by a scheduled process too; null takes it off again. */
  'batch.useScheduled': command(z.strictObject({ batchId: Id, scheduledId: Id.nullable() }), z.strictObject({ batchId: Id }), ['chef', 'manager']),
} as const;

export type Paper = z.infer<typeof Paper>;
export type PaperDraft = z.infer<typeof PaperDraft>;
export type PaperKind = z.infer<typeof PaperKind>;
export type PaperSubject = z.infer<typeof PaperSubject>;
export type ScheduledForBatch = z.infer<typeof ScheduledForBatch>;
export type ScheduledDraft = z.infer<typeof ScheduledDraft>;
export type Scheduled = z.infer<typeof Scheduled>;
