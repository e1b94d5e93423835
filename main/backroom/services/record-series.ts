/** What was measured of a batch, as numbers: its pieces and their chamber, its brining room, its freezer, each for its own time. */
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import type { BookRoom, ReadingNumbers } from '../room.ts';
import { pointsOf } from './load-view.ts';

/** The readings of one point that are of this batch. */
export interface MeasuredPoint {
  readonly pointId: string;
  readonly name: string;
  readonly numbers: ReadingNumbers;
  /** The time that counts; null where all of it does. */
  readonly span: { readonly fromMs: number; readonly toMs: number } | null;
  /** Of its load, and so a column of the table. */
  readonly isOfLoad: boolean;
}

const NEVER_MS = 8_640_000_000_000_000;

/** Places that were not read then are left out, but for the freezer the batch lay in. */
export function measuredPoints(room: BookRoom, batch: StoredBatch, load: StoredLoad | null): MeasuredPoint[] {
  const { book } = room;
  const ofLoad = load === null ? [] : pointsOf(room, load).filter((point) => point.batchId === null || point.batchId === batch.id);
  const soak = soakSpan(batch);
  const rooms = soak === null ? [] : book.shelf('places').all().filter((place) => place.kind === 'brining-room');
  const freezer = batch.freezerPlaceId === null ? undefined : book.shelf('places').get(batch.freezerPlaceId);
  const lain = { fromMs: batch.intoFreezerAtMs ?? 0, toMs: batch.outOfFreezerAtMs ?? NEVER_MS };
  return [
    ...ofLoad.map(({ id, name }): MeasuredPoint => ({ pointId: id, name, numbers: book.seriesOf(id), span: null, isOfLoad: true })),
    ...rooms.map(({ id, name }): MeasuredPoint => ({ pointId: id, name, numbers: book.seriesOf(id, soak ?? lain), span: soak, isOfLoad: false })).filter(({ numbers }) => numbers.atMs.length > 0),
    ...(freezer === undefined ? [] : [{ pointId: freezer.id, name: freezer.name, numbers: book.seriesOf(freezer.id, lain), span: lain, isOfLoad: false }]),
  ];
}

/** From its start to its end; to now and beyond while it lasts. */
function soakSpan({ soak }: StoredBatch): { readonly fromMs: number; readonly toMs: number } | null {
  const fromMs = soak.find((event) => event.what === 'start')?.atMs;
  return fromMs === undefined ? null : { fromMs, toMs: soak.find((event) => event.what === 'end')?.atMs ?? NEVER_MS };
}
