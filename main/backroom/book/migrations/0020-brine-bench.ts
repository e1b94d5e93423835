/** Recipe versions, the kitchen's own ingredients, tastings, and samples of brined fish. SQL and literals only. */
import type { Migration } from '../migrate.ts';

const SHELVES = `
CREATE TABLE recipe_versions (
  position INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  recipe_id TEXT,
  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;
CREATE INDEX recipe_versions_by_recipe_id ON recipe_versions (recipe_id);
CREATE TABLE ingredients (
  position INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;
CREATE TABLE tastings (
  position INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;
CREATE TABLE soak_samples (
  position INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  batch_id TEXT,
  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;
CREATE INDEX soak_samples_by_batch_id ON soak_samples (batch_id);
`;

export const brineBenchMigration: Migration = {
  version: 20,
  name: 'brine-bench',
  up(database) {
    database.exec(SHELVES);
  },
};
