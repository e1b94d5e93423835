/** Copies of the open book beside it, made by the database's own backup. */
import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Connection } from './connection.ts';

/**
 * Writes a whole copy as `<name>-<day>-<n>.backup.alderbook` beside the book. Commands may go on meanwhile;
 * the copy then has them too. It stands under its name only when it is complete.
 * @param day YYYY-MM-DD
 */
export async function backUpBeside(database: Connection, file: string, day: string): Promise<{ fileName: string; bytes: number }> {
  const target = freeName(file, day);
  const unfinished = `${target}.unfinished`;
  try {
    await database.backup(unfinished);
    renameSync(unfinished, target);
  } catch (problem) {
    rmSync(unfinished, { force: true });
    throw problem;
  }
  return { fileName: basename(target), bytes: statSync(target).size };
}

function freeName(file: string, day: string): string {
  const stem = basename(file).replace(/\.alderbook$/, '');
  for (let number = 1; ; number += 1) {
    const target = join(dirname(file), `${stem}-${day}-${number}.backup.alderbook`);
    if (!existsSync(target) && !existsSync(`${target}.unfinished`)) return target;
  }
}
