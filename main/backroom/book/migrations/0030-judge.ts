/** Papers, scheduled processes, checks of instruments, doubts, own limit sets, judgements, corrective actions, reviews, worklist. SQL and literals only. */
import type { Migration } from '../migrate.ts';

const TABLES: readonly (readonly [table: string, ...keys: string[]])[] = [
  ['papers'],
  ['scheduled_processes'],
  ['instrument_checks', 'instrument_id'],
  ['doubt_decisions', 'point_id'],
  ['own_sets'],
  ['judgements', 'batch_id'],
  ['correctives', 'batch_id'],
  ['reviews', 'batch_id'],
  ['work_items', 'batch_id'],
];

function tableSql([table, ...keys]: readonly [string, ...string[]]): string {
  const columns = keys.map((key) => `  ${key} TEXT,\n`).join('');
  const indexes = keys.map((key) => `CREATE INDEX ${table}_by_${key} ON ${table} (${key});\n`).join('');
  return `CREATE TABLE ${table} (
  position INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
${columns}  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;
${indexes}`;
}

export const judgeMigration: Migration = {
  version: 30,
  name: 'judge',
  up(database) {
    for (const table of TABLES) database.exec(tableSql(table));
  },
};
