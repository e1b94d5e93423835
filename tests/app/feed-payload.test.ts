import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPath, readPayload, type PathStep } from '../../app/probes/feed-payload.ts';
import { isUnder, readTopic, readTopicFilter } from '../../app/probes/feed-topics.ts';
import { feedWords, type FeedStanding } from '../../app/probes/feed-words.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
function stepsOf(path: string): readonly PathStep[] {
  const steps = readPath(path);
  if (!steps.ok) throw new Error(steps.problem.message);
  return steps.value;
}
function read(payload: string | Uint8Array, path = '', timePath: string | null = null, unit: 'F' | 'C' = 'C') {
  return readPayload(typeof payload === 'string' ? bytesOf(payload) : payload, { path: stepsOf(path), timePath: timePath === null ? null : stepsOf(timePath), unit });
}

describe('a path into a JSON text', () => {
  it.each([
    ['', []], ['$', []], ['t', ['t']], ['$.t', ['t']], ['sensors[0].value', ['sensors', 0, 'value']], ['[1].v', [1, 'v']], ['$[1]', [1]], ['["a.b"].v', ['a.b', 'v']], ['a["x y"]', ['a', 'x y']],
  ])('%s', (path, steps) => expect(readPath(path)).toEqual({ ok: true, value: steps }));
  it.each(['a..b', 'a.', '.', 'a[', 'a[x]', 'a b', '[-1]', 'a[1', `${'x'.repeat(201)}`])('%s is none', (path) => {
    expect(readPath(path).ok).toBe(false);
  });
});

describe('a message', () => {
  it.each([['62.8', '62.8'], [' 62.80\n', '62.80'], ['-18.5', '-18.5'], ['62,8', '62.8'], ['62.8 °C', '62.8'], ['\uFEFF62.8', '62.8'], ['6.28e1', '6.28e1']])('of the number %j alone keeps its text', (payload, text) => {
    expect(read(payload).value).toMatchObject({ kind: 'temperature', text });
  });
  it('of JSON keeps the number as it was written', () => {
    expect(read('{"t":1784005870,"v":62.80,"u":"Cel"}', 'v', 't')).toEqual({ value: { kind: 'temperature', text: '62.80', unit: 'C', lowTicks: 565_200, highTicks: 565_200 }, atMs: 1_784_005_870_000, timeFault: null });
    expect(read('{"sensors":[{"value":"61.9"},{"value":145.05}]}', 'sensors[1].value', null, 'F').value).toMatchObject({ text: '145.05', lowTicks: 565_250 });
    expect(read('[{"n":"urn:dev:ow:10e2073a01080063","u":"Cel","v":23.1}]', '[0].v').value).toMatchObject({ text: '23.1' });
    expect(read('{"sensors":[{"value":" 61.9 "}]}', 'sensors[0].value').value).toMatchObject({ text: '61.9' });
  });
  it.each([
    ['', 'empty'], ['NaN', '“NaN”'], ['---', '“---”'], ['hello', '“hello”'], ['62.8 °F', '“62.8 °F”, in the other unit'], ['1e9', '1e9'], ['-127', '-127'], ['9999', '9999'], ['{"v":62.8}', '“{"v":62.8}”'], ['Infinity', '“Infinity”'],
  ])('of %j alone is no temperature', (payload, why) => expect(read(payload).value).toEqual({ kind: 'missing', why }));
  it.each([
    ['{"v":null}', 'null'], ['{"v":true}', 'not a number'], ['{"v":{}}', 'not a number'], ['{"w":1}', 'nothing there in “{"w":1}”'], ['62.8', 'nothing there in “62.8”'], ['{"v":', 'nothing there in “{"v":”'],
    ['{"__proto__":{"v":5}}', 'nothing there in “{"__proto__":{"v":5}}”'], ['{"v":1e400}', '1e400'], ['{"v":"OL"}', '“OL”'],
  ])('of %s has no temperature at v', (payload, why) => expect(read(payload, 'v').value).toEqual({ kind: 'missing', why: expect.stringContaining(why) }));
  it('of bytes that are no text, or too many, is no temperature', () => {
    expect(read(Uint8Array.of(0xff, 0xfe, 0x31)).value).toEqual({ kind: 'missing', why: 'bytes that are no text' });
    expect(read(new Uint8Array(70_000).fill(0x31)).value).toEqual({ kind: 'missing', why: 'a message of 70000 bytes' });
  });
  it('nested without end is no temperature', () => {
    expect(read(`${'['.repeat(60_000)}`, 'v').value.kind).toBe('missing');
    expect(read(`${'['.repeat(30_000)}1${']'.repeat(30_000)}`, 'v').value.kind).toBe('missing');
  });
  it('whatever it is, is read to the end', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), fc.json(), (bytes, json) => {
      for (const payload of [bytes, bytesOf(json)]) {
        for (const path of ['', 'v', '[0].v']) {
          const { value } = read(payload, path, 't');
          expect(value.kind === 'missing' ? value.why.length : value.text.length).toBeGreaterThan(0);
        }
      }
    }));
  });
});

