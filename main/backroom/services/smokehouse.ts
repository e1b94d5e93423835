/** The smokehouse: loads, their marks, and what the record of a load needs next. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { setLoadMark } from './load-marks.ts';
import { openLoad } from './load-opening.ts';
import { progressOf } from './load-progress.ts';
import { loadOf } from './load-view.ts';

export const smokehouseServices = {
  'load.list': (room: BookRoom): Output<'load.list'> => ({ loads: room.book.shelf('loads').all().map((load) => loadOf(room, load)) }),
  'load.open': (room: BookRoom, input: Parsed<'load.open'>): Output<'load.open'> => ({ load: loadOf(room, openLoad(room, input)) }),
  'load.get': (room: BookRoom, { loadId }: Parsed<'load.get'>): Output<'load.get'> => progressOf(room, room.book.shelf('loads').need(loadId)),
  'load.mark': (room: BookRoom, { loadId, what, atMs, why }: Parsed<'load.mark'>): Output<'load.mark'> => ({
    load: loadOf(room, setLoadMark(room, loadId, { what, atMs, why, path: ['atMs'] })),
  }),
} satisfies Services<'load.list' | 'load.open' | 'load.get' | 'load.mark'>;
