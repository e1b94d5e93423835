/** One request to the browser front: checks the transport, adds the caller, and passes it on. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { z } from 'zod';
import type { Caller, Door } from '../backroom/door.ts';
import { readPageFile } from '../window/page-files.ts';
import { answerEntry, answerFile, answerPage, answerRefusal, answerReply, answerText } from './answers.ts';
import { readBody } from './body.ts';
import type { EventStream } from './event-stream.ts';
import type { Session } from './session.ts';
import { isOwnHost, isOwnOrigin } from './transport.ts';

const REQUEST_LIMIT_BYTES = 2_000_000;
/** Files up to 32 MB; one million bytes more, so that a file at the very limit isn't cut by its wrapping. */
const INBOX_LIMIT_BYTES = 33_000_000;
const FILE_NAME_LIMIT = 255;

const RequestBody = z.strictObject({
  name: z.string().min(1).max(100),
  input: z.unknown(),
  commandId: z.string().min(1).max(100).nullish(),
  personId: z.string().min(1).max(100).nullish(),
});

export interface Routes {
  readonly door: Pick<Door, 'askText' | 'takeFile'>;
  readonly session: Session;
  readonly events: EventStream;
  readonly pagesFolder: string;
  readonly port: number;
}

function callerOf(personId: string | null, commandId: string | null): Caller {
  return { front: 'browser', device: 'this computer', personId, commandId };
}

async function answerRequest(routes: Routes, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (!/^application\/json\b/i.test(request.headers['content-type'] ?? '')) {
    return answerRefusal(response, 415, 'INVALID_INPUT', 'A request must be sent as application/json.');
  }
  const bytes = await readBody(request, REQUEST_LIMIT_BYTES);
  if (bytes === null) {
    return answerRefusal(response, 413, 'INVALID_INPUT', 'The request is larger than 2 MB.', 'Send large files as files, not inside a request.');
  }
  let given: unknown;
  try {
    given = JSON.parse(bytes.toString('utf8'));
  } catch {
    return answerRefusal(response, 400, 'INVALID_INPUT', 'The request is not JSON.');
  }
  const body = RequestBody.safeParse(given);
  if (!body.success) {
    return answerRefusal(response, 400, 'INVALID_INPUT', 'A request has a name and an input, and may have a commandId and a personId; nothing else.');
  }
  const { name, input, commandId, personId } = body.data;
  answerText(response, await routes.door.askText(name, input, callerOf(personId ?? null, commandId ?? null)));
}

async function answerInbox(routes: Routes, request: IncomingMessage, response: ServerResponse, url: URL): Promise<void> {
  const fileName = url.searchParams.get('name') ?? '';
  if (fileName === '' || fileName.length > FILE_NAME_LIMIT) {
    request.resume();
    return answerRefusal(response, 400, 'INVALID_INPUT', `A file needs a name of at most ${FILE_NAME_LIMIT} characters.`);
  }
  const bytes = await readBody(request, INBOX_LIMIT_BYTES, 'shared');
  if (bytes === null) {
    return answerRefusal(
      response, 413, 'INVALID_INPUT', 'The file is larger than 32 MB and was not taken.',
      'Export a shorter stretch of the log, or leave out the columns that are not needed.',
    );
  }
  answerReply(response, await routes.door.takeFile(fileName, bytes));
}

function answerLockedOut(response: ServerResponse, isPage: boolean, keyWasUsed: boolean): void {
  if (!isPage) {
    return answerRefusal(
      response, 401, 'NOT_ALLOWED', 'This page has lost its connection to the program that it was opened from.',
      'Open the address that npm start printed last.',
    );
  }
  answerPage(response, 401, keyWasUsed ? 'This address has been used' : 'Alderbook is locked here', [
    keyWasUsed
      ? 'The address with a key opens Alderbook once, in one browser. The key in this one was used before, or it belongs to an earlier start.'
      : 'This browser was not let in by the program that is running now.',
    'If Alderbook is open in this browser already, <a href="/">go back to it</a>.',
    'If not, stop the program, type npm start again, and open the whole address that it prints, with everything after the question mark.',
  ]);
}

async function answerPageFile(routes: Routes, response: ServerResponse, urlPath: string): Promise<void> {
  const file = await readPageFile(routes.pagesFolder, urlPath);
  if (file === null) return answerPage(response, 404, 'Nothing here', ['There is no page at this address. <a href="/">Go to Alderbook</a>.']);
  answerFile(response, file);
}

/** Answers one request; rejects only on a bug or when the other side goes away. */
export async function route(routes: Routes, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { host, origin, cookie } = request.headers;
  if (!isOwnHost(host, routes.port)) {
    request.resume();
    return answerPage(response, 421, 'Wrong address', ['Alderbook answers only at the address that npm start printed.']);
  }
  // Only the path and what follows it are looked at; the dots of a path are left for the file lookup to refuse.
  const target = request.url ?? '/';
  const at = target.indexOf('?');
  const urlPath = at < 0 ? target : target.slice(0, at);
  const url = new URL(at < 0 ? '' : target.slice(at), 'http://alderbook.invalid/');
  const isReading = request.method === 'GET' || request.method === 'HEAD';

  if (!isReading && request.method !== 'POST') {
    request.resume();
    return answerRefusal(response, 405, 'INVALID_INPUT', 'Only GET and POST are answered here.');
  }
  if (!isReading && !isOwnOrigin(origin, host, routes.port)) {
    request.resume();
    return answerRefusal(response, 403, 'NOT_ALLOWED', 'The request came from a page that is not part of Alderbook.');
  }

  const key = url.searchParams.get('key');
  if (request.method === 'GET' && urlPath === '/' && key !== null) {
    const setCookie = routes.session.redeem(key);
    return setCookie === null ? answerLockedOut(response, true, true) : answerEntry(response, setCookie);
  }
  if (!routes.session.admits(cookie)) {
    request.resume();
    return answerLockedOut(response, isReading && urlPath !== '/events', false);
  }

  if (isReading) {
    if (urlPath === '/events' && request.method === 'GET') return routes.events.attach(request, response);
    return answerPageFile(routes, response, urlPath);
  }
  if (urlPath === '/request') return answerRequest(routes, request, response);
  if (urlPath === '/inbox') return answerInbox(routes, request, response, url);
  request.resume();
  answerRefusal(response, 404, 'UNKNOWN_REQUEST', 'There is nothing at this address to send to.');
}
