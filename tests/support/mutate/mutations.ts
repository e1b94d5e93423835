/** What may be put in a node's place: one change each, small enough that a good test sees it. */
import { childOf, listOf, type SyntaxNode } from './syntax.ts';

/** A changed text for one node. */
export interface Variant {
  readonly what: string;
  readonly text: string;
}

/** The text of a node as it stands. */
export type TextOf = (node: SyntaxNode) => string;

const FLIPS: Readonly<Record<string, readonly string[]>> = {
  '<': ['<=', '>='], '<=': ['<', '>'], '>': ['>=', '<='], '>=': ['>', '<'], '===': ['!=='], '!==': ['==='],
  '+': ['-'], '-': ['+'], '*': ['/'], '/': ['*'], '%': ['*'], '&&': ['||'], '||': ['&&'], '??': ['&&'], '**': ['*'],
};
const METHODS = new Map([['some', 'every'], ['every', 'some'], ['min', 'max'], ['max', 'min'], ['floor', 'ceil'], ['ceil', 'floor'], ['find', 'findLast'], ['findLast', 'find']]);
const DROPPED = new Set(['filter', 'sort', 'reverse']);
const LISTED = new Set(['map', 'flatMap']);

/** Every variant of one node. `isInChain`: the node is part of an optional chain, which must stay in one piece. */
export function variantsOf(node: SyntaxNode, textOf: TextOf, isInChain: boolean): Variant[] {
  switch (node.type) {
    case 'BinaryExpression':
    case 'LogicalExpression': return operatorVariants(node, textOf);
    case 'UnaryExpression': return unaryVariants(node, textOf);
    case 'Literal': return literalVariants(node, textOf);
    case 'CallExpression': return isInChain ? [] : callVariants(node, textOf);
    case 'ArrayExpression': return listOf(node, 'elements').length === 0 ? [] : [{ what: 'an empty list', text: '[]' }];
    default: return [];
  }
}

/** The variants of a condition as a whole: always, and never; for a loop only never. */
export function conditionVariants(node: SyntaxNode): Variant[] {
  const never = { what: 'never', text: 'false' };
  return node.type === 'WhileStatement' || node.type === 'ForStatement' ? [never] : [{ what: 'always', text: 'true' }, never];
}

function operatorVariants(node: SyntaxNode, textOf: TextOf): Variant[] {
  const left = childOf(node, 'left');
  const right = childOf(node, 'right');
  const operator = String(node['operator']);
  if (left === undefined || right === undefined || (operator === '+' && (isText(left) || isText(right)))) return [];
  return (FLIPS[operator] ?? []).map((flip) => ({ what: `${operator} as ${flip}`, text: `((${textOf(left)}) ${flip} (${textOf(right)}))` }));
}

/** Whether an operand makes a plus join texts. */
function isText(node: SyntaxNode): boolean {
  if (node.type === 'TemplateLiteral' || typeof node['value'] === 'string') return true;
  return node.type === 'BinaryExpression' && [childOf(node, 'left'), childOf(node, 'right')].some((side) => side !== undefined && isText(side));
}

function unaryVariants(node: SyntaxNode, textOf: TextOf): Variant[] {
  const argument = childOf(node, 'argument');
  const operator = String(node['operator']);
  return argument !== undefined && (operator === '!' || operator === '-') ? [{ what: `without ${operator}`, text: `(${textOf(argument)})` }] : [];
}

function literalVariants(node: SyntaxNode, textOf: TextOf): Variant[] {
  const value = node['value'];
  if (typeof value === 'boolean') return [{ what: `${value} as ${!value}`, text: String(!value) }];
  if (typeof value === 'bigint') return [{ what: 'one more', text: `${value + 1n}n` }];
  if (typeof value !== 'number') return [];
  return [{ what: 'one more', text: `(${textOf(node)} + 1)` }, { what: 'one less', text: `(${textOf(node)} - 1)` }];
}

function callVariants(node: SyntaxNode, textOf: TextOf): Variant[] {
  const callee = childOf(node, 'callee');
  const object = callee === undefined ? undefined : childOf(callee, 'object');
  const property = callee === undefined ? undefined : childOf(callee, 'property');
  if (callee?.type !== 'MemberExpression' || object === undefined || property === undefined) return [];
  const name = String(property['name']);
  const given = listOf(node, 'arguments').map(textOf).join(', ');
  const swapped = METHODS.get(name);
  if (swapped !== undefined) return [{ what: `${name} as ${swapped}`, text: `${textOf(object)}.${swapped}(${given})` }];
  if (DROPPED.has(name)) return [{ what: `without ${name}`, text: `(${textOf(object)})` }];
  return LISTED.has(name) ? [{ what: `${name} as an empty list`, text: '[]' }] : [];
}
