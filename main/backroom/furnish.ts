/** The back room as the program runs it: real services, catalogue and clock. */
import { type BackRoom, type BookChoice, openBackRoom } from './backroom.ts';
import { catalogue } from './catalogue.ts';
import type { Announce } from './changes.ts';
import { systemClock } from './clock.ts';
import { type Hands, handsInProcess, handsInThread } from './hands/hands.ts';
import type { Log } from './log.ts';
import { services } from './services-table.ts';

export interface Furnishing {
  /** The entry of the helper threads; null does their work in this thread. */
  readonly handFile: string | null;
  readonly log: Log;
  readonly announce: Announce;
}

export function furnishBackRoom(choice: BookChoice, { handFile, log, announce }: Furnishing): Promise<BackRoom> {
  const hands: Hands = handFile === null ? handsInProcess() : handsInThread(handFile);
  return openBackRoom(choice, { services, catalogue, clock: systemClock, hands, log, announce });
}
