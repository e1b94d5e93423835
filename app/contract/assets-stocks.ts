/** The label stocks that come with the program: `assets/stocks/label-stocks.json`. */
import { z } from 'zod';
import { LabelSheet } from './requests/label-choice.ts';

export const LabelStockRecord = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]+$/),
  /** As it is sold, in inches or millimetres. */
  name: z.string().min(1),
  /** Across the roll. */
  widthMm: z.number().positive().max(220),
  /** Along the roll. */
  heightMm: z.number().positive().max(300),
  /** Where the labels lie on a sheet; left out for a roll. */
  sheet: LabelSheet.optional(),
  /** What fits on it. */
  use: z.string().min(1),
});

export const LabelStocksFile = z.strictObject({
  source: z.string().min(1),
  mark: z.enum(['read', 'second-hand', 'from memory', 'computed', 'common practice']),
  stocks: z
    .array(LabelStockRecord)
    .min(1)
    .refine((stocks) => new Set(stocks.map((stock) => stock.id)).size === stocks.length, 'every id once'),
});

export type LabelStockRecord = z.infer<typeof LabelStockRecord>;
