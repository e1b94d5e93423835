/** When the program is to end: a signal, or the end of the process that started it. */

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Resolves at the first of them; later ones change nothing, so that closing isn't cut short. */
export function waitForStop(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of SIGNALS) process.on(signal, () => resolve());
    if (process.connected) process.on('disconnect', () => resolve());
  });
}