describe('the time in a message', () => {
  const at = (time: string) => read(`{"v":1.5,"t":${time}}`, 'v', 't');
  it.each([
    ['1784005870', 1_784_005_870_000], ['1784005870.25', 1_784_005_870_250], ['1784005870250', 1_784_005_870_250], ['"2026-07-14T05:11:10Z"', 1_784_005_870_000],
    ['"2026-07-14T07:11:10+02:00"', 1_784_005_870_000], ['"2026-07-14 05:11:10.250Z"', 1_784_005_870_250], ['"1784005870"', 1_784_005_870_000],
  ])('%s is an instant', (time, atMs) => expect(at(time)).toMatchObject({ atMs, timeFault: null }));
  it.each(['"2026-07-14T05:11:10"', '"2026-02-30T05:11:10Z"', '"yesterday"', 'null', 'true', '-5', '0', '1e30', '""'])('%s is none, and that is said', (time) => {
    const { value, atMs, timeFault } = at(time);
    expect(value.kind).toBe('temperature');
    expect(atMs).toBeNull();
    expect(timeFault).toMatch(/^it(?:s time is| has no time)/);
  });
  it('is not asked for where none is named', () => expect(read('{"v":1.5}', 'v')).toMatchObject({ atMs: null, timeFault: null }));
});

describe('topics', () => {
  it.each([['lodge/smoker/1', 'lodge/smoker/1', true], ['lodge/smoker/1', 'lodge/+/1', true], ['lodge/smoker/1', 'lodge/#', true], ['lodge', 'lodge/#', true], ['lodge/smoker/1', '#', true], ['lodge/smoker/1', 'lodge/+', false], ['lodge/smoker', 'lodge/smoker/1', false], ['$SYS/load', '#', false], ['$SYS/load', '$SYS/#', true], ['Lodge/1', 'lodge/1', false], ['a/b/c', 'a/b', false]])('%s under %s: %s', (topic, filter, expected) => {
    expect(isUnder(topic, filter)).toBe(expected);
  });
  it.each(['a+/b', 'a/+b', 'a/b#', 'a/#/b', '#/a', '', `${'x'.repeat(301)}`, 'a\0b'])('“%s” is no filter', (filter) => expect(readTopicFilter(filter).ok).toBe(false));
  it.each(['#', '+', 'a/+/b', 'a/#', '+/+/#', '/a', 'a b/c'])('“%s” is a filter', (filter) => expect(readTopicFilter(filter)).toEqual({ ok: true, value: filter }));
  it('of one thermometer have no wildcard', () => expect(readTopic('a/+')).toMatchObject({ ok: false, problem: { message: '“a/+” has a wildcard; a thermometer has a topic of its own.' } }));
});

describe('how a feed stands', () => {
  const base: FeedStanding = { kind: 'modbus', link: { state: 'connected' }, lastMs: 50_000, silentAfterMs: 5000, missing: [], notKept: null, nowMs: 52_000 };
  const clock = (atMs: number) => `14:00:${String(atMs / 1000).padStart(2, '0')}`;
  const register = { where: 'register 40012', why: '32767' };
  it.each<[Partial<FeedStanding>, string]>([
    [{}, 'Receiving: last value 14:00:50.'],
    [{ missing: [register] }, 'Receiving: last value 14:00:50. But register 40012 holds no temperature (32767).'],
    [{ lastMs: null, missing: [register] }, 'The device answers, but register 40012 holds no temperature (32767).'],
    [{ lastMs: null }, 'The device answers; no temperature has come yet.'],
    [{ kind: 'mqtt', nowMs: 56_000 }, 'The broker answers, but no temperature has come since 14:00:50.'],
    [{ link: { state: 'lost', why: 'the connection was refused', heardMs: 20_000, againMs: 30_000 } }, 'No answer since 14:00:20 (trying again every 30 s): the connection was refused.'],
    [{ link: { state: 'lost', why: 'nothing answers at this address', heardMs: null, againMs: 1000 } }, 'No answer yet (trying again every 1 s): nothing answers at this address.'],
    [{ link: { state: 'off' } }, 'Switched off.'],
    [{ link: { state: 'connecting' } }, 'Connecting …'],
    [{ link: { state: 'needs-password' } }, 'Waits for its password, which is asked again after each start.'],
    [{ link: { state: 'not-here' } }, 'Feeds run while Alderbook is open in its window or browser.'],
    [{ notKept: 'The disk is full.' }, 'Receiving: last value 14:00:50. It can’t be kept: The disk is full.'],
  ])('is said for %j', (change, words) => expect(feedWords({ ...base, ...change }, clock)).toBe(words));
});
