/** Events of the book as server-sent events, with catching up for a page that lost its connection. */
import { randomBytes } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Door, Heard } from '../backroom/door.ts';
import { protectiveHeaders } from '../window/content-policy.ts';

const RECONNECT_MS = 1000;
/** Keeps the connection known to be alive, and finds pages that went away without a word. */
const HEARTBEAT_MS = 20_000;
/** What a page has seen that comes for the first time: it may have asked before something changed. */
const NOTHING_YET = -1;

export interface EventStream {
  /** Answers `GET /events` and goes on sending until the page leaves. */
  attach(request: IncomingMessage, response: ServerResponse): void;
  /** Ends every stream. */
  close(): void;
}

/**
 * Opens the stream of one run of the program. The id of an event names the run, so that a page left
 * open since an earlier run is told to ask again instead of being caught up with the wrong numbers.
 */
export function openEventStream(door: Pick<Door, 'subscribe' | 'eventsSince'>): EventStream {
  const run = randomBytes(6).toString('hex');
  const listeners = new Set<ServerResponse>();

  function format(heard: Heard): string {
    return `id: ${run}:${heard.seq}\ndata: ${JSON.stringify(heard)}\n\n`;
  }

  /** The last event that a returning page saw; NaN, which is never caught up, for one of another run. */
  function readLastSeen(lastEventId: string | undefined): number {
    if (lastEventId === undefined || lastEventId === '') return NOTHING_YET;
    const [, givenRun, seq] = /^(\w+):(-1|\d+)$/.exec(lastEventId) ?? [];
    return givenRun === run ? Number(seq) : Number.NaN;
  }

  const unsubscribe = door.subscribe((heard) => {
    const text = format(heard);
    for (const listener of listeners) listener.write(text);
  });
  const heartbeat = setInterval(() => {
    for (const listener of listeners) listener.write(': still here\n\n');
  }, HEARTBEAT_MS);
  heartbeat.unref();

  return {
    attach(request, response) {
      response.writeHead(200, {
        ...protectiveHeaders('browser'),
        'Content-Type': 'text/event-stream; charset=utf-8',
        'Cache-Control': 'no-store',
      });
      const lastEventId = request.headers['last-event-id'];
      const lastSeen = readLastSeen(typeof lastEventId === 'string' ? lastEventId : undefined);
      const missed = door.eventsSince(lastSeen);
      const heard = 'resync' in missed ? [missed] : missed;
      // An id without data is remembered by the browser and not shown to the page: with it the page can return.
      const start = heard.length === 0 && lastSeen === NOTHING_YET ? `id: ${run}:${NOTHING_YET}\n\n` : '';
      response.write(`retry: ${RECONNECT_MS}\n\n${start}${heard.map(format).join('')}`);
      listeners.add(response);
      response.on('close', () => listeners.delete(response));
    },

    close() {
      unsubscribe();
      clearInterval(heartbeat);
      for (const listener of listeners) listener.end();
      listeners.clear();
    },
  };
}
