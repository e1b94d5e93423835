/** A book looked at from within, as the services do, once its kitchen is closed. */
import { openBookFile } from '../../main/backroom/book/open.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { handsInProcess } from '../../main/backroom/hands/hands.ts';
import type { BookRoom, OpenBook } from '../../main/backroom/room.ts';

/** A room that only reads; its clock stands at `nowMs`. */
export function roomOn(file: string, nowMs: number): { room: BookRoom; book: OpenBook; close(): void } {
  const handle = openBookFile(file, { clock: { nowMs: () => nowMs } });
  const book = handle.reader();
  const never = (): never => { throw new Error('nothing is written here'); };
  const room = {
    catalogue, clock: { nowMs: () => nowMs }, hands: handsInProcess(), feeds: undefined as never, version: 'test', caller: { front: 'ask', device: 'test', personId: null, commandId: null },
    keeper: undefined as never, newId: never, book, person: null, changed: never,
  } as const satisfies BookRoom;
  return { room, book, close: () => handle.close() };
}
