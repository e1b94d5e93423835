/** What the browser front writes back: replies as JSON, files, and its own pages in plain words. */
import type { ServerResponse } from 'node:http';
import type { Failure, Reply } from '../../app/contract/envelope.ts';
import { protectiveHeaders } from '../window/content-policy.ts';
import type { PageFile } from '../window/page-files.ts';

const NEVER_KEPT = 'no-store';
const KEPT_FOR_EVER = 'private, max-age=31536000, immutable';

function write(response: ServerResponse, status: number, headers: Record<string, string>, body: string | Uint8Array): void {
  response.writeHead(status, {
    ...protectiveHeaders('browser'),
    'Cache-Control': NEVER_KEPT,
    'Content-Length': String(Buffer.byteLength(body)),
    ...headers,
  });
  response.end(body);
}

/** Answers with an envelope; failures of the transport carry a 4xx or 5xx status besides. */
export function answerReply(response: ServerResponse, reply: Reply<unknown>, status = 200): void {
  answerText(response, JSON.stringify(reply), status);
}

/** Answers with the text of an envelope. */
export function answerText(response: ServerResponse, text: string | Uint8Array, status = 200): void {
  write(response, status, { 'Content-Type': 'application/json; charset=utf-8' }, text);
}

/** Answers that a request never reached the program, in the shape of every other failure. */
export function answerRefusal(response: ServerResponse, status: number, code: Failure['code'], message: string, remedy?: string): void {
  const error: Failure = { code, message, retryable: false, ...(remedy === undefined ? {} : { remedy }) };
  answerReply(response, { ok: false, error }, status);
}

/** Answers with a file of the built pages. */
export function answerFile(response: ServerResponse, file: PageFile): void {
  write(
    response,
    200,
    { 'Content-Type': file.contentType, 'Cache-Control': file.isUnchanging ? KEPT_FOR_EVER : NEVER_KEPT },
    file.bytes,
  );
}

/** Sends the browser to the clean address, with the cookie it got for its key. */
export function answerEntry(response: ServerResponse, setCookie: string): void {
  write(response, 303, { Location: '/', 'Set-Cookie': setCookie, 'Content-Type': 'text/plain; charset=utf-8' }, '');
}

/** A page of one heading and a few sentences; both are our own words and hold no markup. */
export function answerPage(response: ServerResponse, status: number, heading: string, sentences: readonly string[]): void {
  const body = [
    '<!doctype html>',
    `<html lang="en"><head><meta charset="utf-8"><title>${heading}</title><link rel="icon" href="data:,"></head>`,
    `<body><main><h1>${heading}</h1>`,
    ...sentences.map((sentence) => `<p>${sentence}</p>`),
    '</main></body></html>\n',
  ].join('\n');
  write(response, status, { 'Content-Type': 'text/html; charset=utf-8' }, body);
}
