// Loaded before the program by a bench: writes down how long each second's longest block of the main thread's event loop was.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { isMainThread } from 'node:worker_threads';

// How long this thread could have run and had no processor, where the system tells (Linux): the second number, in ns.
const SCHEDULE = `/proc/self/task/${process.pid}/schedstat`;
const waitedMs = () => (existsSync(SCHEDULE) ? Number(readFileSync(SCHEDULE, 'utf8').split(' ')[1]) / 1e6 : 0);

const file = process.env['WATCH_BLOCKS_FILE'] ?? '';
if (isMainThread && file !== '') {
  const slices = [];
  const delay = monitorEventLoopDelay({ resolution: 1 });
  delay.enable();
  let before = waitedMs();
  // Counted as they are, the timer's own millisecond included.
  setInterval(() => {
    const waited = waitedMs();
    slices.push({ atMs: Date.now(), longestMs: delay.max / 1e6, waitedMs: waited - before });
    before = waited;
    delay.reset();
  }, 1000).unref();
  process.on('exit', () => writeFileSync(file, JSON.stringify(slices)));
}
