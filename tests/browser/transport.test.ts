import { connect } from 'node:net';
import os from 'node:os';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openFront } from './open-front.ts';
import type { OpenedFront } from './open-front.ts';

let front: OpenedFront;
let cookie: string;
beforeEach(async () => {
  front = await openFront();
  ({ cookie } = await front.enter());
});
afterEach(() => front.close());

describe('the Host header', () => {
  const rows: readonly [string, (port: number) => string, number][] = [
    ['our address', (port) => `127.0.0.1:${port}`, 200],
    ['our name', (port) => `localhost:${port}`, 200],
    ['our name in capitals', (port) => `LOCALHOST:${port}`, 200],
    ['a name that was made to point here', (port) => `kitchen.example:${port}`, 421],
    ['our address without the port', () => '127.0.0.1', 421],
    ['another port', (port) => `127.0.0.1:${port + 1}`, 421],
    ['a name that begins like ours', (port) => `localhost.example:${port}`, 421],
    ['a name that ends like ours', (port) => `x127.0.0.1:${port}`, 421],
    ['the other way to write this computer', (port) => `[::1]:${port}`, 421],
    ['every address', (port) => `0.0.0.0:${port}`, 421],
  ];
  for (const [what, host, status] of rows) {
    test(`with ${what} is ${status}`, async () => {
      expect((await front.send({ headers: { host: host(front.port), cookie } })).status).toBe(status);
    });
  }

  test('that is wrong does not use up the key', async () => {
    const fresh = await openFront();
    const path = `/?key=${fresh.key}`;
    expect((await fresh.send({ path, headers: { host: 'kitchen.example' } })).status).toBe(421);
    expect((await fresh.send({ path })).status).toBe(303);
    await fresh.close();
  });
});

/** What comes back for bytes sent as they are: `request` of Node would add a Host header. */
function sendBytes(port: number, text: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => socket.end(text));
    let answer = '';
    socket.on('data', (part: Buffer) => { answer += part.toString(); });
    socket.on('end', () => resolve(answer));
    socket.on('error', reject);
  });
}

test('a request with an empty Host header, or with none, is refused', async () => {
  const rest = `Cookie: ${cookie}\r\nConnection: close\r\n\r\n`;
  expect(await sendBytes(front.port, `GET / HTTP/1.1\r\nHost:\r\n${rest}`)).toMatch(/^HTTP\/1.1 421 /);
  expect(await sendBytes(front.port, `GET / HTTP/1.0\r\n${rest}`)).toMatch(/^HTTP\/1.1 421 /);
  expect(await sendBytes(front.port, `GET / HTTP/1.1\r\n${rest}`)).toMatch(/^HTTP\/1.1 400 /);
});

describe('the Origin header of a POST', () => {
  const rows: readonly [string, (port: number) => string | null, number][] = [
    ['our own page', (port) => `http://127.0.0.1:${port}`, 200],
    ['a page under our other name', (port) => `http://localhost:${port}`, 403],
    ['another page', () => 'http://kitchen.example', 403],
    ['another port of this computer', (port) => `http://127.0.0.1:${port + 1}`, 403],
    ['our page over https', (port) => `https://127.0.0.1:${port}`, 403],
    ['a page without an origin', () => 'null', 403],
    ['nothing', () => null, 403],
    ['an address that begins like ours', (port) => `http://127.0.0.1:${port}0`, 403],
  ];
  for (const [what, origin, status] of rows) {
    test(`from ${what} is ${status}`, async () => {
      const value = origin(front.port);
      const headers = { cookie, 'content-type': 'application/json', ...(value === null ? {} : { origin: value }) };
      const answer = await front.send({ method: 'POST', path: '/request', headers, body: '{"name":"book.status","input":{}}' });
      expect(answer.status).toBe(status);
      expect(front.door.asked.length).toBe(status === 200 ? 1 : 0);
    });
  }
});

test('methods other than GET, HEAD and POST are 405', async () => {
  for (const method of ['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE']) {
    expect((await front.send({ method, headers: { cookie } })).status).toBe(405);
  }
});

test('only this computer is listened to', async () => {
  const elsewhere = Object.values(os.networkInterfaces()).flat().filter((one) => one !== undefined && !one.internal && one.family === 'IPv4');
  const hosts = [...elsewhere.map((one) => one?.address ?? ''), '127.0.0.2'];
  for (const host of hosts) {
    const outcome = await new Promise<string>((resolve) => {
      const socket = connect({ host, port: front.port, timeout: 2000 });
      socket.on('connect', () => { socket.destroy(); resolve('connected'); });
      socket.on('timeout', () => { socket.destroy(); resolve('refused'); });
      socket.on('error', () => resolve('refused'));
    });
    expect(outcome, host).toBe('refused');
  }
  expect(hosts.length).toBeGreaterThan(0);
});

test('every kind of answer carries the content policy and the protective headers', async () => {
  const origin = `http://127.0.0.1:${front.port}`;
  const answers = await Promise.all([
    front.send({ headers: { cookie } }),
    front.send({ path: '/assets/main-a1b2c3d4.js', headers: { cookie } }),
    front.send({ path: '/nothing', headers: { cookie } }),
    front.send({}),
    front.send({ headers: { host: 'kitchen.example' } }),
    front.send({ method: 'POST', path: '/request', headers: { cookie, origin, 'content-type': 'application/json' }, body: '{}' }),
  ]);
  for (const { headers } of answers) {
    expect(headers['content-security-policy']).toBe(
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; " +
        "object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    );
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['referrer-policy']).toBe('no-referrer');
    expect(headers['cross-origin-resource-policy']).toBe('same-origin');
    expect(headers['cache-control']).toBeDefined();
  }
});
