/** How a kitchen's labels look: stock, optional elements, its mark. */
import { z } from 'zod';
import { Id } from './quantities.ts';

/** A stock of the kitchen's own: labels on a roll, or a sheet of them. Millimetres. */
export const LabelStock = z.strictObject({
  id: Id,
  name: z.string().trim().min(1).max(80),
  widthMm: z.number().min(20).max(300),
  heightMm: z.number().min(15).max(400),
  /** As entered, to be shown again in the unit of the person. */
  unit: z.enum(['mm', 'in']),
  /** Null for a roll. */
  sheet: z.strictObject({
    pageWidthMm: z.number().min(50).max(500), pageHeightMm: z.number().min(50).max(500),
    columns: z.int().min(1).max(20), rows: z.int().min(1).max(40),
    leftMm: z.number().min(0), topMm: z.number().min(0), acrossMm: z.number().positive(), downMm: z.number().positive(),
  }).nullable(),
});

export type LabelStock = z.infer<typeof LabelStock>;
