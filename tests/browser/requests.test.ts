import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openFakeDoor } from './fake-door.ts';
import { openFront } from './open-front.ts';
import type { OpenedFront } from './open-front.ts';

const MEGABYTE = 1_000_000;

let front: OpenedFront;
let headers: Record<string, string>;
async function open(door = openFakeDoor()): Promise<void> {
  front = await openFront({ door });
  headers = { ...(await front.enter()), origin: `http://127.0.0.1:${front.port}`, 'content-type': 'application/json' };
}
beforeEach(() => open());
afterEach(() => front.close());

function post(body: string | Uint8Array, more: Record<string, string> = {}) {
  return front.send({ method: 'POST', path: '/request', headers: { ...headers, ...more }, body });
}

describe('a request', () => {
  test('goes to the back room with the person, the command and this front as its caller', async () => {
    const answer = await post(JSON.stringify({ name: 'fishLot.list', input: { a: [1] }, commandId: 'c-1', personId: 'p-1' }));
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.text)).toEqual({ ok: true, value: { said: 'yes' } });
    expect(front.door.asked).toEqual([
      { name: 'fishLot.list', input: { a: [1] }, caller: { front: 'browser', device: 'this computer', personId: 'p-1', commandId: 'c-1' } },
    ]);
  });

  test('may leave out command and person, or give null', async () => {
    await post('{"name":"line.get","input":{}}');
    await post('{"name":"line.get","input":{},"commandId":null,"personId":null}');
    const nobody = { front: 'browser', device: 'this computer', personId: null, commandId: null };
    expect(front.door.asked.map((asked) => asked.caller)).toEqual([nobody, nobody]);
  });

  test('that the back room refuses comes back as its envelope with status 200', async () => {
    await front.close();
    await open(openFakeDoor({ ok: false, error: { code: 'RULE_BLOCKS', message: 'Not now.', retryable: false } }));
    const answer = await post('{"name":"batch.make","input":{}}');
    expect([answer.status, JSON.parse(answer.text)]).toEqual([200, { ok: false, error: { code: 'RULE_BLOCKS', message: 'Not now.', retryable: false } }]);
  });

  test('under a name nobody knows is left to the back room to refuse', async () => {
    await post('{"name":"no.such","input":null}');
    expect(front.door.asked.map((asked) => asked.name)).toEqual(['no.such']);
  });

  const refused: readonly [string, string, number][] = [
    ['not JSON', '{', 400],
    ['empty', '', 400],
    ['a list', '[]', 400],
    ['without a name', '{"input":{}}', 400],
    ['with an empty name', '{"name":"","input":{}}', 400],
    ['with a number for a name', '{"name":1,"input":{}}', 400],
    ['with a key nobody knows', '{"name":"line.get","input":{},"caller":{"front":"window"}}', 400],
    ['with a number for a person', '{"name":"line.get","input":{},"personId":7}', 400],
  ];
  for (const [what, body, status] of refused) {
    test(`that is ${what} is refused with a sentence and reaches nothing`, async () => {
      const answer = await post(body);
      expect(answer.status).toBe(status);
      expect(JSON.parse(answer.text)).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringMatching(/^[A-Z].*\.$/) } });
      expect(front.door.asked).toEqual([]);
    });
  }

  test('in a form that any page could send is refused', async () => {
    for (const contentType of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', '']) {
      expect((await post('{"name":"line.get","input":{}}', { 'content-type': contentType })).status).toBe(415);
    }
    expect(front.door.asked).toEqual([]);
  });

  test('of up to 2 MB is taken, of more is refused, and the front goes on', async () => {
    const wrapping = JSON.stringify({ name: 'log.read', input: '' }).length;
    const fitting = JSON.stringify({ name: 'log.read', input: 'x'.repeat(2 * MEGABYTE - wrapping) });
    const over = JSON.stringify({ name: 'log.read', input: 'x'.repeat(2 * MEGABYTE - wrapping + 1) });
    expect((await post(fitting)).status).toBe(200);
    const refusal = await post(over);
    expect(refusal.status).toBe(413);
    expect(JSON.parse(refusal.text)).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: 'The request is larger than 2 MB.' } });
    expect((await post('{"name":"line.get","input":{}}')).status).toBe(200);
    expect(front.door.asked.map((asked) => asked.name)).toEqual(['log.read', 'line.get']);
  });

  test('during which the front itself fails is INTERNAL with a reference, and says no more', async () => {
    await front.close();
    await open(openFakeDoor(async () => { throw new Error('secret detail at /people/x'); }));
    const answer = await post('{"name":"line.get","input":{}}');
    expect(answer.status).toBe(500);
    expect(JSON.parse(answer.text)).toMatchObject({ ok: false, error: { code: 'INTERNAL', reference: expect.stringMatching(/^[\da-f-]{36}$/) } });
    expect(answer.text).not.toContain('secret');
    expect(front.faults).toHaveLength(1);
  });

  test('by GET is no request', async () => {
    expect((await front.send({ path: '/request?name=line.get', headers })).status).toBe(404);
    expect(front.door.asked).toEqual([]);
  });
});

