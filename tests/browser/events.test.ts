import type { IncomingMessage } from 'node:http';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openFakeDoor } from './fake-door.ts';
import { openFront } from './open-front.ts';
import type { OpenedFront } from './open-front.ts';
import { openRaw } from './raw-request.ts';

let front: OpenedFront;
let cookie: string;
beforeEach(async () => {
  front = await openFront();
  ({ cookie } = await front.enter());
});
afterEach(() => front.close());

interface Heard {
  readonly id: string;
  readonly data: unknown;
}

/** A page's end of the stream: events as `EventSource` would tell them, and the last id it would return with. */
class Listening {
  readonly heard: Heard[] = [];
  lastEventId = '';
  #text = '';
  readonly #answer: IncomingMessage;

  constructor(answer: IncomingMessage) {
    this.#answer = answer;
    answer.on('data', (part: Buffer) => this.#read(part.toString()));
    answer.on('error', () => undefined);
  }

  #read(text: string): void {
    const blocks = (this.#text + text).split('\n\n');
    this.#text = blocks.pop() ?? '';
    for (const block of blocks) {
      const fields = new Map(block.split('\n').map((line): [string, string] => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 2)]));
      this.lastEventId = fields.get('id') ?? this.lastEventId;
      const data = fields.get('data');
      if (data !== undefined) this.heard.push({ id: this.lastEventId, data: JSON.parse(data) });
    }
  }

  async waitFor(count: number): Promise<unknown[]> {
    for (let tries = 0; tries < 100 && this.heard.length < count; tries += 1) await wait(10);
    return this.heard.map(({ data }) => data);
  }

  leave(): void {
    this.#answer.destroy();
  }
}

async function listen(lastEventId?: string): Promise<Listening> {
  const headers = { cookie, ...(lastEventId === undefined ? {} : { 'last-event-id': lastEventId }) };
  const answer = await openRaw({ port: front.port, path: '/events', headers });
  expect([answer.statusCode, answer.headers['content-type'], answer.headers['cache-control']]).toEqual([200, 'text/event-stream; charset=utf-8', 'no-store']);
  const listening = new Listening(answer);
  for (let tries = 0; tries < 100 && front.door.listeners.size === 0; tries += 1) await wait(5);
  await wait(20);
  return listening;
}

function event(seq: number) {
  return { seq, subject: 'fish', ids: [`lot-${seq}`] };
}
function announce(count: number, from = 0): void {
  for (let seq = from; seq < from + count; seq += 1) front.door.announce('fish', [`lot-${seq}`]);
}

describe('the stream of events', () => {
  test('tells every page each event as it happens', async () => {
    const [one, other] = [await listen(), await listen()];
    announce(2);
    expect(await one.waitFor(2)).toEqual([event(0), event(1)]);
    expect(await other.waitFor(2)).toEqual([event(0), event(1)]);
  });

  test('tells a new page what happened in this run before it came', async () => {
    announce(2);
    const page = await listen();
    expect(await page.waitFor(2)).toEqual([event(0), event(1)]);
  });

  test('tells a new page to ask again when that is too long ago', async () => {
    announce(5);
    const page = await listen();
    expect(await page.waitFor(1)).toEqual([{ resync: true, seq: 4 }]);
  });

  test('catches up a page that was away', async () => {
    const page = await listen();
    announce(1);
    await page.waitFor(1);
    page.leave();
    announce(2, 1);
    const back = await listen(page.lastEventId);
    announce(1, 3);
    expect(await back.waitFor(3)).toEqual([event(1), event(2), event(3)]);
  });

  test('catches up a page that left before it heard anything', async () => {
    const page = await listen();
    expect(page.lastEventId).not.toBe('');
    page.leave();
    announce(1);
    const back = await listen(page.lastEventId);
    expect(await back.waitFor(1)).toEqual([event(0)]);
  });

  test('tells a page nothing twice when nothing happened while it was away', async () => {
    const page = await listen();
    announce(1);
    await page.waitFor(1);
    page.leave();
    const back = await listen(page.lastEventId);
    await wait(50);
    expect(back.heard).toEqual([]);
    announce(1, 1);
    expect(await back.waitFor(1)).toEqual([event(1)]);
  });

  test('tells a page that was away too long to ask again, once, and goes on from there', async () => {
    const page = await listen();
    announce(1);
    await page.waitFor(1);
    page.leave();
    announce(6, 1);
    const back = await listen(page.lastEventId);
    announce(1, 7);
    expect(await back.waitFor(2)).toEqual([{ resync: true, seq: 6 }, event(7)]);
    back.leave();
    announce(1, 8);
    expect(await (await listen(back.lastEventId)).waitFor(1)).toEqual([event(8)]);
  });

  for (const stale of ['0123456789ab:0', 'nonsense', ':', '-1', '0', 'x:99999']) {
    test(`tells a page that returns with ${stale} to ask again`, async () => {
      announce(1);
      const page = await listen(stale);
      expect(await page.waitFor(1)).toEqual([{ resync: true, seq: 0 }]);
    });
  }

  test('tells a page that returns from the future of this run to ask again', async () => {
    const page = await listen();
    announce(1);
    await page.waitFor(1);
    const run = page.lastEventId.split(':')[0];
    for (const seq of ['7', '1.5', '-2', '', 'x']) {
      expect(await (await listen(`${run}:${seq}`)).waitFor(1)).toEqual([{ resync: true, seq: 0 }]);
    }
  });

  test('forgets a page that left', async () => {
    const page = await listen();
    page.leave();
    await wait(30);
    announce(1);
    expect(front.faults).toEqual([]);
  });
});

test('closing the front ends open streams and frees the port at once', async () => {
  const door = openFakeDoor();
  const own = await openFront({ door });
  const entered = await own.enter();
  const answer = await openRaw({ port: own.port, path: '/events', headers: entered });
  const ended = new Promise<void>((resolve) => { answer.on('close', () => resolve()); answer.resume(); });
  const beganMs = performance.now();
  await own.close();
  await ended;
  expect(performance.now() - beganMs).toBeLessThan(1500);
  expect(door.listeners.size).toBe(0);
  await expect(openRaw({ port: own.port })).rejects.toThrow('ECONNREFUSED');
});

test('closing the front lets an answer under way leave', async () => {
  const held = Promise.withResolvers<void>();
  const own = await openFront({ door: openFakeDoor(async () => { await held.promise; return { ok: true, value: 'kept' }; }) });
  const entered = await own.enter();
  const answer = own.send({
    method: 'POST', path: '/request', body: '{"name":"line.get","input":{}}',
    headers: { ...entered, origin: `http://127.0.0.1:${own.port}`, 'content-type': 'application/json' },
  });
  while (own.door.asked.length === 0) await wait(5);
  const closing = own.close();
  held.resolve();
  expect(JSON.parse((await answer).text)).toEqual({ ok: true, value: 'kept' });
  await closing;
});
