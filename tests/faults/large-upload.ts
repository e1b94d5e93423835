/** Sends a file to the real browser front over a real book, as a browser would. */
import { createReadStream, statSync } from 'node:fs';
import { request } from 'node:http';
import { openDoor } from '../../main/backroom/door.ts';
import { serveBrowser } from '../../main/browser/serve.ts';

export interface LargeUpload {
  /** Null where there was no answer. */
  readonly status: number | null;
  readonly message: string;
  /** The most memory that this process had, the front and the back room in it. */
  readonly peakBytes: number;
}

const LOOK_EVERY_MS = 5;

/** @param breakOffAfterBytes the sender goes away after so many bytes */
export async function sendLargeFile(bookFile: string, file: string, { breakOffAfterBytes }: { readonly breakOffAfterBytes?: number }): Promise<LargeUpload> {
  const door = openDoor({ bookFile, dataFolder: null, demo: false, version: '0.0.0-fault', workerFile: null, handFile: null, log: () => undefined });
  const front = await serveBrowser({ door, pagesFolder: import.meta.dirname, port: 0, reportFault: () => undefined });
  let peakBytes = process.memoryUsage().rss;
  const looking = setInterval(() => {
    peakBytes = Math.max(peakBytes, process.memoryUsage().rss);
  }, LOOK_EVERY_MS);
  try {
    const host = `127.0.0.1:${front.port}`;
    const entry = await fetch(front.address, { redirect: 'manual' });
    const cookie = entry.headers.get('set-cookie')?.split(';')[0] ?? '';
    const headers = { cookie, host, origin: `http://${host}`, 'content-length': String(statSync(file).size) };
    const answer = await post(front.port, headers, file, breakOffAfterBytes);
    // Whoever asks next is answered.
    const status = await fetch(`http://${host}/`, { headers: { cookie } });
    if (status.status >= 500) throw new Error(`after it the front answers ${status.status}`);
    return { ...answer, peakBytes };
  } finally {
    clearInterval(looking);
    await front.close();
    await door.close();
  }
}

function post(port: number, headers: Readonly<Record<string, string>>, file: string, breakOffAfterBytes: number | undefined): Promise<Omit<LargeUpload, 'peakBytes'>> {
  return new Promise((resolve) => {
    const asking = request({ port, host: '127.0.0.1', path: '/inbox?name=season.csv', method: 'POST', headers });
    let answered = false;
    asking.on('response', (response) => {
      answered = true;
      let text = '';
      response.on('data', (part: Buffer) => {
        text += part.toString();
      });
      response.on('close', () => resolve({ status: response.statusCode ?? null, message: /"message":"([^"]+)"/.exec(text)?.[1] ?? text.slice(0, 200) }));
    });
    // A front that has answered may hang up on the rest.
    asking.on('error', () => {
      if (!answered) resolve({ status: null, message: 'hung up' });
    });
    const reading = createReadStream(file, breakOffAfterBytes === undefined ? {} : { end: breakOffAfterBytes - 1 });
    reading.pipe(asking, { end: breakOffAfterBytes === undefined });
    if (breakOffAfterBytes !== undefined) reading.on('end', () => setTimeout(() => asking.destroy(), 50));
  });
}
