/** The rows behind a pack and behind a year, by bare prepared statements: what a trace and an export can't do without. */
import { copyFileSync } from 'node:fs';
import Database from 'better-sqlite3';

type Document = Readonly<Record<string, unknown>>;

export interface BareBook {
  /** Everything a pack's trace shows, document by document, as JSON.parse gives it. */
  traceRows(packId: string): Document[];
  /** Receiving, transformation and shipping within a stretch of time, read and written as comma-separated text with nothing checked. */
  yearText(fromMs: number, toMs: number): { readonly text: string; readonly rows: number };
  close(): void;
}

/** Opens a copy that lies beside the book and goes with it: the back room locks its own. Call it while the book is closed. */
export function openBareBook(file: string): BareBook {
  const copy = `${file}.copy`;
  copyFileSync(file, copy);
  const database = new Database(copy, { readonly: true });
  const statements = new Map<string, Database.Statement<[string]>>();
  const byKey = (table: string, column: string, value: string): Document[] => {
    const sql = `SELECT body FROM ${table} WHERE ${column} = ? ORDER BY position`;
    const statement = statements.get(sql) ?? database.prepare<[string]>(sql);
    statements.set(sql, statement);
    // The column holds JSON text.
    return (statement.all(value) as { body: string }[]).map(({ body }) => JSON.parse(body) as Document);
  };
  const one = (table: string, id: unknown): Document[] => byKey(table, 'id', String(id));
  const all = (table: string): Document[] => (database.prepare(`SELECT body FROM ${table} ORDER BY position`).all() as { body: string }[]).map(({ body }) => JSON.parse(body) as Document);
  const entries = database.prepare<[string]>('SELECT * FROM entries WHERE subject_id IN (SELECT value FROM json_each(?)) ORDER BY sequence');
  return {
    traceRows(packId) {
      const pack = first(one('packs', packId));
      const batch = first(one('batches', pack['batchId']));
      const rows = [pack, batch];
      for (const lotId of batch['lotIds'] as string[]) rows.push(...one('fish_lots', lotId));
      for (const lotId of batch['ingredientLotIds'] as string[]) rows.push(...one('ingredient_lots', lotId));
      rows.push(...byKey('decisions', 'batch_id', String(batch['id'])), ...one('loads', batch['loadId']), ...byKey('complaints', 'batch_id', String(batch['id'])));
      rows.push(...one('recipes', (batch['recipe'] as Document)['id']), ...one('kitchens', 'kitchen'));
      for (const point of byKey('points', 'load_id', String(batch['loadId']))) rows.push(point, ...one('instruments', point['instrumentId']));
      for (const move of byKey('pack_moves', 'pack_id', packId)) {
        rows.push(move);
        if (move['handOverId'] === null) continue;
        const [handOver] = one('hand_overs', move['handOverId']);
        if (handOver !== undefined) rows.push(handOver, ...one('guests', handOver['guestId']));
      }
      return rows;
    },
    yearText: (fromMs, toMs) => writeYear({ all, one, byKey, entered: (ids) => entries.all(JSON.stringify(ids)) as Document[] }, fromMs, toMs),
    close: () => { database.close(); },
  };
}

function first(found: readonly Document[]): Document {
  const [document] = found;
  if (document === undefined) throw new Error('A row is missing.');
  return document;
}

interface Reader {
  all(table: string): Document[];
  one(table: string, id: unknown): Document[];
  byKey(table: string, column: string, value: string): Document[];
  entered(ids: readonly unknown[]): Document[];
}

function writeYear({ all, one, byKey, entered }: Reader, fromMs: number, toMs: number): { text: string; rows: number } {
  const within = (atMs: unknown): boolean => typeof atMs === 'number' && atMs >= fromMs && atMs < toMs;
  const lots = all('fish_lots').filter((lot) => within(lot['receivedAtMs']));
  const loads = all('loads').filter((load) => within(load['outAtMs']));
  const handOvers = all('hand_overs').filter((handOver) => within(handOver['atMs']));
  const entries = new Map(entered([...lots, ...loads, ...handOvers].map((document) => document['id'])).map((entry) => [entry['subject_id'], entry]));
  const rows: unknown[][] = lots.map((lot) => ['RECEIVE', lot['receivedAtMs'], lot['code'], JSON.stringify(lot['source']), lot['speciesId'], (lot['mass'] as Document)['grams'], entries.get(lot['id'])?.['entered_at_ms']]);
  for (const load of loads) {
    for (const batchId of load['batchIds'] as string[]) {
      const batch = first(one('batches', batchId));
      const made = byKey('packs', 'batch_id', batchId).reduce((sum, pack) => sum + Number((pack['net'] as Document)['grams']), 0);
      for (const lotId of batch['lotIds'] as string[]) rows.push(['TRANSFORM', load['outAtMs'], batch['lotCode'], made, ...one('fish_lots', lotId).map((lot) => lot['code']), (batch['fillets'] as Document)['grams'], entries.get(load['id'])?.['entered_at_ms']]);
    }
  }
  for (const handOver of handOvers) {
    const [guest] = one('guests', handOver['guestId']);
    const grams = (handOver['packIds'] as string[]).reduce((sum, packId) => sum + Number((first(one('packs', packId))['net'] as Document)['grams']), 0);
    rows.push(['SHIP', handOver['atMs'], guest?.['name'], guest?.['address'], grams, entries.get(handOver['id'])?.['entered_at_ms']]);
  }
  return { text: rows.map((cells) => `${cells.join(',')}\r\n`).join(''), rows: rows.length };
}
