/** Rules about what code may touch in which folder: clock, chance, console, SQL, the bridge. */
import { Visitor } from 'vite';
import type { ESTree, VisitorObject } from 'vite';
import { isUnder } from './fault.ts';
import type { Fault, Rule, Tree } from './fault.ts';
import { literalText } from './source-file.ts';
import type { ParsedFile } from './source-file.ts';

type Found = Omit<Fault, 'rule'>;
type Report = (node: ESTree.Node, message: string) => void;

/** What tells the time of day. `performance.now` doesn't: it is a stopwatch, which only app must do without. */
const CLOCKS: ReadonlySet<string> = new Set(['Date.now', 'Temporal.Now', 'performance.timeOrigin']);
const CHANCE: ReadonlySet<string> = new Set(['Math.random', 'crypto.randomUUID', 'crypto.getRandomValues']);
const OUTSIDE_APP: ReadonlySet<string> = new Set(['console', 'process', 'window', 'document', 'globalThis', 'localStorage', 'performance', 'fetch', 'setTimeout', 'setInterval']);
const ASKING: ReadonlySet<string> = new Set(['alderbook', 'fetch', 'EventSource', 'XMLHttpRequest', 'WebSocket', 'sendBeacon']);
const SQL = /\b(SELECT\s[\s\S]+?\sFROM|INSERT\s+(OR\s+\w+\s+)?INTO|UPDATE\s+\w+\s+SET|DELETE\s+FROM|(CREATE|ALTER|DROP)\s+(UNIQUE\s+|TEMP\s+)?(TABLE|INDEX|VIEW|TRIGGER)|PRAGMA\s+\w+|VACUUM|SAVEPOINT)\b/;

/** `Date.now` for `Date.now` and `Date['now']`; null for anything but a name, a dot and a name. */
function dottedName(node: ESTree.MemberExpression): string | null {
  if (node.object.type !== 'Identifier') return null;
  if (!node.computed) return node.property.type === 'Identifier' ? `${node.object.name}.${node.property.name}` : null;
  const property = literalText(node.property);
  return property === null ? null : `${node.object.name}.${property}`;
}

function look(tree: Tree, chosen: (file: ParsedFile) => boolean, rules: (report: Report) => VisitorObject): Found[] {
  const found: Found[] = [];
  for (const file of tree.code.filter(chosen)) {
    new Visitor(rules((node, message) => found.push({ path: file.path, line: file.lineAt(node.start), message }))).visit(file.program);
  }
  return found;
}

function clockRules(report: Report, message: string): VisitorObject {
  return {
    MemberExpression(node) {
      const name = dottedName(node);
      if (name !== null && CLOCKS.has(name)) report(node, `${name}: ${message}`);
    },
    NewExpression(node) {
      if (node.callee.type === 'Identifier' && node.callee.name === 'Date' && node.arguments.length === 0) report(node, `new Date(): ${message}`);
    },
    CallExpression(node) {
      if (node.callee.type === 'Identifier' && node.callee.name === 'Date') report(node, `Date(): ${message}`);
    },
  };
}

function findImpurity(tree: Tree): Found[] {
  const message = 'app knows no clock, no chance and no machine: take it as an argument.';
  return look(tree, (file) => file.path.startsWith('app/'), (report) => {
    const clock = clockRules(report, message);
    return {
      ...clock,
      MemberExpression(node) {
        clock.MemberExpression?.(node);
        const name = dottedName(node);
        if (name !== null && CHANCE.has(name)) report(node, `${name}: ${message}`);
        const owner = node.object.type === 'Identifier' ? node.object.name : '';
        // A smokehouse has a process of its own; only what the machine's process has is meant.
        const isMachine = owner === 'process' ? /\.(env|argv|exit|cwd|platform|std\w+|versions?|hrtime|pid|on|nextTick)$/.test(name ?? '') : OUTSIDE_APP.has(owner);
        if (isMachine) report(node, `${name ?? owner}: ${message}`);
      },
    };
  });
}

function findOtherClocks(tree: Tree): Found[] {
  return look(
    tree,
    (file) => file.path.startsWith('main/backroom/') && file.path !== 'main/backroom/clock.ts',
    (report) => clockRules(report, 'the back room’s only clock is main/backroom/clock.ts; take it from the room.'),
  );
}

function findSql(tree: Tree): Found[] {
  const message = 'SQL stands only in main/backroom/book: give the book a function for it.';
  return look(
    tree,
    (file) => isUnder(file.path, ['app/', 'main/', 'renderer/']) && !file.path.startsWith('main/backroom/book/'),
    (report) => ({
      Literal(node) {
        if (typeof node.value === 'string' && SQL.test(node.value)) report(node, message);
      },
      TemplateLiteral(node) {
        if (SQL.test(node.quasis.map((each) => each.value.raw).join(' x '))) report(node, message);
      },
      CallExpression(node) {
        const { callee } = node;
        const [first] = node.arguments;
        const isText = first?.type === 'TemplateLiteral' || (first?.type === 'Literal' && typeof first.value === 'string');
        const isDatabaseCall = callee.type === 'MemberExpression' && callee.property.type === 'Identifier' && ['prepare', 'pragma'].includes(callee.property.name);
        if (isText && isDatabaseCall) report(node, message);
      },
    }),
  );
}

function findOtherAsking(tree: Tree): Found[] {
  return look(
    tree,
    (file) => file.path.startsWith('renderer/') && !file.path.startsWith('renderer/bridge/'),
    (report) => {
      const judge = (node: ESTree.Node, name: string): void => {
        if (ASKING.has(name)) report(node, `${name} is used only in renderer/bridge: ask through it.`);
      };
      return {
        Identifier(node) {
          judge(node, node.name);
        },
        Literal(node) {
          if (node.value === 'alderbook') judge(node, node.value);
        },
      };
    },
  );
}

function findModuleFolders(tree: Tree): Found[] {
  return look(
    tree,
    (file) => isUnder(file.path, ['app/', 'main/', 'renderer/']) && !isUnder(file.path, ['main/index.ts', 'main/start/']),
    (report) => ({
      MetaProperty(node) {
        if (node.meta.name === 'import') report(node, 'Where a module lies changes when it is built: reckon folders in main/index.ts and hand them down.');
      },
    }),
  );
}

function findArrowConstants(tree: Tree): Found[] {
  return tree.code.filter((file) => isUnder(file.path, ['app/', 'main/', 'renderer/'])).flatMap((file) =>
    file.program.body.flatMap((statement) => {
      const declaration = statement.type === 'ExportNamedDeclaration' ? statement.declaration : statement;
      if (declaration?.type !== 'VariableDeclaration') return [];
      return declaration.declarations
        .filter((each) => each.init?.type === 'ArrowFunctionExpression' || each.init?.type === 'FunctionExpression')
        .map((each) => ({ path: file.path, line: file.lineAt(each.start), message: 'At the top of a file write function name() {}, so that it can stand below its first use.' }));
    }),
  );
}

export const CODE_RULES: readonly Rule[] = [
  { name: 'pure-app', find: findImpurity },
  { name: 'one-clock', find: findOtherClocks },
  { name: 'sql-in-book', find: findSql },
  { name: 'one-bridge', find: findOtherAsking },
  { name: 'module-folders', find: findModuleFolders },
  { name: 'top-level-function', find: findArrowConstants },
];
