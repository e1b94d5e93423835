/** What compressed bytes were compressed with: 0 raw DEFLATE, as all were until now; 1 Brotli. SQL and literals only. */
import type { Migration } from '../migrate.ts';

const COLUMN = 'packing INTEGER NOT NULL DEFAULT 0 CHECK (packing IN (0, 1))';

export const packingMigration: Migration = {
  version: 60,
  name: 'packing',
  up(database) {
    for (const table of ['inbox', 'reading_blocks']) database.exec(`ALTER TABLE ${table} ADD COLUMN ${COLUMN}`);
  },
};
