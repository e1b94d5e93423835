import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sha256Hex } from '../../main/backroom/book/canonical.ts';
import type { Connection } from '../../main/backroom/book/connection.ts';
import { bookVersion, migrate, type Migration, newestVersion } from '../../main/backroom/book/migrate.ts';
import { MIGRATIONS } from '../../main/backroom/book/migrations/index.ts';
import { connect, openBookFile } from '../../main/backroom/book/open.ts';
import { makeBook, makeBookFolder, openForTest, recordOne, TEST_CLOCK } from '../support/book-folder.ts';

/** What this program's own steps lead to; the steps of these tests come after. */
const NEWEST = newestVersion(MIGRATIONS);

const addColour: Migration = { version: NEWEST + 10, name: 'colour', up: (database) => database.exec("ALTER TABLE places ADD COLUMN colour TEXT NOT NULL DEFAULT 'white'") };
const addShape: Migration = { version: NEWEST + 20, name: 'shape', up: (database) => database.exec('CREATE TABLE shapes (id TEXT PRIMARY KEY NOT NULL) STRICT') };

/** A step that does half its work and then fails. */
function failing(version: number): Migration {
  return {
    version,
    name: 'failing',
    up(database) {
      database.exec('CREATE TABLE half_done (id TEXT) STRICT');
      throw new Error('power cut');
    },
  };
}

interface SchemaRow {
  readonly name: string;
  readonly sql: string | null;
}

function schemaOf(database: Connection): SchemaRow[] {
  // The database's own statistics come and go.
  return database.prepare<[], SchemaRow>("SELECT name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_stat%' ORDER BY name").all();
}

/** Opens the file with these steps, looks, and closes it. */
function lookWith<T>(file: string, migrations: readonly Migration[], look: (database: Connection) => T): T {
  openBookFile(file, { clock: TEST_CLOCK, migrations }).close();
  const database = connect(file);
  try {
    return look(database);
  } finally {
    database.close();
  }
}

function makeOldBook(): { folder: string; file: string } {
  const folder = makeBookFolder();
  const file = join(folder, 'kitchen.alderbook');
  makeBook(file, (book) => {
    book.shelf('places').put({ id: 'place-1', name: 'Walk-in', kind: 'cooler' });
    recordOne(book);
  });
  return { folder, file };
}

describe('the steps of this program', () => {
  it('are in strictly increasing order, in tens', () => {
    expect(newestVersion(MIGRATIONS)).toBe(MIGRATIONS.at(-1)?.version);
    for (const { version } of MIGRATIONS) expect(version % 10).toBe(0);
  });
  it('are refused when they stand out of order or not at all', () => {
    expect(() => newestVersion([addShape, addColour])).toThrow(`Step ${NEWEST + 10} “colour” is out of order.`);
    expect(() => newestVersion([addShape, addShape])).toThrow('out of order');
    expect(() => newestVersion([])).toThrow('There are no steps.');
  });
  it('make every table strict, and are done once', () => {
    const database = connect(Buffer.alloc(0));
    migrate(database, MIGRATIONS, null);
    const before = schemaOf(database);
    migrate(database, MIGRATIONS, null);
    expect(schemaOf(database)).toEqual(before);
    const loose = database.prepare<[], { name: string }>("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%'").all();
    expect(loose).toEqual([]);
    expect(before.filter(({ name }) => name.startsWith('entries')).length).toBeGreaterThan(3);
    database.close();
  });
  it('make the schema of the committed snapshot', async () => {
    const database = connect(Buffer.alloc(0));
    migrate(database, MIGRATIONS, null);
    const text = schemaOf(database).map(({ name, sql }) => `-- ${name}\n${sql ?? '-- made by the database itself'}\n`).join('\n');
    database.close();
    await expect(text).toMatchFileSnapshot('../fixtures/book-schema.sql');
  });
  it('have not changed since they shipped', () => {
    const shipped: Readonly<Record<string, string>> = JSON.parse(readFileSync(new URL('../fixtures/shipped-steps.json', import.meta.url), 'utf8'));
    const folder = new URL('../../main/backroom/book/migrations/', import.meta.url);
    const steps = readdirSync(folder).filter((name) => name !== 'index.ts');
    expect(steps).toHaveLength(MIGRATIONS.length);
    expect(Object.fromEntries(steps.map((name) => [name, sha256Hex(readFileSync(new URL(name, folder)))]))).toEqual(shipped);
  });
});

