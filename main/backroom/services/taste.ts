/** Taste capture: a brine weighed as it is mixed by taste, until it becomes a recipe of known strength. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { startTasting } from './taste-book.ts';
import { readFloat } from './taste-float.ts';
import { keepTasting } from './taste-keeping.ts';
import { viewTasting } from './taste-view.ts';
import { addWeighed, strikeAddition } from './taste-weighing.ts';

export const tasteServices = {
  'taste.list': listTastings,
  'taste.get': (room: BookRoom, input: Parsed<'taste.get'>): Output<'taste.get'> => viewTasting(room, room.book.shelf('tastings').need(input.tastingId)),
  'taste.start': (room: BookRoom, input: Parsed<'taste.start'>): Output<'taste.start'> => viewTasting(room, startTasting(room, input)),
  'taste.add': (room: BookRoom, input: Parsed<'taste.add'>): Output<'taste.add'> => viewTasting(room, addWeighed(room, input)),
  'taste.strike': (room: BookRoom, input: Parsed<'taste.strike'>): Output<'taste.strike'> => viewTasting(room, strikeAddition(room, input)),
  'taste.float': (room: BookRoom, input: Parsed<'taste.float'>): Output<'taste.float'> => viewTasting(room, readFloat(room, input)),
  'taste.keep': (room: BookRoom, input: Parsed<'taste.keep'>): Output<'taste.keep'> => ({ recipe: keepTasting(room, input) }),
} satisfies Services<'taste.list' | 'taste.get' | 'taste.start' | 'taste.add' | 'taste.strike' | 'taste.float' | 'taste.keep'>;

/** Those that are no recipe yet, the latest first. */
function listTastings(room: BookRoom): Output<'taste.list'> {
  const open = room.book.shelf('tastings').all().filter((tasting) => tasting.recipeId === null);
  return { tastings: open.toReversed().map((tasting) => viewTasting(room, tasting)) };
}
