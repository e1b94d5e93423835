/**
 * How often a question is asked again while the book changes without end, as it does while a load is live. Pure: clock
 * and waiting are given.
 */

export interface PaceClock {
  nowMs(): number;
  /** Calls back once after so many ms; the answer takes that back. */
  after(ms: number, call: () => void): () => void;
}

export interface Pace {
  /** Asks a question again: at once where that was not done often lately, else as soon as it may. */
  touch(key: string): void;
  /** Nothing that waits is asked any more. */
  stop(): void;
}

/** A question is asked again once a second on the whole (our choice: as often as a probe is read). */
const LEAST_STEP_MS = 1000;
/** One that takes long to answer is asked again at a third of the time at most, so that the back room has time for others. */
const TIMES_AS_LONG = 3;
/** So many changes in a row are shown at once: somebody who enters one thing after another waits for none. */
const MOST_AT_ONCE = 3;

interface Asked {
  isAsking: boolean;
  /** It was touched while it was asked or waited. */
  isTouched: boolean;
  stepMs: number;
  /** How often it may be asked at once, and as of when that was. */
  allowance: number;
  asOfMs: number;
  cancelWait: (() => void) | null;
}

/** @param ask asks one question again; resolves, whatever the answer, once it has come */
export function openPace(ask: (key: string) => Promise<void>, clock: PaceClock): Pace {
  const all = new Map<string, Asked>();

  function go(key: string, asked: Asked): void {
    if (asked.isAsking || asked.cancelWait !== null || !asked.isTouched) return;
    const nowMs = clock.nowMs();
    asked.allowance = Math.min(MOST_AT_ONCE, asked.allowance + (nowMs - asked.asOfMs) / asked.stepMs);
    asked.asOfMs = nowMs;
    if (asked.allowance < 1) {
      asked.cancelWait = clock.after(Math.ceil((1 - asked.allowance) * asked.stepMs), () => {
        asked.cancelWait = null;
        go(key, asked);
      });
      return;
    }
    asked.allowance -= 1;
    asked.isTouched = false;
    asked.isAsking = true;
    void ask(key).finally(() => {
      asked.isAsking = false;
      asked.stepMs = Math.max(LEAST_STEP_MS, TIMES_AS_LONG * (clock.nowMs() - nowMs));
      go(key, asked);
    });
  }
  return {
    touch(key) {
      const asked = all.get(key) ?? { isAsking: false, isTouched: false, stepMs: LEAST_STEP_MS, allowance: MOST_AT_ONCE, asOfMs: clock.nowMs(), cancelWait: null };
      all.set(key, asked);
      asked.isTouched = true;
      go(key, asked);
    },
    stop() {
      for (const asked of all.values()) {
        asked.isTouched = false;
        asked.cancelWait?.();
      }
      all.clear();
    },
  };
}
