/** The shelves: one table a subject, whole documents, looked up by id and by their keys. */
import type { Shelf } from '../room.ts';
import { Refusal } from '../refusal.ts';
import type { Connection } from './connection.ts';
import { SHELVES, type ShelfName, type Stored } from './stored.ts';

/** What the documents of a shelf are called in a sentence, and the table they lie in. */
const TABLES: { readonly [N in ShelfName]: { readonly table: string; readonly one: string } } = {
  kitchen: { table: 'kitchens', one: 'kitchen' },
  people: { table: 'people', one: 'person' },
  instruments: { table: 'instruments', one: 'thermometer' },
  smokers: { table: 'smokers', one: 'smoker' },
  places: { table: 'places', one: 'place' },
  recipes: { table: 'recipes', one: 'recipe' },
  fishLots: { table: 'fish_lots', one: 'fish lot' },
  batches: { table: 'batches', one: 'batch' },
  loads: { table: 'loads', one: 'load' },
  points: { table: 'points', one: 'measuring point' },
  labResults: { table: 'lab_results', one: 'laboratory result' },
  decisions: { table: 'decisions', one: 'decision' },
  packs: { table: 'packs', one: 'pack' },
  prints: { table: 'prints', one: 'printed label' },
  confirmations: { table: 'confirmations', one: 'confirmation' },
};

interface BodyRow {
  readonly body: string;
}

/**
 * Opens one shelf.
 * @param mayWrite asked at every `put`; throws when the caller may not write just now
 */
export function openShelf<N extends ShelfName>(database: Connection, name: N, mayWrite: () => void): Shelf<Stored<N>> {
  const { table, one } = TABLES[name];
  const { schema, keys } = SHELVES[name];
  const columns = keys.map(columnOf);
  const byId = database.prepare<[string], BodyRow>(`SELECT body FROM ${table} WHERE id = ?`);
  const inOrder = database.prepare<[], BodyRow>(`SELECT body FROM ${table} ORDER BY position`);
  const upsert = database.prepare<(string | null)[]>(upsertSql(table, columns));

  function read(row: BodyRow): Stored<N> {
    const parsed = schema.safeParse(parseBody(row.body));
    if (!parsed.success) throw new Refusal('BOOK_DAMAGED', `A ${one} in the book can’t be read.`, { remedy: 'Open your latest backup, and keep this file.' });
    // The schema of this shelf is the one `Stored<N>` is taken from; TypeScript can't follow that through the table.
    return parsed.data as Stored<N>;
  }
  function get(id: string): Stored<N> | undefined {
    const row = byId.get(id);
    return row === undefined ? undefined : read(row);
  }
  return {
    get,
    need(id) {
      const found = get(id);
      if (found === undefined) throw new Refusal('NOT_FOUND', `There is no such ${one} in the book.`, { remedy: 'Look at the list again; it may have changed.' });
      return found;
    },
    all: () => inOrder.all().map(read),
    where(key, value) {
      if (!(keys as readonly string[]).includes(key)) throw new Error(`The shelf ${name} has no key ${key}.`);
      return database.prepare<[string], BodyRow>(`SELECT body FROM ${table} WHERE ${columnOf(key)} = ? ORDER BY position`).all(value).map(read);
    },
    put(document) {
      mayWrite();
      const kept: Record<string, unknown> = schema.parse(document);
      upsert.run(String(kept['id']), ...keys.map((key) => keyText(kept[key])), JSON.stringify(kept));
    },
  };
}

function upsertSql(table: string, columns: readonly string[]): string {
  const names = ['id', ...columns, 'body'];
  const updates = [...columns, 'body'].map((column) => `${column} = excluded.${column}`);
  return `INSERT INTO ${table} (${names.join(', ')}) VALUES (${names.map(() => '?').join(', ')}) ON CONFLICT (id) DO UPDATE SET ${updates.join(', ')}`;
}

function columnOf(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

function keyText(value: unknown): string | null {
  return value === null || value === undefined ? null : String(value);
}

function parseBody(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return undefined;
  }
}
