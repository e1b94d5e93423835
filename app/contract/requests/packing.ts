/** The packing table: packs and their labels. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
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
export const LabelBlock = z.strictObject({ element: z.string(), text: z.string(), source: z.string() });
/** What is printed: kept word for word with its digest. */
export const StoredLabel = z.strictObject({
  packId: Id,
  packCode: z.string(),
  blocks: z.array(LabelBlock),
  missing: z.array(z.strictObject({ element: z.string(), why: z.string() })),
  code: z.strictObject({ symbology: z.string(), content: z.string() }),
  stock: z.strictObject({ id: z.string(), name: z.string(), widthMm: z.number(), heightMm: z.number() }),
  custom: z.boolean(),
  digest: z.string(),
});
export const Stock = z.strictObject({ id: z.string(), name: z.string(), widthMm: z.number(), heightMm: z.number() });

export const packingRequests = {
  'stock.list': query(z.strictObject({}), z.strictObject({ stocks: z.array(Stock) })),
  'pack.seal': command(
    z.strictObject({ batchId: Id, weights: z.array(TypedMass).min(1).max(200), sealedAtMs: InstantMs }),
    z.strictObject({ packs: z.array(Pack) }),
  ),
  'pack.list': query(z.strictObject({ batchId: Id }), z.strictObject({ packs: z.array(Pack) })),
  'label.forPacks': query(
    z.strictObject({ packIds: z.array(Id).min(1).max(200), stockId: z.string().max(40) }),
    z.strictObject({ labels: z.array(StoredLabel) }),
  ),
  /** Keeps what was printed; a reprint is counted. */
  'label.printed': command(
    z.strictObject({ packIds: z.array(Id).min(1).max(200), stockId: z.string().max(40) }),
    z.strictObject({ labels: z.array(StoredLabel) }),
  ),
} as const;

export type Pack = z.infer<typeof Pack>;
export type StoredLabel = z.infer<typeof StoredLabel>;
export type LabelBlock = z.infer<typeof LabelBlock>;
export type Stock = z.infer<typeof Stock>;
