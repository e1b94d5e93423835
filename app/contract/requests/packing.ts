/** The packing table: packs and their labels. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { sealExtras } from './packs-where.ts';
import { LabelMark, LabelSheet, Pouch } from './label-choice.ts';
import { EnteredMass, Id, InstantMs, TypedMass } from './quantities.ts';

export const Pack = z.strictObject({
  id: Id,
  batchId: Id,
  /** Printed after the lot: “-007”. */
  serial: z.int().min(1).max(999),
  code: z.string(),
  net: EnteredMass,
  sealedAtMs: InstantMs,
  sealedBy: z.string(),
  printedCount: z.int(),
});
/** A text of a label, the rule that asks for it, and how large its letters must be; labels printed by older programs lack the latter. */
export const LabelBlock = z.strictObject({
  element: z.string(), text: z.string(), source: z.string(),
  isBold: z.boolean().optional(),
  /** The least height of the letter measured. */
  leastLetterMm: z.number().positive().optional(),
  measuredBy: z.enum(['capital', 'lower-case-o']).optional(),
});
/** Where in the program something is entered. */
export const LabelPlace = z.enum(['kitchen', 'labels', 'fish-in', 'ingredients', 'packing-table']);
const LabelGap = z.strictObject({ element: z.string(), why: z.string(), where: LabelPlace.optional() });
/** One of the fifteen elements, looked at. */
export const LabelCheck = z.strictObject({
  element: z.string(), title: z.string(), state: z.enum(['met', 'missing', 'not-needed']), words: z.string(), source: z.string(),
});
/** What is printed: kept word for word with its digest. */
export const StoredLabel = z.strictObject({
  packId: Id,
  packCode: z.string(),
  blocks: z.array(LabelBlock),
  missing: z.array(LabelGap),
  code: z.strictObject({ symbology: z.string(), content: z.string(), dots: z.int().positive().optional(), moduleMm: z.number().positive().optional() }),
  stock: z.strictObject({ id: z.string(), name: z.string(), widthMm: z.number(), heightMm: z.number(), sheet: LabelSheet.optional() }),
  custom: z.boolean(),
  /** The panel it was made for; absent on labels of older programs. */
  placing: z.strictObject({
    dpi: z.int(),
    /** The side of the pouch; null where nobody said. */
    pouch: Pouch.nullable(),
    /** The net quantity stands within this share of the panel from its foot; null where no rule says so. */
    footShare: z.number().nullable(),
  }).optional(),
  mark: LabelMark.optional(),
  checks: z.array(LabelCheck).optional(),
  /** What doesn't keep it from being printed, and should be known: what the record of a guest's fish still lacks, what was assumed. */
  cautions: z.array(LabelGap).optional(),
  digest: z.string(),
});
export const Stock = z.strictObject({
  id: z.string(), name: z.string(), widthMm: z.number(), heightMm: z.number(),
  /** Absent for a roll. */
  sheet: LabelSheet.optional(),
});

/** What was printed, word for word, and why it was printed again. */
const KeptPrint = z.strictObject({
  id: Id, packId: Id, packCode: z.string(), printedAtMs: InstantMs, printedBy: z.string(), why: z.string(), stockName: z.string(), digest: z.string(),
});

export const packingRequests = {
  'stock.list': query(z.strictObject({}), z.strictObject({ stocks: z.array(Stock) })),
  'pack.seal': command(
    z.strictObject({ batchId: Id, weights: z.array(TypedMass).min(1).max(200), sealedAtMs: InstantMs, ...sealExtras }),
    z.strictObject({ packs: z.array(Pack) }),
  ),
  'pack.list': query(z.strictObject({ batchId: Id }), z.strictObject({ packs: z.array(Pack) })),
  'label.forPacks': query(
    z.strictObject({ packIds: z.array(Id).min(1).max(200), stockId: z.string().max(64) }),
    z.strictObject({ labels: z.array(StoredLabel) }),
  ),
  /** Keeps what was printed; a reprint is counted and says why. `digests`, in the order of the packs, are of the labels as drawn: others are refused. */
  'label.printed': command(
    z.strictObject({
      packIds: z.array(Id).min(1).max(200), stockId: z.string().max(64), why: z.string().trim().max(300).optional(), digests: z.array(z.string().max(64)).max(200).optional(),
    }),
    z.strictObject({ labels: z.array(StoredLabel) }),
  ),
  /** A label as it was printed. */
  'label.kept': query(z.strictObject({ printId: Id }), z.strictObject({ print: KeptPrint, label: StoredLabel })),
  /** Every label of a batch that was printed, the newest first. */
  'label.prints': query(z.strictObject({ batchId: Id }), z.strictObject({ prints: z.array(KeptPrint) })),
} as const;

export type Pack = z.infer<typeof Pack>;
export type StoredLabel = z.infer<typeof StoredLabel>;
export type LabelBlock = z.infer<typeof LabelBlock>;
export type LabelPlace = z.infer<typeof LabelPlace>;
export type LabelCheck = z.infer<typeof LabelCheck>;
export type Stock = z.infer<typeof Stock>;
