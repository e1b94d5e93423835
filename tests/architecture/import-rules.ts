/** Rules about what imports what: the table, the ways of importing, and what may be reached at all. */
import { isUnder } from './fault.ts';
import type { Fault, Rule, Tree } from './fault.ts';
import { areaOf, leaveFor, letsIn } from './import-table.ts';
import type { ImportSite, ParsedFile } from './source-file.ts';

type Found = Omit<Fault, 'rule'>;

const OURS = ['app/', 'main/', 'renderer/', 'electron.config.ts'];

function ours(tree: Tree): readonly ParsedFile[] {
  return tree.code.filter((file) => isUnder(file.path, OURS));
}

function judgeImport(file: ParsedFile, site: ImportSite): string | null {
  const row = areaOf(file.path);
  if (row === undefined) return 'This file lies in no folder of the import table: move it, or give its folder a row there.';
  if (!site.isRelative) return letsIn(row, site.specifier) ? null : `${row.area} may not import the package ${site.specifier}.`;
  const leave = leaveFor(row, site.target);
  if (leave === 'yes' || (leave === 'types' && site.isTypeOnly)) return null;
  return leave === 'types' ? `${row.area} takes types only from ${site.target}: write import type.` : `${row.area} may not import ${site.target}.`;
}

function findForbiddenImports(tree: Tree): Found[] {
  return ours(tree).flatMap((file) =>
    file.imports.flatMap((site) => {
      const message = judgeImport(file, site);
      return message === null ? [] : [{ path: file.path, line: site.line, message }];
    }),
  );
}

function findHiddenImports(tree: Tree): Found[] {
  return ours(tree).flatMap((file) => [
    ...file.requireLines.map((line) => ({ path: file.path, line, message: 'require hides an import from the other fences: write import.' })),
    ...file.computedImportLines.map((line) => ({ path: file.path, line, message: 'An import reckoned at run time can’t be checked: name the module as a plain string.' })),
  ]);
}

function findExtensionless(tree: Tree): Found[] {
  return tree.code.flatMap((file) =>
    file.imports
      .filter((site) => site.isRelative && !/\.(ts|tsx|mjs|js|json|css)$/.test(site.specifier))
      .map((site) => ({ path: file.path, line: site.line, message: `${site.specifier} needs its extension, so that the source also runs unbuilt.` })),
  );
}

/** How a file comes to a package: the files on the way, or null when it doesn't. */
function wayTo(packageName: string, from: ParsedFile, byPath: ReadonlyMap<string, ParsedFile>, follow: (site: ImportSite) => boolean): string[] | null {
  const queue: { readonly file: ParsedFile; readonly way: string[] }[] = [{ file: from, way: [from.path] }];
  const seen = new Set([from.path]);
  for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
    const { file, way } = next;
    const sites = file.imports.filter((site) => !site.isTypeOnly && follow(site));
    if (sites.some((site) => site.specifier === packageName)) return way;
    for (const { target } of sites) {
      const reached = byPath.get(target);
      if (reached === undefined || seen.has(target)) continue;
      seen.add(target);
      queue.push({ file: reached, way: [...way, target] });
    }
  }
  return null;
}

function findReached(tree: Tree, packageName: string, areas: readonly string[], follow: (site: ImportSite) => boolean, why: string): Found[] {
  const byPath = new Map(tree.code.map((file) => [file.path, file]));
  return tree.code
    .filter((file) => isUnder(file.path, areas))
    .flatMap((file) => {
      const way = wayTo(packageName, file, byPath, follow);
      return way === null ? [] : [{ path: file.path, line: 1, message: `It loads ${packageName} by way of ${way.join(' → ')}; ${why}` }];
    });
}

export const IMPORT_RULES: readonly Rule[] = [
  { name: 'import-table', find: findForbiddenImports },
  { name: 'hidden-import', find: findHiddenImports },
  { name: 'import-extension', find: findExtensionless },
  {
    name: 'electron-reached',
    find: (tree) => findReached(tree, 'electron', ['app/', 'renderer/', 'main/browser/', 'main/backroom/', 'main/start/'], () => true, 'this part also runs where Electron is not.'),
  },
  {
    name: 'database-reached',
    find: (tree) =>
      findReached(tree, 'better-sqlite3', ['main/index.ts', 'main/start/', 'main/window/', 'main/browser/', 'main/preload/'], (site) => site.isStatic, 'the database is loaded in the back room’s thread, or when a book is needed.'),
  },
];
