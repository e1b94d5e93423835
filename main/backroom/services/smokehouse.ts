/** The smokehouse: loads, their marks, and what the record of a load needs next. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { setLoadMark } from './load-marks.ts';
import { openLoad } from './load-opening.ts';
import { progressOf } from './load-progress.ts';
import { loadOf } from './load-view.ts';

export const smokehouseServices = {
  'load.list': (room: BookRoom, { newest }: Parsed<'load.list'>): Output<'load.list'> => ({ loads: listed(room.book.shelf('loads').all(), newest).map((load) => loadOf(room, load)) }),
  'load.open': (room: BookRoom, input: Parsed<'load.open'>): Output<'load.open'> => ({ load: loadOf(room, openLoad(room, input)) }),
  'load.get': (room: BookRoom, { loadId }: Parsed<'load.get'>): Output<'load.get'> => progressOf(room, room.book.shelf('loads').need(loadId)),
  'load.mark': (room: BookRoom, { loadId, what, atMs, why }: Parsed<'load.mark'>): Output<'load.mark'> => ({
    load: loadOf(room, setLoadMark(room, loadId, { what, atMs, why, path: ['atMs'] })),
  }),
} satisfies Services<'load.list' | 'load.open' | 'load.get' | 'load.mark'>;

/** All of them, or those that still run and so many of the others, the newest; in the order they were opened. */
function listed(loads: readonly StoredLoad[], newest: number | undefined): readonly StoredLoad[] {
  if (newest === undefined) return loads;
  const over = loads.filter(({ cooledAtMs }) => cooledAtMs !== null).toSorted((one, other) => other.number - one.number).slice(0, newest);
  const shown = new Set(over);
  return loads.filter((load) => load.cooledAtMs === null || shown.has(load));
}
