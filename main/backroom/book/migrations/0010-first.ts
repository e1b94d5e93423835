/**
 * The first book. SQL and literals only: a step that has shipped is never changed again, so it must
 * not lean on anything that will.
 */
import type { Migration } from '../migrate.ts';

const RECORD = `
CREATE TABLE entries (
  sequence INTEGER PRIMARY KEY CHECK (sequence >= 1),
  id TEXT NOT NULL UNIQUE,
  entered_at_ms INTEGER NOT NULL,
  happened_at_ms INTEGER,
  kind TEXT NOT NULL CHECK (kind <> ''),
  subject_id TEXT NOT NULL,
  person_id TEXT,
  person TEXT NOT NULL,
  device TEXT NOT NULL,
  command_id TEXT,
  summary TEXT NOT NULL,
  why TEXT NOT NULL,
  before_json TEXT NOT NULL CHECK (json_valid(before_json)),
  after_json TEXT NOT NULL CHECK (json_valid(after_json)),
  readings_count INTEGER NOT NULL CHECK (readings_count >= 0),
  readings_digest TEXT NOT NULL,
  digest_before TEXT NOT NULL CHECK (length(digest_before) = 64),
  digest TEXT NOT NULL CHECK (length(digest) = 64)
) STRICT;
CREATE INDEX entries_by_subject ON entries (subject_id, sequence);
CREATE TRIGGER entries_are_gapless BEFORE INSERT ON entries
WHEN NEW.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM entries)
BEGIN SELECT RAISE(ABORT, 'entries are numbered without gaps'); END;
CREATE TRIGGER entries_are_never_changed BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entries_are_never_deleted BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;

CREATE TABLE readings (
  position INTEGER PRIMARY KEY,
  point_id TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  low_ticks INTEGER NOT NULL,
  cut INTEGER NOT NULL CHECK (cut IN (0, 1)),
  text TEXT NOT NULL,
  unit TEXT NOT NULL CHECK (unit IN ('F', 'C')),
  instrument_id TEXT,
  how TEXT NOT NULL CHECK (how IN ('by-hand', 'copied-from-paper', 'file', 'instrument')),
  source TEXT NOT NULL,
  entry_sequence INTEGER NOT NULL REFERENCES entries (sequence) DEFERRABLE INITIALLY DEFERRED,
  UNIQUE (point_id, at_ms, low_ticks, cut)
) STRICT;
CREATE INDEX readings_by_entry ON readings (entry_sequence, position);
CREATE TRIGGER readings_are_never_changed BEFORE UPDATE ON readings
BEGIN SELECT RAISE(ABORT, 'readings are never changed'); END;
CREATE TRIGGER readings_are_never_deleted BEFORE DELETE ON readings
BEGIN SELECT RAISE(ABORT, 'readings are never deleted'); END;

CREATE TABLE inbox (
  id TEXT PRIMARY KEY NOT NULL,
  file_name TEXT NOT NULL,
  bytes BLOB NOT NULL,
  sha256 TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64),
  taken_at_ms INTEGER NOT NULL
) STRICT;
CREATE TRIGGER inbox_is_never_changed BEFORE UPDATE ON inbox
BEGIN SELECT RAISE(ABORT, 'files are kept as they came'); END;
CREATE TRIGGER inbox_is_never_emptied BEFORE DELETE ON inbox
BEGIN SELECT RAISE(ABORT, 'files are kept as they came'); END;

CREATE TABLE commands (
  command_id TEXT PRIMARY KEY NOT NULL,
  name TEXT NOT NULL,
  input_digest TEXT NOT NULL,
  reply TEXT NOT NULL CHECK (json_valid(reply)),
  answered_at_ms INTEGER NOT NULL
) STRICT;
`;

/** One table a subject: its documents in the order they came, with the keys that are looked up as columns. */
const SHELF_TABLES: readonly (readonly [table: string, ...keys: string[]])[] = [
  ['kitchens'],
  ['people'],
  ['instruments'],
  ['smokers'],
  ['places'],
  ['recipes'],
  ['fish_lots', 'code'],
  ['batches', 'lot_code', 'load_id'],
  ['loads'],
  ['points', 'load_id'],
  ['lab_results', 'batch_id'],
  ['decisions', 'batch_id'],
  ['packs', 'batch_id', 'code'],
  ['prints', 'pack_id'],
  ['confirmations', 'check_id'],
];

function shelfSql([table, ...keys]: readonly [string, ...string[]]): string {
  const columns = keys.map((key) => `  ${key} TEXT,\n`).join('');
  const indexes = keys.map((key) => `CREATE INDEX ${table}_by_${key} ON ${table} (${key});\n`).join('');
  return `CREATE TABLE ${table} (
  position INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
${columns}  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;
${indexes}`;
}

export const firstMigration: Migration = {
  version: 10,
  name: 'first',
  up(database) {
    database.exec(RECORD);
    for (const shelf of SHELF_TABLES) database.exec(shelfSql(shelf));
  },
};
