/** A syntax tree as the mutator walks it: nodes with their place in the text, and their children in order. */

export interface SyntaxNode {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

/** Parts that are gone when the program runs. */
const TYPE_KEYS = new Set(['typeAnnotation', 'typeParameters', 'typeArguments', 'returnType', 'superTypeArguments', 'implements', 'attributes']);
const TYPE_WRAPPERS = new Set(['TSAsExpression', 'TSNonNullExpression', 'TSSatisfiesExpression']);

/** Whether a value is a node of the tree. */
export function isNode(value: unknown): value is SyntaxNode {
  return typeof value === 'object' && value !== null && 'type' in value && 'start' in value && 'end' in value && typeof value.type === 'string';
}

/** A child by its key; undefined where there is none. */
export function childOf(node: SyntaxNode, key: string): SyntaxNode | undefined {
  const value = node[key];
  return isNode(value) ? value : undefined;
}

/** A list of children by its key. */
export function listOf(node: SyntaxNode, key: string): SyntaxNode[] {
  const value = node[key];
  return Array.isArray(value) ? value.filter(isNode) : [];
}

/** Whether anything of a node is left when the program runs. */
export function isRunning(node: SyntaxNode): boolean {
  if (node.type.startsWith('TS')) return TYPE_WRAPPERS.has(node.type);
  return node.type !== 'ImportDeclaration' && node['importKind'] !== 'type' && node['exportKind'] !== 'type';
}

/** The children that run, in the order of the text; a shorthand property's key and value are one. */
export function childrenOf(node: SyntaxNode): SyntaxNode[] {
  const isShorthand = node.type === 'Property' && node['shorthand'] === true;
  const isNamedKey = (node.type === 'Property' || node.type === 'MemberExpression' || node.type === 'PropertyDefinition') && node['computed'] !== true;
  const nameKey = node.type === 'MemberExpression' ? 'property' : 'key';
  return Object.entries(node)
    .filter(([key]) => !TYPE_KEYS.has(key) && key !== 'parent' && !(isNamedKey && key === nameKey) && !(isShorthand && key === 'value' && childOf(node, 'value')?.type === 'Identifier'))
    .flatMap(([, value]) => (Array.isArray(value) ? value : [value]).filter(isNode))
    .filter(isRunning)
    .sort((left, right) => left.start - right.start);
}

/** Whether a node is a function of any form. */
export function isFunction(node: SyntaxNode): boolean {
  return node.type === 'FunctionDeclaration' || node.type === 'FunctionExpression' || node.type === 'ArrowFunctionExpression';
}
