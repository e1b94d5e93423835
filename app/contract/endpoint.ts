/** How one request of the contract is declared: its kind, what it needs, and the schemas of what goes in and comes out. */
import type { z } from 'zod';

/** What the caller must be to ask it; without roles any person on duty may. */
export type RoleName = 'hand' | 'chef' | 'manager';

type Kind = 'query' | 'command';
type BookNeed = 'none' | 'read' | 'write';

export interface Endpoint<I extends z.ZodType = z.ZodType, O extends z.ZodType = z.ZodType, K extends Kind = Kind, B extends BookNeed = BookNeed> {
  /** A query changes nothing; a command changes the book inside one transaction. */
  readonly kind: K;
  /** `none`: needs no book. `read`: an open book. `write`: an open book that may be written, and a person. */
  readonly book: B;
  readonly input: I;
  readonly output: O;
  readonly roles: readonly RoleName[] | null;
}

/** A query that needs no book. */
export function pure<I extends z.ZodType, O extends z.ZodType>(input: I, output: O): Endpoint<I, O, 'query', 'none'> {
  return { kind: 'query', book: 'none', input, output, roles: null };
}

/** A query on the open book. */
export function query<I extends z.ZodType, O extends z.ZodType>(input: I, output: O): Endpoint<I, O, 'query', 'read'> {
  return { kind: 'query', book: 'read', input, output, roles: null };
}

/** A command: one transaction on the open book, on behalf of a person. */
export function command<I extends z.ZodType, O extends z.ZodType>(
  input: I,
  output: O,
  roles: readonly RoleName[] | null = null,
): Endpoint<I, O, 'command', 'write'> {
  return { kind: 'command', book: 'write', input, output, roles };
}

/** A command that makes or opens the book itself, so that it can need neither a book nor a person. */
export function startsBook<I extends z.ZodType, O extends z.ZodType>(input: I, output: O): Endpoint<I, O, 'command', 'none'> {
  return { kind: 'command', book: 'none', input, output, roles: null };
}
