import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openFront } from './open-front.ts';
import type { OpenedFront } from './open-front.ts';

let front: OpenedFront;
beforeEach(async () => { front = await openFront(); });
afterEach(() => front.close());

describe('the key in the address', () => {
  test('is exchanged for a cookie and a clean address', async () => {
    const answer = await front.send({ path: `/?key=${front.key}` });
    expect(answer.status).toBe(303);
    expect(answer.headers.location).toBe('/');
    expect(answer.headers['set-cookie']).toEqual([expect.stringMatching(/^alderbook-\d+=[\w-]{43}; HttpOnly; SameSite=Strict; Path=\/$/)]);
  });

  test('is long, and another one at every start', async () => {
    const other = await openFront();
    expect(front.key).toMatch(/^[\w-]{32}$/);
    expect(other.key).not.toBe(front.key);
    await other.close();
  });

  test('works once: the second time is 401 with a page that says what to do', async () => {
    await front.enter();
    const again = await front.send({ path: `/?key=${front.key}` });
    expect(again.status).toBe(401);
    expect(again.headers['set-cookie']).toBeUndefined();
    expect(again.text).toContain('npm start');
    expect(again.headers['content-type']).toBe('text/html; charset=utf-8');
  });

  test('that is wrong does not use up the right one', async () => {
    const wrong = ['', 'x', front.key.slice(1), `${front.key}x`, front.key.toUpperCase()];
    for (const key of wrong) expect((await front.send({ path: `/?key=${encodeURIComponent(key)}` })).status).toBe(401);
    expect((await front.send({ path: `/?key=${front.key}` })).status).toBe(303);
  });

  test('counts only at the root', async () => {
    expect((await front.send({ path: `/assets/main-a1b2c3d4.js?key=${front.key}` })).status).toBe(401);
    expect((await front.send({ path: `/?key=${front.key}` })).status).toBe(303);
  });

  test('is not looked at in a HEAD, so that a link checker does not use it up', async () => {
    expect((await front.send({ method: 'HEAD', path: `/?key=${front.key}` })).status).toBe(401);
    expect((await front.send({ path: `/?key=${front.key}` })).status).toBe(303);
  });
});

describe('without the cookie', () => {
  const doors: readonly [string, string, Record<string, string>][] = [
    ['GET', '/', {}],
    ['GET', '/assets/main-a1b2c3d4.js', {}],
    ['GET', '/events', {}],
    ['POST', '/request', { 'content-type': 'application/json' }],
    ['POST', '/inbox?name=log.csv', {}],
    ['POST', '/elsewhere', {}],
  ];
  for (const [method, path, headers] of doors) {
    test(`${method} ${path} is 401 and reaches nothing`, async () => {
      const answer = await front.send({
        method,
        path,
        headers: { ...headers, ...(method === 'POST' ? { origin: `http://127.0.0.1:${front.port}` } : {}) },
        ...(method === 'POST' ? { body: '{"name":"book.status","input":{}}' } : {}),
      });
      expect(answer.status).toBe(401);
      expect(front.door.asked).toEqual([]);
      expect(front.door.taken).toEqual([]);
    });
  }

  test('a request is told so in an envelope', async () => {
    const origin = `http://127.0.0.1:${front.port}`;
    const answer = await front.send({ method: 'POST', path: '/request', headers: { origin, 'content-type': 'application/json' }, body: '{}' });
    expect(JSON.parse(answer.text)).toMatchObject({ ok: false, error: { code: 'NOT_ALLOWED', retryable: false } });
  });

  test('cookies that only look like ours are 401', async () => {
    const { cookie } = await front.enter();
    const [name, value = ''] = cookie.split('=');
    const wrong = [`${name}=`, `${name}=${value.slice(1)}`, `${name}=${value}x`, `${name}x=${value}`, `x${name}=${value}`, value, `${name}`, '='];
    for (const given of wrong) expect((await front.send({ headers: { cookie: given } })).status).toBe(401);
  });

  test('the cookie of another program on this computer does not open this one', async () => {
    const other = await openFront();
    const theirs = await other.enter();
    expect((await front.send({ headers: theirs })).status).toBe(401);
    await other.close();
  });

  test('the cookie among others lets in', async () => {
    const { cookie } = await front.enter();
    expect((await front.send({ headers: { cookie: `a=1; ${cookie}; b=2` } })).status).toBe(200);
  });
});
