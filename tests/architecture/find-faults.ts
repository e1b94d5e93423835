/** Everything that the compiler and the linter can't see, found in a set of files. */
import { CODE_RULES } from './code-rules.ts';
import type { Fault, Rule } from './fault.ts';
import { IMPORT_RULES } from './import-rules.ts';
import { isCode, parseFile } from './source-file.ts';
import type { SourceFile } from './source-file.ts';
import { TEXT_RULES } from './text-rules.ts';
import { TREE_RULES } from './tree-rules.ts';
import { WORDING_RULES } from './wording-rules.ts';

const UNREADABLE: Rule = {
  name: 'readable',
  find: (tree) => tree.code.flatMap((file) => file.syntaxFaults.map((fault) => ({ path: file.path, line: 1, message: `It can’t be read, so no rule looked at it: ${fault}` }))),
};

/** Every rule, in the order of its report. */
export const RULES: readonly Rule[] = [UNREADABLE, ...IMPORT_RULES, ...CODE_RULES, ...TEXT_RULES, ...TREE_RULES, ...WORDING_RULES];

/** Looks at these files alone; nothing is read from disk. */
export function findFaults(files: readonly SourceFile[]): Fault[] {
  const tree = { files, code: files.filter(isCode).map(parseFile) };
  return RULES.flatMap((rule) => rule.find(tree).map((fault) => ({ rule: rule.name, ...fault })));
}
