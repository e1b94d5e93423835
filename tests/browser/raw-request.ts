/** Requests with every header and path exactly as given, which `fetch` would tidy up or refuse. */
import { request } from 'node:http';
import type { IncomingHttpHeaders, IncomingMessage } from 'node:http';

export interface RawRequest {
  readonly port: number;
  readonly method?: string;
  readonly path?: string;
  readonly headers?: Record<string, string>;
  readonly body?: string | Uint8Array;
}

export interface RawAnswer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

/** The answer with its body not yet read. */
export function openRaw({ port, method = 'GET', path = '/', headers = {}, body }: RawRequest): Promise<IncomingMessage> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port, method, path, headers: { host: `127.0.0.1:${port}`, ...headers }, agent: false }, resolve);
    sent.on('error', reject);
    sent.end(body);
  });
}

export async function sendRaw(about: RawRequest): Promise<RawAnswer> {
  const answer = await openRaw(about);
  const parts: Buffer[] = [];
  for await (const part of answer as AsyncIterable<Buffer>) parts.push(part);
  return { status: answer.statusCode ?? 0, headers: answer.headers, text: Buffer.concat(parts).toString('utf8') };
}
