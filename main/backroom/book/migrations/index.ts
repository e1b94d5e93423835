/** Every step of the book in order, named one by one: the packaged program can't read folders. */
import type { Migration } from '../migrate.ts';
import { firstMigration } from './0010-first.ts';
import { brineBenchMigration } from './0020-brine-bench.ts';
import { judgeMigration } from './0030-judge.ts';
import { probesMigration } from './0040-probes.ts';
import { packsMigration } from './0050-packs.ts';
import { packingMigration } from './0060-packing.ts';

export const MIGRATIONS: readonly Migration[] = [firstMigration, brineBenchMigration, judgeMigration, probesMigration, packsMigration, packingMigration];
