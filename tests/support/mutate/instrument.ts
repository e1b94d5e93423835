/**
 * Puts every mutant of a file into one text, each behind its number: while no number is switched on the
 * text does what it did. A loop counts its turns, so that a mutant that never ends is stopped.
 */
import { parseSync } from 'vite';
import { conditionVariants, variantsOf, type Variant } from './mutations.ts';
import { childOf, childrenOf, isFunction, isNode, listOf, type SyntaxNode } from './syntax.ts';

/** One change that could be made. */
export interface Mutant {
  readonly id: number;
  readonly file: string;
  readonly line: number;
  readonly what: string;
  /** The text that it changes, in one line and cut short; of a short one, such as a bare number, that of what it stands in. */
  readonly text: string;
}

export interface Instrumented {
  readonly text: string;
  readonly mutants: readonly Mutant[];
}

const CONDITIONS = new Set(['IfStatement', 'ConditionalExpression', 'WhileStatement', 'ForStatement']);
const LOOPS = new Set(['ForStatement', 'ForOfStatement', 'ForInStatement', 'WhileStatement', 'DoWhileStatement']);
const CONSTANT = /^[A-Z][A-Z0-9_]+$/;
const MOST_TEXT = 90;
/** A shorter text would stand in a file too often to tell which is meant. */
const LEAST_TEXT = 10;

/** Instruments one file; its mutants are numbered from `firstId` on. */
export function instrumentFile(file: string, source: string, firstId: number): Instrumented {
  const { program, errors } = parseSync(file, source);
  if (errors.length > 0 || !isNode(program)) throw new Error(`${file} can’t be parsed`);
  const mutants: Mutant[] = [];
  const constants = new Set<string>();
  for (const statement of listOf(program, 'body')) {
    const declared = constantOf(statement);
    if (declared !== undefined) constants.add(declared.name);
  }

  function textOf(node: SyntaxNode): string {
    return source.slice(node.start, node.end);
  }

  /** What a mutant of a node is called by; of a long text around a short node, a part that has it. */
  function nameOf(node: SyntaxNode, around: SyntaxNode): string {
    const told = node.end - node.start >= LEAST_TEXT ? node : around;
    const start = node.end - told.start > MOST_TEXT ? Math.max(told.start, node.start - MOST_TEXT / 2) : told.start;
    return source.slice(start, told.end).replace(/\s+/g, ' ').trim().slice(0, MOST_TEXT);
  }

  function add(node: SyntaxNode, what: string, text: string): number {
    const id = firstId + mutants.length;
    mutants.push({ id, file, line: source.slice(0, node.start).split('\n').length, what, text });
    return id;
  }

  /** Numbers the variants of a node and puts them before its own text. */
  function choose(node: SyntaxNode, variants: readonly Variant[], text: string, around: SyntaxNode): string {
    const choices = variants.map((variant) => {
      const id = add(node, variant.what, nameOf(node, around));
      return `mutation__.isOn(${id}) ? ${variant.text} : `;
    });
    return choices.length === 0 ? text : `(${choices.join('')}${text})`;
  }

  function emitChildren(node: SyntaxNode, place: Place): string {
    let at = node.start;
    let text = '';
    for (const child of childrenOf(node)) {
      text += source.slice(at, child.start) + emit(child, node, place);
      at = child.end;
    }
    return text + source.slice(at, node.end);
  }

  function emit(node: SyntaxNode, parent: SyntaxNode, outer: Place): string {
    const isInChain = node.type === 'ChainExpression' || (outer.isInChain && (parent.type === 'MemberExpression' || parent.type === 'CallExpression' || parent.type === 'ChainExpression'));
    const place = { isInChain, isInFunction: outer.isInFunction || isFunction(node), around: node.end - node.start >= LEAST_TEXT ? node : outer.around };
    if (node.type === 'Identifier' && typeof node['name'] === 'string' && outer.isInFunction && constants.has(node['name'])) return `${node['name']}__()`;
    const constant = constantOf(node);
    if (constant !== undefined && parent.type === 'Program') return emitConstant(node, constant, place);
    let text = choose(node, variantsOf(node, textOf, isInChain), emitChildren(node, place), outer.around);
    if (node.type === 'ExpressionStatement' && outer.isInFunction) text = withSwitch(node, text, outer.around);
    if (LOOPS.has(parent.type) && childOf(parent, 'body') === node) text = `{ mutation__.count(); ${text} }`;
    if (CONDITIONS.has(parent.type) && childOf(parent, 'test') === node) text = choose(node, conditionVariants(parent), text, outer.around);
    return text;
  }

  /** A statement that can be left out. */
  function withSwitch(node: SyntaxNode, text: string, around: SyntaxNode): string {
    const id = add(node, 'left out', nameOf(node, around));
    // In braces of its own, or an else after it would be taken for this one’s.
    return `{ if (!mutation__.isOn(${id})) { ${text} } }`;
  }

  /** A constant of the module is worked out again wherever it is read, so that its mutants can be switched on later. */
  function emitConstant(node: SyntaxNode, { name, start, init, isExported }: Constant, place: Place): string {
    const from = firstId + mutants.length;
    const made = `const ${name}__ = () => (${emit(init, node, { ...place, isInFunction: true })});`;
    const to = firstId + mutants.length - 1;
    // What is reached while it is made may stand in a function that no test calls again.
    const asLoaded = `mutation__.make(${name}__)`;
    if (!isExported) return `${made} ${source.slice(node.start, init.start)}${asLoaded}${source.slice(init.end, node.end)} mutation__.keep(${from}, ${to}, () => {});`;
    // Other modules read what it was when it was loaded: it must be made again while one of its mutants is on.
    return `${made} export let ${source.slice(start, init.start)}${asLoaded}; mutation__.keep(${from}, ${to}, () => { ${name} = ${name}__(); });`;
  }

  const body = emitChildren(program, { isInChain: false, isInFunction: false, around: program });
  return { text: `const mutation__ = globalThis.alderbookMutation;\n${source.slice(0, program.start)}${body}${source.slice(program.end)}`, mutants };
}

interface Place {
  readonly isInChain: boolean;
  readonly isInFunction: boolean;
  /** The nearest that is long enough to be known by its text. */
  readonly around: SyntaxNode;
}
interface Constant {
  readonly name: string;
  /** Where the name stands. */
  readonly start: number;
  readonly init: SyntaxNode;
  readonly isExported: boolean;
}

/** `const NAME = …` or `export const NAME = …`, of anything but a function. */
function constantOf(node: SyntaxNode): Constant | undefined {
  const declaration = node.type === 'ExportNamedDeclaration' ? childOf(node, 'declaration') : node;
  if (declaration?.type !== 'VariableDeclaration' || declaration['kind'] !== 'const') return undefined;
  const declarators = listOf(declaration, 'declarations');
  const [only] = declarators;
  const id = only === undefined ? undefined : childOf(only, 'id');
  const init = only === undefined ? undefined : childOf(only, 'init');
  const name = id?.['name'];
  if (declarators.length !== 1 || init === undefined || typeof name !== 'string' || !CONSTANT.test(name) || isFunction(init)) return undefined;
  return { name, start: id?.start ?? init.start, init, isExported: declaration !== node };
}
