/** Every step of the book in order, named one by one: the packaged program can't read folders. */
import type { Migration } from '../migrate.ts';
import { firstMigration } from './0010-first.ts';

export const MIGRATIONS: readonly Migration[] = [firstMigration];
