/** Long work in short turns. */
import { setImmediate } from 'node:timers/promises';

/** Longer than this nothing else waits for it. */
const TURN_MS = 20;
/** The clock is looked at once in so many steps: each of them is short. */
const STEPS_A_LOOK = 16;

/** Drives work that yields now and then, with room for other requests between its turns. */
export async function inTurns<T>(work: Generator<undefined, T>): Promise<T> {
  let startMs = performance.now();
  let step = work.next();
  for (let steps = 1; step.done !== true; steps += 1) {
    if (steps % STEPS_A_LOOK === 0 && performance.now() - startMs > TURN_MS) {
      await setImmediate();
      startMs = performance.now();
    }
    step = work.next();
  }
  return step.value;
}