describe('a file for the inbox', () => {
  function put(path: string, body: Uint8Array, more: Record<string, string> = {}) {
    return front.send({ method: 'POST', path, headers: { ...headers, 'content-type': 'text/csv', ...more }, body });
  }

  test('goes to the book with its name as given', async () => {
    const answer = await put(`/inbox?name=${encodeURIComponent('Räucherofen 3.csv')}`, Buffer.from('a;b'));
    expect([answer.status, JSON.parse(answer.text)]).toEqual([200, { ok: true, value: { fileId: 'file-1' } }]);
    expect(front.door.taken).toEqual([{ fileName: 'Räucherofen 3.csv', bytes: 3 }]);
  });

  test('may be empty or binary: the book decides about that', async () => {
    await put('/inbox?name=empty.csv', Buffer.alloc(0));
    await put('/inbox?name=binary.csv', Buffer.from([0, 255, 128, 10]));
    expect(front.door.taken).toEqual([{ fileName: 'empty.csv', bytes: 0 }, { fileName: 'binary.csv', bytes: 4 }]);
  });

  test('without a name, or with one of 256 characters, is refused', async () => {
    for (const path of ['/inbox', '/inbox?name=', `/inbox?name=${'x'.repeat(256)}`]) {
      const answer = await put(path, Buffer.from('a'));
      expect([answer.status, JSON.parse(answer.text).error.code]).toEqual([400, 'INVALID_INPUT']);
    }
    expect(front.door.taken).toEqual([]);
  });

  test('of 33 MB is taken, of one byte more is refused with a sentence, and the front goes on', async () => {
    expect((await put('/inbox?name=long.csv', Buffer.alloc(33 * MEGABYTE))).status).toBe(200);
    const refusal = await put('/inbox?name=longer.csv', Buffer.alloc(33 * MEGABYTE + 1));
    expect(refusal.status).toBe(413);
    expect(JSON.parse(refusal.text)).toMatchObject({
      ok: false,
      error: { code: 'INVALID_INPUT', message: 'The file is larger than 32 MB and was not taken.', remedy: expect.stringMatching(/\.$/) },
    });
    expect((await put('/inbox?name=short.csv', Buffer.from('a'))).status).toBe(200);
    expect(front.door.taken.map((taken) => taken.fileName)).toEqual(['long.csv', 'short.csv']);
  });
});

test('a POST to anywhere else is UNKNOWN_REQUEST', async () => {
  const answer = await front.send({ method: 'POST', path: '/elsewhere', headers, body: '{}' });
  expect([answer.status, JSON.parse(answer.text).error.code]).toEqual([404, 'UNKNOWN_REQUEST']);
});
