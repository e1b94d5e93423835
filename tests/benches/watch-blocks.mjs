// Loaded before the program by a bench: writes down how long each second's longest block of the main thread's event loop was.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { isMainThread } from 'node:worker_threads';

// How long this thread ran, and how long it could have run and had no processor, where the system tells (Linux): the first two numbers, in ns.
const SCHEDULE = `/proc/self/task/${process.pid}/schedstat`;
const isTold = existsSync(SCHEDULE);
const scheduleMs = () => (isTold ? readFileSync(SCHEDULE, 'utf8').split(' ').slice(0, 2).map((text) => Number(text) / 1e6) : [0, 0]);

const file = process.env['WATCH_BLOCKS_FILE'] ?? '';
if (isMainThread && file !== '') {
  const slices = [];
  const delay = monitorEventLoopDelay({ resolution: 1 });
  delay.enable();
  let [, before] = scheduleMs();
  // The longest that the thread itself worked from one turn of the loop to the next.
  let [workedMs] = scheduleMs();
  let ownMs = 0;
  setInterval(() => {
    const [now] = scheduleMs();
    ownMs = Math.max(ownMs, now - workedMs);
    workedMs = now;
  }, 1).unref();
  // Counted as they are, the timer's own millisecond included.
  setInterval(() => {
    const [, waited] = scheduleMs();
    slices.push({ atMs: Date.now(), longestMs: delay.max / 1e6, ownMs, waitedMs: waited - before });
    before = waited;
    ownMs = 0;
    delay.reset();
  }, 1000).unref();
  process.on('exit', () => writeFileSync(file, JSON.stringify(slices)));
}
