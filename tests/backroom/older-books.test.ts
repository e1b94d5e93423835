import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { bookVersion, newestVersion } from '../../main/backroom/book/migrate.ts';
import { MIGRATIONS } from '../../main/backroom/book/migrations/index.ts';
import { connect } from '../../main/backroom/book/open.ts';
import { makeBookFolder } from '../support/book-folder.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';

const BOOKS = new URL('../fixtures/books/', import.meta.url);
const NAMES = readdirSync(BOOKS).toSorted();

/** Lays a kept book into a folder of its own. */
function layOut(name: string): string {
  const file = join(makeBookFolder(), 'kitchen.alderbook');
  writeFileSync(file, gunzipSync(readFileSync(new URL(name, BOOKS))));
  return file;
}

describe('a book of every version before this one', () => {
  it('is kept here', () => {
    const versions = NAMES.map((name) => Number(/-v(\d+)\.alderbook\.gz$/.exec(name)?.[1]));
    expect(versions).toEqual(MIGRATIONS.map((step) => step.version).filter((version) => version < newestVersion(MIGRATIONS)));
  });

  it.each(NAMES)('opens with everything that was in it: %s', async (name) => {
    const file = layOut(name);
    const kitchen = await openTestKitchen({ bookFile: file });
    const { batches } = await kitchen.ask('batch.list', {});
    expect(batches.length).toBeGreaterThanOrEqual(3);
    let packsSeen = 0;
    for (const batch of batches) {
      const record = await kitchen.ask('record.batch', { batchId: batch.id });
      expect(record.chain.intact).toBe(true);
      expect(record.batch.card.lines.length).toBeGreaterThan(1);
      await kitchen.ask('batch.verdict', { batchId: batch.id });
      const [pack] = record.packs;
      if (pack !== undefined) packsSeen += (await kitchen.ask('label.forPacks', { packIds: [pack.id], stockId: '4x3in' })).labels.length;
    }
    expect(packsSeen).toBeGreaterThan(0);
    for (const recipe of (await kitchen.ask('recipe.list', {})).recipes) {
      expect((await kitchen.ask('recipe.versions', { recipeId: recipe.id })).versions.length).toBeGreaterThan(0);
    }
    await kitchen.close();
    const database = connect(file);
    expect(bookVersion(database)).toBe(newestVersion(MIGRATIONS));
    database.close();
  });
});
