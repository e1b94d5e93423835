import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { SECRET, openFront } from './open-front.ts';
import type { OpenedFront } from './open-front.ts';

let front: OpenedFront;
let headers: { cookie: string };
beforeEach(async () => {
  front = await openFront();
  headers = await front.enter();
});
afterEach(() => front.close());

describe('a page file', () => {
  const rows: readonly [string, string, string][] = [
    ['/', 'text/html; charset=utf-8', 'no-store'],
    ['/?anything=else', 'text/html; charset=utf-8', 'no-store'],
    ['/index.html', 'text/html; charset=utf-8', 'no-store'],
    ['/assets/main-a1b2c3d4.js', 'text/javascript; charset=utf-8', 'private, max-age=31536000, immutable'],
    ['/assets/main-a1b2c3d4.css', 'text/css; charset=utf-8', 'private, max-age=31536000, immutable'],
    ['/assets/face-a1b2c3d4.woff2', 'font/woff2', 'private, max-age=31536000, immutable'],
  ];
  for (const [path, contentType, cacheControl] of rows) {
    test(`${path} comes as ${contentType}`, async () => {
      const answer = await front.send({ path, headers });
      expect([answer.status, answer.headers['content-type'], answer.headers['cache-control']]).toEqual([200, contentType, cacheControl]);
    });
  }

  test('asked for with HEAD comes without its body', async () => {
    const answer = await front.send({ method: 'HEAD', path: '/index.html', headers });
    expect([answer.status, answer.text]).toEqual([200, '']);
  });
});

describe('nothing outside the folder of pages can be read', () => {
  const paths: readonly string[] = [
    '/../secret.json',
    '/assets/../../secret.json',
    '/assets/../index.html',
    '/%2e%2e/secret.json',
    '/%2e%2e%2fsecret.json',
    '/..%2fsecret.json',
    '/..%5csecret.json',
    '/..\\secret.json',
    '/%252e%252e/secret.json',
    '/....//secret.json',
    '/./index.html',
    '//secret.json',
    '/../renderer-else/secret.json',
    '/%2e%2e/renderer-else/secret.json',
    '/link.json',
    '/.hidden.json',
    '/assets/leftover.map',
    '/assets',
    '/assets/',
    '/secret.json%00.html',
    '/index.html%00',
    '/%',
    '/%ff',
    '/C:/secret.json',
    '/index.html/',
    'secret.json',
    'http://127.0.0.1/secret.json',
    '/etc/passwd',
  ];
  for (const path of paths) {
    test(`${path} is refused`, async () => {
      const answer = await front.send({ path, headers });
      expect([400, 404]).toContain(answer.status);
      expect(answer.text).not.toContain(SECRET);
      expect(answer.text).not.toContain('<title>pages</title>');
    });
  }
});
