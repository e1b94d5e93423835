/** The browser front: the pages and the contract over HTTP on this computer only. */
import { randomUUID } from 'node:crypto';
import { createServer } from 'node:http';
import type { Server } from 'node:http';
import type { Failure } from '../../app/contract/envelope.ts';
import type { Door } from '../backroom/door.ts';
import { answerReply } from './answers.ts';
import { openEventStream } from './event-stream.ts';
import { route } from './routes.ts';
import { startSession } from './session.ts';

const LOOPBACK = '127.0.0.1';
/** How long answers under way may take to leave when the program ends. */
const LAST_ANSWERS_MS = 500;
const INSIDE_FAULT: Failure = {
  code: 'INTERNAL',
  message: 'Something went wrong inside the program.',
  remedy: 'Try once more; if it happens again, start the program anew.',
  retryable: true,
};

export interface BrowserFrontOptions {
  readonly door: Pick<Door, 'askText' | 'takeFile' | 'subscribe' | 'eventsSince'>;
  /** The folder of the built pages. */
  readonly pagesFolder: string;
  /** 0 takes any free port. */
  readonly port: number;
  /** Told of what went wrong inside the front itself, with the reference that the page was given. */
  readonly reportFault: (fault: unknown, reference: string) => void;
}

export interface BrowserFront {
  /** The whole address with its one-time key. */
  readonly address: string;
  readonly port: number;
  /** Ends every connection; resolves when the port is free again. */
  close(): Promise<void>;
}

async function listen(server: Server, port: number): Promise<number> {
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, LOOPBACK, () => {
      server.off('error', reject);
      resolve();
    });
  });
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port.');
  return address.port;
}

/** Opens the front. Rejects with the error of `listen` when the port can't be had. */
export async function serveBrowser(options: BrowserFrontOptions): Promise<BrowserFront> {
  const server = createServer();
  const port = await listen(server, options.port);
  const session = startSession(port);
  const events = openEventStream(options.door);
  const routes = { door: options.door, session, events, pagesFolder: options.pagesFolder, port };

  server.on('request', (request, response) => {
    route(routes, request, response).catch((fault: unknown) => {
      if (request.errored !== null || response.destroyed) return;
      const reference = randomUUID();
      options.reportFault(fault, reference);
      if (response.headersSent) response.destroy();
      else answerReply(response, { ok: false, error: { ...INSIDE_FAULT, reference } }, 500);
    });
  });

  return {
    address: `http://${LOOPBACK}:${port}/?key=${session.key}`,
    port,
    async close() {
      events.close();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      const cut = setTimeout(() => server.closeAllConnections(), LAST_ANSWERS_MS);
      await closed;
      clearTimeout(cut);
    },
  };
}
