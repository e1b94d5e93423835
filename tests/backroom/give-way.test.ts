import { getPriority } from 'node:os';
import { Worker } from 'node:worker_threads';
import { describe, expect, it } from 'vitest';
import { giveWay, NICENESS } from '../../main/backroom/give-way.ts';

const SOURCE = new URL('../../main/backroom/give-way.ts', import.meta.url).href;

/** The niceness of a thread that gave way, and of the main thread meanwhile. */
async function nicenessAfter(niceness: number): Promise<unknown> {
  const worker = new Worker(`
    const { readlinkSync } = require('node:fs');
    const { getPriority } = require('node:os');
    import(${JSON.stringify(SOURCE)}).then(({ giveWay }) => {
      giveWay(${niceness});
      const own = process.platform === 'linux' ? Number(readlinkSync('/proc/thread-self').split('/').at(-1)) : process.pid;
      require('node:worker_threads').parentPort.postMessage({ own: getPriority(own), main: getPriority(process.pid) });
    });`, { eval: true });
  const { promise, resolve, reject } = Promise.withResolvers<unknown>();
  worker.once('message', resolve);
  worker.once('error', reject);
  try {
    return await promise;
  } finally {
    await worker.terminate();
  }
}

describe('a thread of long work', () => {
  it('lets the thread that people touch go first, where the system can tell threads apart', async () => {
    const main = getPriority();
    expect(await nicenessAfter(NICENESS.hand)).toEqual({ own: process.platform === 'linux' ? NICENESS.hand : main, main });
  });
  it('goes on as before where it may not', () => {
    expect(() => giveWay(Number.NaN)).not.toThrow();
  });
});
