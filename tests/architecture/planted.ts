/** A fault planted for a rule to find, beside a clean twin that it must leave alone. */
import type { SourceFile } from './source-file.ts';

export interface Planted {
  readonly rule: string;
  /** What was planted, to end the sentence “finds …”. */
  readonly what: string;
  readonly faulty: readonly SourceFile[];
  /** A part of the message expected. */
  readonly says: string;
  readonly clean: readonly SourceFile[];
}

/** A small file; its text is given a line feed at the end. */
export function file(path: string, text: string): SourceFile {
  return { path, text: `${text}\n` };
}
