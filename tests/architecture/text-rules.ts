/** The rule that every text a person reads stands in renderer/words. */
import { Visitor } from 'vite';
import type { ESTree } from 'vite';
import type { Fault, Rule, Tree } from './fault.ts';

/** Attributes that a person reads or hears. */
const READ_ATTRIBUTES: ReadonlySet<string> = new Set([
  'aria-label', 'aria-description', 'aria-roledescription', 'aria-valuetext', 'title', 'placeholder', 'alt', 'label', 'description', 'errorMessage', 'heading', 'legend', 'caption',
]);
/** A letter that isn't part of an entity such as `&nbsp;`. */
const LETTER = /(?<!&#?\w*)\p{L}/u;

/** The strings that a piece of JSX may show: the branches of a choice, and templates. */
function shownTexts(node: ESTree.Node): ESTree.Node[] {
  switch (node.type) {
    case 'Literal':
      return typeof node.value === 'string' && LETTER.test(node.value) ? [node] : [];
    case 'TemplateLiteral':
      return node.quasis.some((each) => LETTER.test(each.value.raw)) ? [node] : [];
    case 'ConditionalExpression':
      return [...shownTexts(node.consequent), ...shownTexts(node.alternate)];
    case 'LogicalExpression':
      return [...shownTexts(node.left), ...shownTexts(node.right)];
    case 'BinaryExpression':
      return node.operator === '+' ? [...shownTexts(node.left), ...shownTexts(node.right)] : [];
    case 'ParenthesizedExpression':
      return shownTexts(node.expression);
    default:
      return [];
  }
}

function findTexts(tree: Tree): Omit<Fault, 'rule'>[] {
  return tree.code
    .filter((file) => file.path.startsWith('renderer/') && file.path.endsWith('.tsx') && !file.path.startsWith('renderer/words/'))
    .flatMap((file) => {
      const found: ESTree.Node[] = [];
      const lookInside = (children: readonly ESTree.Node[]): void => {
        for (const child of children) {
          if (child.type === 'JSXText' && LETTER.test(child.value)) found.push(child);
          if (child.type === 'JSXExpressionContainer') found.push(...shownTexts(child.expression));
        }
      };
      new Visitor({
        JSXElement(node) {
          lookInside(node.children);
        },
        JSXFragment(node) {
          lookInside(node.children);
        },
        JSXAttribute(node) {
          if (node.name.type !== 'JSXIdentifier' || !READ_ATTRIBUTES.has(node.name.name) || node.value === null) return;
          found.push(...shownTexts(node.value.type === 'JSXExpressionContainer' ? node.value.expression : node.value));
        },
      }).visit(file.program);
      return found.map((node) => ({
        path: file.path,
        line: file.lineAt(node.start),
        message: `“${file.text.slice(node.start, node.end).trim()}” is read by people: write it in renderer/words and name it here.`,
      }));
    });
}

export const TEXT_RULES: readonly Rule[] = [{ name: 'text-in-words', find: findTexts }];
