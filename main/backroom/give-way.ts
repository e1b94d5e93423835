/** Which of the program's threads goes first where all of them want to run and there are few processors. */
import { readlinkSync } from 'node:fs';
import { setPriority } from 'node:os';
import path from 'node:path';

/** Threads of long work go behind the one that people touch; the numbers are niceness, 0 to 19. */
export const NICENESS = { backRoom: 5, hand: 10 } as const;

/**
 * Lets the threads of other work go before this one. Only Linux tells one thread of a program from another; elsewhere, and
 * where the system doesn't allow it, nothing happens.
 */
export function giveWay(niceness: number): void {
  if (process.platform !== 'linux') return;
  try {
    setPriority(Number(path.basename(readlinkSync('/proc/thread-self'))), niceness);
  } catch {
    // All goes on as before, only less smoothly.
  }
}
