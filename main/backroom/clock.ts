/** The only clock of the program: everything else is handed the time. */
import type { Clock } from './room.ts';

export const systemClock: Clock = { nowMs: () => Date.now() };
