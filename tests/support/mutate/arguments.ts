/** Mutants that live on for a reason: they change nothing that can be seen, and why. */
import { z } from 'zod';
import type { Mutant } from './instrument.ts';

const Argued = z.array(z.strictObject({
  file: z.string().startsWith('app/'),
  /** As the run prints it; a mutant is known by file, text and what, not by its line, which moves. */
  text: z.string().min(1),
  what: z.string().min(1),
  /** Why nobody can see it: one plain sentence. */
  why: z.string().regex(/^[A-Z0-9“].{20,}\.$/),
  /** How many mutants of that name it argues, where the same text stands in the file more than once. */
  times: z.int().min(2).optional(),
}));
export type Argument = z.infer<typeof Argued>[number];

/** Reads the arguments; throws for a file that is none, or one that argues a mutant twice. */
export function readArguments(text: string): Argument[] {
  const found = Argued.parse(JSON.parse(text));
  const keys = found.map(keyOf);
  const twice = keys.find((key, index) => keys.indexOf(key) !== index);
  if (twice !== undefined) throw new Error(`argued twice: ${twice}`);
  return found;
}

/** What is said for a survivor; nothing where more of its name live on than are argued, since nothing tells which is new. */
export function whyOf(mutant: Mutant, argued: readonly Argument[], survivors: readonly Mutant[]): string | undefined {
  const found = argued.find((one) => keyOf(one) === keyOf(mutant));
  return found === undefined || countOf(mutant, survivors) > (found.times ?? 1) ? undefined : found.why;
}

/** The arguments of the files tried for mutants that are killed now, or are no more. */
export function needlessOf(argued: readonly Argument[], files: ReadonlySet<string>, survivors: readonly Mutant[]): Argument[] {
  return argued.filter((one) => files.has(one.file) && countOf(one, survivors) < (one.times ?? 1));
}

/** What a mutant is known by. */
export function keyOf({ file, text, what }: Pick<Mutant, 'file' | 'text' | 'what'>): string {
  return `${file}: ${what} “${text}”`;
}

function countOf(one: Pick<Mutant, 'file' | 'text' | 'what'>, survivors: readonly Mutant[]): number {
  return survivors.filter((survivor) => keyOf(survivor) === keyOf(one)).length;
}
