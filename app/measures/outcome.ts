/**
 * What a function of the trade answers when the input may be wrong: a value, or a sentence for a
 * person. Expected failures are returned; only broken invariants are thrown.
 */
export interface Problem {
  /** One sentence: what is wrong and where. */
  readonly message: string;
  /** One sentence: how to mend it. */
  readonly remedy?: string;
  /** The key of the input at fault, dotted for nested ones (`target.brinePercent`). */
  readonly field?: string;
}

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: Problem };

/** Wraps a good value. */
export function good<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

/** Wraps a problem; `field` names the input key at fault. */
export function bad(message: string, field?: string, remedy?: string): { readonly ok: false; readonly problem: Problem } {
  return {
    ok: false,
    problem: { message, ...(field === undefined ? {} : { field }), ...(remedy === undefined ? {} : { remedy }) },
  };
}

/** Fails to compile when a case of a union was forgotten; throws if reached (a bug). */
export function assertNever(value: never): never {
  throw new Error(`Unhandled case: ${JSON.stringify(value)}`);
}
