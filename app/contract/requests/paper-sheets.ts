/** Numbered sheets of paper for what is read where no screen is, copied into the book later. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id, InstantMs } from './quantities.ts';

export const PaperSheetKind = z.enum(['soak', 'smoke', 'cool', 'store']);
export const PaperSheet = z.strictObject({
  id: Id,
  /** Counted through the whole book. */
  number: z.int().positive(),
  kind: PaperSheetKind,
  /** A batch for a soak, a load for smoke and cooling, a place for a store. */
  subjectId: Id,
  madeAtMs: InstantMs,
  initials: z.string(),
  personId: Id,
});

export const paperSheetRequests = {
  /** The sheets that were numbered for a batch, a load or a place, newest last. */
  'paperSheet.list': query(z.strictObject({ subjectId: Id }), z.strictObject({ sheets: z.array(PaperSheet) })),
  /** Takes the next number, as a sheet is printed. */
  'paperSheet.number': command(z.strictObject({ kind: PaperSheetKind, subjectId: Id }), z.strictObject({ sheet: PaperSheet })),
} as const;

export type PaperSheet = z.infer<typeof PaperSheet>;
export type PaperSheetKind = z.infer<typeof PaperSheetKind>;
