/** The one shape every answer of the back room has, on every front and in `ask`. */
import { z } from 'zod';

export const FAILURE_CODES = [
  'INVALID_INPUT', 'UNKNOWN_REQUEST', 'NOT_FOUND', 'CONFLICT', 'NOT_ALLOWED', 'RULE_BLOCKS', 'CANCELLED',
  'NO_BOOK', 'BOOK_BUSY', 'BOOK_READ_ONLY', 'BOOK_DAMAGED', 'BOOK_TOO_NEW', 'DISK_FULL', 'FILE_UNREADABLE',
  'DEVICE', 'INTERNAL',
] as const;
export type FailureCode = (typeof FAILURE_CODES)[number];

/** One field of the input at fault: its path and a sentence. */
export const FieldFault = z.strictObject({ path: z.array(z.union([z.string(), z.number()])), message: z.string() });
export type FieldFault = z.infer<typeof FieldFault>;

export const Failure = z.strictObject({
  code: z.enum(FAILURE_CODES),
  /** One sentence for a person: what and where. No stack, no path, no SQL. */
  message: z.string(),
  /** One sentence: how to mend it. */
  remedy: z.string().optional(),
  fields: z.array(FieldFault).optional(),
  retryable: z.boolean(),
  /** Matches the line in the log; always there for INTERNAL. */
  reference: z.string().optional(),
});
export type Failure = z.infer<typeof Failure>;

export type Reply<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: Failure };
