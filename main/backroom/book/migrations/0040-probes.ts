/**
 * Long records: readings in blocks, those still coming in live, and what is set up around them. SQL and literals only.
 *
 * A block holds readings of one point as bytes (the DEVELOPERS page says how), compressed; once kept it is never
 * changed. A live reading lies in a row of its own until its block is closed, and only then goes.
 */
import type { Migration } from '../migrate.ts';

const BLOCKS = `
CREATE TABLE reading_blocks (
  position INTEGER PRIMARY KEY,
  point_id TEXT NOT NULL,
  first_ms INTEGER NOT NULL,
  last_ms INTEGER NOT NULL CHECK (last_ms >= first_ms),
  count INTEGER NOT NULL CHECK (count > 0),
  instrument_id TEXT,
  how TEXT NOT NULL CHECK (how IN ('by-hand', 'copied-from-paper', 'file', 'instrument')),
  source TEXT NOT NULL,
  entry_sequence INTEGER NOT NULL REFERENCES entries (sequence) DEFERRABLE INITIALLY DEFERRED,
  body BLOB NOT NULL
) STRICT;
CREATE INDEX reading_blocks_by_point ON reading_blocks (point_id, first_ms);
CREATE INDEX reading_blocks_by_entry ON reading_blocks (entry_sequence, position);
CREATE TRIGGER reading_blocks_are_never_changed BEFORE UPDATE ON reading_blocks
BEGIN SELECT RAISE(ABORT, 'readings are never changed'); END;
CREATE TRIGGER reading_blocks_are_never_deleted BEFORE DELETE ON reading_blocks
BEGIN SELECT RAISE(ABORT, 'readings are never deleted'); END;

CREATE TABLE live_readings (
  position INTEGER PRIMARY KEY,
  point_id TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  low_ticks INTEGER NOT NULL,
  cut INTEGER NOT NULL CHECK (cut IN (0, 1)),
  text TEXT NOT NULL,
  unit TEXT NOT NULL CHECK (unit IN ('F', 'C')),
  instrument_id TEXT,
  source TEXT NOT NULL,
  UNIQUE (point_id, at_ms, low_ticks, cut)
) STRICT;
CREATE TRIGGER live_readings_are_never_changed BEFORE UPDATE ON live_readings
BEGIN SELECT RAISE(ABORT, 'readings are never changed'); END;
`;

/** A file that came is packed once, and otherwise stays as it came; its digest is that of the file, packed or not. */
const INBOX = `
ALTER TABLE inbox ADD COLUMN packed INTEGER NOT NULL DEFAULT 0 CHECK (packed IN (0, 1));
DROP TRIGGER inbox_is_never_changed;
CREATE TRIGGER inbox_is_never_changed BEFORE UPDATE ON inbox
WHEN NOT (OLD.packed = 0 AND NEW.packed = 1 AND NEW.id = OLD.id AND NEW.file_name = OLD.file_name AND NEW.sha256 = OLD.sha256 AND NEW.taken_at_ms = OLD.taken_at_ms)
BEGIN SELECT RAISE(ABORT, 'files are kept as they came'); END;
`;

const TABLES: readonly (readonly [table: string, ...keys: string[]])[] = [
  ['feeds'],
  ['log_shapes'],
  ['alarms', 'load_id'],
  ['paper_sheets', 'subject_id'],
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

export const probesMigration: Migration = {
  version: 40,
  name: 'probes',
  up(database) {
    database.exec(BLOCKS);
    database.exec(INBOX);
    for (const table of TABLES) database.exec(tableSql(table));
  },
};
