/** A source file as the architecture rules see it: its text, its syntax tree, and what it imports. */
import path from 'node:path';
import { parseSync, Visitor } from 'vite';
import type { ESTree, ParseResult } from 'vite';

export interface SourceFile {
  /** From the root of the repository, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

/** One mention of another module. */
export interface ImportSite {
  /** As written. */
  readonly specifier: string;
  /** From the root for a relative one, the specifier itself for a package. */
  readonly target: string;
  readonly isRelative: boolean;
  /** True where nothing is left of it when the program runs. */
  readonly isTypeOnly: boolean;
  /** False for `import('x')`, which is loaded when it is reached. */
  readonly isStatic: boolean;
  readonly line: number;
}

export interface ParsedFile extends SourceFile {
  readonly program: ESTree.Program;
  readonly comments: ParseResult['comments'];
  readonly imports: readonly ImportSite[];
  /** Imports whose module is reckoned at run time, by line. */
  readonly computedImportLines: readonly number[];
  /** Calls of `require` and `createRequire`, and `import x = require()`, by line. */
  readonly requireLines: readonly number[];
  /** What the parser could not read; empty for a whole file. */
  readonly syntaxFaults: readonly string[];
  lineAt(offset: number): number;
}

const READABLE = /\.(ts|tsx|mts|mjs|cjs|js)$/;

/** Whether a file holds code that can be parsed here. */
export function isCode(file: SourceFile): boolean {
  return READABLE.test(file.path);
}

/** Reads one file of code. */
export function parseFile(file: SourceFile): ParsedFile {
  const { program, comments, errors } = parseSync(file.path, file.text);
  const lineAt = (offset: number): number => file.text.slice(0, offset).split('\n').length;
  const imports: ImportSite[] = [];
  const computedImportLines: number[] = [];
  const requireLines: number[] = [];

  function add(source: ESTree.Node, isTypeOnly: boolean, isStatic: boolean): void {
    const specifier = literalText(source);
    if (specifier === null) {
      computedImportLines.push(lineAt(source.start));
      return;
    }
    const isRelative = specifier.startsWith('.');
    const target = isRelative ? path.posix.join(path.posix.dirname(file.path), specifier) : specifier;
    imports.push({ specifier, target, isRelative, isTypeOnly, isStatic, line: lineAt(source.start) });
  }

  new Visitor({
    ImportDeclaration(node) {
      const allTypes = node.specifiers.length > 0 && node.specifiers.every((each) => each.type === 'ImportSpecifier' && each.importKind === 'type');
      add(node.source, node.importKind === 'type' || allTypes, true);
    },
    ExportNamedDeclaration(node) {
      if (node.source !== null) add(node.source, node.exportKind === 'type', true);
    },
    ExportAllDeclaration(node) {
      add(node.source, node.exportKind === 'type', true);
    },
    ImportExpression(node) {
      add(node.source, false, false);
    },
    TSImportType(node) {
      add(node.source, true, true);
    },
    TSExternalModuleReference(node) {
      requireLines.push(lineAt(node.start));
      add(node.expression, false, true);
    },
    CallExpression(node) {
      const { callee } = node;
      if (callee.type !== 'Identifier' || (callee.name !== 'require' && callee.name !== 'createRequire')) return;
      requireLines.push(lineAt(node.start));
      const [first] = node.arguments;
      if (callee.name === 'require' && first !== undefined && literalText(first) !== null) add(first, false, true);
    },
  }).visit(program);

  return { ...file, program, comments, imports, computedImportLines, requireLines, syntaxFaults: errors.map((each) => each.message), lineAt };
}

/** The text of a string or of a template without expressions; null for anything else. */
export function literalText(node: ESTree.Node): string | null {
  if (node.type === 'Literal' && typeof node.value === 'string') return node.value;
  if (node.type === 'TemplateLiteral' && node.expressions.length === 0) return node.quasis[0]?.value.cooked ?? null;
  return null;
}
