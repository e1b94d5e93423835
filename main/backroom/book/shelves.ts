/** The shelves: one table a subject, whole documents, looked up by id and by their keys. */
import type { Statement } from 'better-sqlite3';
import type { Shelf } from '../room.ts';
import { Refusal } from '../refusal.ts';
import type { Connection } from './connection.ts';
import { knowDocuments, type KnownDocuments } from './known-documents.ts';
import { rememberAnswers, type RememberedAnswers } from './remembered-answers.ts';
import { SHELVES, type ShelfName, type Stored } from './stored.ts';

/** What the documents of a shelf are called in a sentence, and the table they lie in. */
const TABLES: { readonly [N in ShelfName]: { readonly table: string; readonly one: string } } = {
  kitchen: { table: 'kitchens', one: 'kitchen' },
  people: { table: 'people', one: 'person' },
  instruments: { table: 'instruments', one: 'thermometer' },
  smokers: { table: 'smokers', one: 'smoker' },
  places: { table: 'places', one: 'place' },
  recipes: { table: 'recipes', one: 'recipe' },
  recipeVersions: { table: 'recipe_versions', one: 'version of a recipe' },
  ingredients: { table: 'ingredients', one: 'ingredient' },
  tastings: { table: 'tastings', one: 'tasting' },
  soakSamples: { table: 'soak_samples', one: 'sample of brined fish' },
  papers: { table: 'papers', one: 'paper' },
  scheduledProcesses: { table: 'scheduled_processes', one: 'scheduled process' },
  correctives: { table: 'correctives', one: 'corrective action' },
  reviews: { table: 'reviews', one: 'review' },
  instrumentChecks: { table: 'instrument_checks', one: 'check of a thermometer' },
  doubtDecisions: { table: 'doubt_decisions', one: 'decision on a doubt' },
  judgements: { table: 'judgements', one: 'judgement' },
  paperSheets: { table: 'paper_sheets', one: 'sheet for paper' },
  alarms: { table: 'alarms', one: 'acknowledged alarm' },
  logShapes: { table: 'log_shapes', one: 'remembered logger’s file' },
  feeds: { table: 'feeds', one: 'live feed' },
  workItems: { table: 'work_items', one: 'piece of work' },
  ownSets: { table: 'own_sets', one: 'limit set' },
  fishLots: { table: 'fish_lots', one: 'fish lot' },
  batches: { table: 'batches', one: 'batch' },
  loads: { table: 'loads', one: 'load' },
  points: { table: 'points', one: 'measuring point' },
  labResults: { table: 'lab_results', one: 'laboratory result' },
  decisions: { table: 'decisions', one: 'decision' },
  packs: { table: 'packs', one: 'pack' },
  prints: { table: 'prints', one: 'printed label' },
  confirmations: { table: 'confirmations', one: 'confirmation' },
  guests: { table: 'guests', one: 'guest' },
  trays: { table: 'trays', one: 'tray' },
  packMoves: { table: 'pack_moves', one: 'move of a pack' },
  handOvers: { table: 'hand_overs', one: 'hand-over' },
  portionings: { table: 'portionings', one: 'portioning' },
  ingredientLots: { table: 'ingredient_lots', one: 'lot of an ingredient' },
  complaints: { table: 'complaints', one: 'complaint' },
  recalls: { table: 'recalls', one: 'recall' },
  labelStocks: { table: 'label_stocks', one: 'label stock' },
};

interface BodyRow {
  readonly id: string;
  readonly body: string;
}

/** The statements of one shelf, prepared once a connection: a request opens the same shelves again and again. */
interface ShelfStatements {
  readonly byId: Statement<[string], BodyRow>;
  readonly inOrder: Statement<[], BodyRow>;
  readonly upsert: Statement<(string | null)[]>;
  readonly byKey: ReadonlyMap<string, Statement<[string], BodyRow>>;
  readonly known: KnownDocuments;
  readonly answers: RememberedAnswers;
}
const prepared = new WeakMap<Connection, Map<ShelfName, ShelfStatements>>();

/**
 * Opens one shelf.
 * @param mayWrite asked at every `put`; throws when the caller may not write just now
 */
export function openShelf<N extends ShelfName>(database: Connection, name: N, mayWrite: () => void): Shelf<Stored<N>> {
  const { one } = TABLES[name];
  const { schema, keys } = SHELVES[name];
  const { byId, inOrder, upsert, byKey, known, answers } = statementsOf(database, name);

  function parse(body: string): unknown {
    const parsed = schema.safeParse(parseBody(body));
    if (!parsed.success) throw new Refusal('BOOK_DAMAGED', `A ${one} in the book can’t be read.`, { remedy: 'Open your latest backup, and keep this file.' });
    return parsed.data;
  }
  function read({ id, body }: BodyRow): Stored<N> {
    // The schema of this shelf is the one `Stored<N>` is taken from; TypeScript can't follow that through the table.
    return known.of(id, body, parse) as Stored<N>;
  }
  function get(id: string): Stored<N> | undefined {
    return answers.of(`id ${id}`, () => {
      const row = byId.get(id);
      return row === undefined ? undefined : read(row);
    });
  }
  return {
    get,
    need(id) {
      const found = get(id);
      if (found === undefined) throw new Refusal('NOT_FOUND', `There is no such ${one} in the book.`, { remedy: 'Look at the list again; it may have changed.' });
      return found;
    },
    all: () => [...answers.of('all', () => inOrder.all().map(read))],
    where(key, value) {
      const statement = byKey.get(key);
      if (statement === undefined) throw new Error(`The shelf ${name} has no key ${key}.`);
      return [...answers.of(`${key} ${value}`, () => statement.all(value).map(read))];
    },
    put(document) {
      mayWrite();
      const kept: Record<string, unknown> = schema.parse(document);
      answers.forget();
      upsert.run(String(kept['id']), ...keys.map((key) => keyText(kept[key])), JSON.stringify(kept));
    },
  };
}

function statementsOf(database: Connection, name: ShelfName): ShelfStatements {
  const ofConnection = prepared.get(database) ?? new Map<ShelfName, ShelfStatements>();
  prepared.set(database, ofConnection);
  const known = ofConnection.get(name) ?? prepareShelf(database, name);
  ofConnection.set(name, known);
  return known;
}

function prepareShelf(database: Connection, name: ShelfName): ShelfStatements {
  const { table } = TABLES[name];
  const columns = SHELVES[name].keys.map((key) => [key, columnOf(key)] as const);
  return {
    byId: database.prepare<[string], BodyRow>(`SELECT id, body FROM ${table} WHERE id = ?`),
    inOrder: database.prepare<[], BodyRow>(`SELECT id, body FROM ${table} ORDER BY position`),
    upsert: database.prepare<(string | null)[]>(upsertSql(table, columns.map(([, column]) => column))),
    byKey: new Map(columns.map(([key, column]) => [key, database.prepare<[string], BodyRow>(`SELECT id, body FROM ${table} WHERE ${column} = ? ORDER BY position`)])),
    known: knowDocuments(),
    answers: rememberAnswers(database),
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
