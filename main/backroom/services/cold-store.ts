/** The cold store and the hand-over: portioning, packs in and out, trays, the stock, and giving packs away. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { listGuests, saveGuest } from './guests.ts';
import { prepareHandOver } from './hand-over-prepare.ts';
import { listHandOvers, makeHandOver, viewHandOver } from './hand-over.ts';
import { findPack } from './pack-where-find.ts';
import { movePacks } from './pack-where-moves.ts';
import { placeVerdict } from './pack-where-place.ts';
import { stockOf } from './pack-where-stock.ts';
import { closePortioning, viewPortioning } from './portioning.ts';
import { listTrays, makeTray, markTray } from './trays.ts';

export const coldStoreServices = {
  'portion.get': viewPortioning,
  'portion.close': closePortioning,
  'pack.find': findPack,
  'pack.move': movePacks,
  'pack.stock': (room: BookRoom): Promise<Output<'pack.stock'>> => stockOf(room),
  'tray.list': listTrays,
  'tray.make': (room: BookRoom, input: Parsed<'tray.make'>): Output<'tray.make'> => ({ tray: makeTray(room, input) }),
  'tray.mark': (room: BookRoom, input: Parsed<'tray.mark'>): Output<'tray.mark'> => ({ tray: markTray(room, input) }),
  'place.verdict': placeVerdict,
  'guest.list': (room: BookRoom): Output<'guest.list'> => listGuests(room),
  'guest.save': saveGuest,
  'handOver.prepare': prepareHandOver,
  'handOver.make': (room: BookRoom, input: Parsed<'handOver.make'>): Output<'handOver.make'> => ({ handOver: makeHandOver(room, input) }),
  'handOver.get': (room: BookRoom, { handOverId }: Parsed<'handOver.get'>): Output<'handOver.get'> => ({ handOver: viewHandOver(room, room.book.shelf('handOvers').need(handOverId)) }),
  'handOver.list': listHandOvers,
} satisfies Services<
  'portion.get' | 'portion.close' | 'pack.find' | 'pack.move' | 'pack.stock' | 'tray.list' | 'tray.make' | 'tray.mark' | 'place.verdict'
  | 'guest.list' | 'guest.save' | 'handOver.prepare' | 'handOver.make' | 'handOver.get' | 'handOver.list'
>;
