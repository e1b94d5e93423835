/** What an architecture rule found, and what a rule is. */
import type { ParsedFile, SourceFile } from './source-file.ts';

export interface Fault {
  /** The name of the rule. */
  readonly rule: string;
  readonly path: string;
  readonly line: number;
  /** One sentence: what is wrong, and the right way. */
  readonly message: string;
}

/** Everything that rules look at. */
export interface Tree {
  readonly files: readonly SourceFile[];
  readonly code: readonly ParsedFile[];
}

export interface Rule {
  readonly name: string;
  readonly find: (tree: Tree) => readonly Omit<Fault, 'rule'>[];
}

/** Whether a path lies in one of these folders, or is one of these files. A folder ends with a slash. */
export function isUnder(file: string, prefixes: readonly string[]): boolean {
  return prefixes.some((prefix) => (prefix.endsWith('/') ? file.startsWith(prefix) : file === prefix));
}
