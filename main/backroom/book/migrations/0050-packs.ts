/** Packs after they are sealed: trays, moves, guests, hand-over, portioning, tracing and label stock. SQL and literals only. */
import type { Migration } from '../migrate.ts';

const TABLES: readonly (readonly [table: string, ...keys: string[]])[] = [
  ['guests'],
  ['trays', 'batch_id'],
  ['pack_moves', 'pack_id', 'hand_over_id'],
  ['hand_overs', 'guest_id'],
  ['portionings', 'batch_id'],
  ['ingredient_lots', 'ingredient_id'],
  ['complaints', 'batch_id'],
  ['recalls'],
  ['label_stocks'],
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

export const packsMigration: Migration = {
  version: 50,
  name: 'packs',
  up(database) {
    for (const table of TABLES) database.exec(tableSql(table));
  },
};