describe('bringing an older book up to date', () => {
  it('does each pending step and keeps what was there', () => {
    const { file } = makeOldBook();
    const row = lookWith(file, [...MIGRATIONS, addColour, addShape], (database) => ({
      version: bookVersion(database),
      place: database.prepare<[], { id: string; colour: string }>('SELECT id, colour FROM places').get(),
    }));
    expect(row).toEqual({ version: NEWEST + 20, place: { id: 'place-1', colour: 'white' } });
  });
  it('ends in the same schema as a new book, whichever version it began with', () => {
    const all = [...MIGRATIONS, addColour, addShape];
    const fresh = connect(Buffer.alloc(0));
    migrate(fresh, all, null);
    const wanted = schemaOf(fresh);
    fresh.close();
    const { file } = makeOldBook();
    expect(lookWith(file, [...MIGRATIONS, addColour], schemaOf)).not.toEqual(wanted);
    expect(lookWith(file, all, schemaOf)).toEqual(wanted);
  });
  it('copies the book first, and the copy is the old book whole', () => {
    const { folder, file } = makeOldBook();
    openBookFile(file, { clock: TEST_CLOCK, migrations: [...MIGRATIONS, addColour] }).close();
    expect(readdirSync(folder).toSorted()).toEqual([`kitchen-before-v${NEWEST}-2026-11-25-1.backup.alderbook`, 'kitchen.alderbook']);
    const copy = openForTest(join(folder, `kitchen-before-v${NEWEST}-2026-11-25-1.backup.alderbook`)).reader();
    expect(copy.checkChain()).toMatchObject({ entries: 1, intact: true });
    expect(copy.shelf('places').all()).toHaveLength(1);
  });
  it('copies nothing when there is nothing to do', () => {
    const { folder, file } = makeOldBook();
    openBookFile(file, { clock: TEST_CLOCK }).close();
    expect(readdirSync(folder)).toEqual(['kitchen.alderbook']);
  });
  it('keeps the last ten copies', () => {
    const { folder, file } = makeOldBook();
    const steps = [...MIGRATIONS];
    for (let version = NEWEST + 10; version <= NEWEST + 140; version += 10) {
      steps.push({ version, name: `step ${version}`, up: (database) => database.exec(`CREATE TABLE step_${version} (id TEXT) STRICT`) });
      openBookFile(file, { clock: TEST_CLOCK, migrations: steps }).close();
    }
    expect(readdirSync(folder).filter((name) => name.includes('before'))).toHaveLength(10);
  });
  it('leaves version and schema as they were when a step fails half way', () => {
    const { file } = makeOldBook();
    const before = lookWith(file, MIGRATIONS, (database) => ({ version: bookVersion(database), schema: schemaOf(database) }));
    expect(() => openBookFile(file, { clock: TEST_CLOCK, migrations: [...MIGRATIONS, failing(NEWEST + 10)] })).toThrow('power cut');
    expect(lookWith(file, MIGRATIONS, (database) => ({ version: bookVersion(database), schema: schemaOf(database) }))).toEqual(before);
  });
  it('keeps the steps before the one that failed', () => {
    const { file } = makeOldBook();
    expect(() => openBookFile(file, { clock: TEST_CLOCK, migrations: [...MIGRATIONS, addColour, failing(NEWEST + 20)] })).toThrow('power cut');
    expect(lookWith(file, [...MIGRATIONS, addColour], bookVersion)).toBe(NEWEST + 10);
  });
  it('refuses a step that leaves rows pointing nowhere', () => {
    const { file } = makeOldBook();
    const orphaning: Migration = {
      version: NEWEST + 10,
      name: 'orphaning',
      up: (database) => database.exec("INSERT INTO readings (point_id, at_ms, low_ticks, cut, text, unit, how, source, entry_sequence) VALUES ('p', 1, 1, 0, '1', 'F', 'file', '', 99)"),
    };
    expect(() => openBookFile(file, { clock: TEST_CLOCK, migrations: [...MIGRATIONS, orphaning] })).toThrow(`Step ${NEWEST + 10} “orphaning” leaves 1 rows that point nowhere.`);
    expect(lookWith(file, MIGRATIONS, bookVersion)).toBe(NEWEST);
  });
  it('rebuilds a table that others point at without losing them', () => {
    const { file } = makeOldBook();
    const rebuild: Migration = {
      version: NEWEST + 10,
      name: 'rebuild',
      up: (database) => database.exec('CREATE TABLE places_new (position INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, body TEXT NOT NULL) STRICT; INSERT INTO places_new SELECT * FROM places; DROP TABLE places; ALTER TABLE places_new RENAME TO places'),
    };
    expect(lookWith(file, [...MIGRATIONS, rebuild], (database) => database.prepare('SELECT id FROM places').all())).toEqual([{ id: 'place-1' }]);
  });
});
