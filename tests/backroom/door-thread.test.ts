import { describe, expect, it, onTestFinished } from 'vitest';
import { openAnnouncements } from '../../main/backroom/announcements.ts';
import { type Door, type Heard, type LogLine, openDoor } from '../../main/backroom/door.ts';
import { callerOf } from '../support/small-room.ts';

interface WatchedDoor {
  readonly door: Door;
  readonly heard: Heard[];
  readonly lines: LogLine[];
  readonly stopped: string[];
}

function openDying(): WatchedDoor {
  const heard: Heard[] = [];
  const lines: LogLine[] = [];
  const stopped: string[] = [];
  const door = openDoor({
    workerFile: new URL('../support/dying-thread.ts', import.meta.url),
    handFile: null, bookFile: null, dataFolder: null, demo: false, version: 'test',
    log: (line) => lines.push(line),
    onStopped: (message) => stopped.push(message),
  });
  door.subscribe((event) => heard.push(event));
  onTestFinished(() => door.close());
  return { door, heard, lines, stopped };
}

describe('the back room’s thread', () => {
  it('answers each request under its own number', async () => {
    const { door } = openDying();
    const silent = door.ask('silence', {}, callerOf(null));
    expect(await door.ask('anything', {}, callerOf(null))).toEqual({ ok: true, value: 'ask' });
    expect(await door.takeFile('a.csv', Uint8Array.of(1))).toEqual({ ok: true, value: 'take' });
    await door.ask('die', {}, callerOf(null));
    expect((await silent).ok).toBe(false);
  });
  it('is given a file’s bytes where they are all that lies in their memory, and else a copy', async () => {
    const { door } = openDying();
    const whole = Uint8Array.of(1, 2, 3);
    const part = new Uint8Array(8).fill(7).subarray(2, 5);
    for (const bytes of [whole, part]) expect((await door.takeFile('a.csv', bytes)).ok).toBe(true);
    expect([whole.byteLength, [...part]]).toEqual([0, [7, 7, 7]]);
  });
  it('that is asked for a text and dies fails with a text', async () => {
    const { door } = openDying();
    const texts = [door.askText('silence', {}, callerOf(null)), door.askText('anything', {}, callerOf(null))];
    expect(new TextDecoder().decode(await texts[1])).toBe('{"ok":true,"value":"ask-text"}');
    await door.ask('die', {}, callerOf(null));
    expect(JSON.parse(new TextDecoder().decode(await texts[0]))).toMatchObject({ ok: false, error: { code: 'INTERNAL', retryable: true } });
  });
  it('tells of changes, numbered from 0', async () => {
    const { door, heard } = openDying();
    await door.ask('change', {}, callerOf(null));
    await door.ask('change', {}, callerOf(null));
    expect(heard).toEqual([{ seq: 0, subject: 'batch', ids: ['b-1'] }, { seq: 1, subject: 'batch', ids: ['b-1'] }]);
    expect(door.eventsSince(0)).toEqual([{ seq: 1, subject: 'batch', ids: ['b-1'] }]);
  });
  it.each(['die', 'throw'])('that dies (%s) fails what was asked, with a reference, and is started once more', async (how) => {
    const { door, heard, lines, stopped } = openDying();
    const open = [door.ask('silence', {}, callerOf(null)), door.ask(how, {}, callerOf(null))];
    for (const reply of await Promise.all(open)) {
      expect(reply).toMatchObject({ ok: false, error: { code: 'INTERNAL', retryable: true, reference: expect.stringMatching(/^[0-9a-f-]{36}$/) } });
    }
    expect(lines.some((line) => line.outcome === 'died')).toBe(true);
    expect(heard).toEqual([{ resync: true, seq: 0 }]);
    expect(await door.ask('anything', {}, callerOf(null))).toEqual({ ok: true, value: 'ask' });
    expect(stopped).toEqual([]);
  });
  it('that dies twice within a minute stays down, says so once, and answers every request', async () => {
    const { door, stopped } = openDying();
    await door.ask('die', {}, callerOf(null));
    await door.ask('die', {}, callerOf(null));
    expect(stopped).toEqual(['Alderbook’s back room has stopped twice within a minute. Close Alderbook and start it again; everything that was answered is in the book.']);
    expect(await door.ask('anything', {}, callerOf(null))).toMatchObject({ ok: false, error: { code: 'INTERNAL' } });
    expect(stopped).toHaveLength(1);
  });
  it('refuses what can’t be sent to it', async () => {
    const { door } = openDying();
    expect(await door.ask('anything', { now: () => 1 }, callerOf(null))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: 'The input holds something that can’t be sent.' } });
  });
  it('closes once and answers nothing more', async () => {
    const { door, stopped } = openDying();
    await door.close();
    await door.close();
    expect(await door.ask('anything', {}, callerOf(null))).toMatchObject({ ok: false, error: { code: 'INTERNAL' } });
    expect(stopped).toEqual([]);
  });
});

describe('events remembered for a front that was away', () => {
  it('are given one by one', () => {
    const events = openAnnouncements();
    for (const id of ['a', 'b', 'c']) events.announce('batch', [id]);
    expect(events.since(0)).toEqual([{ seq: 1, subject: 'batch', ids: ['b'] }, { seq: 2, subject: 'batch', ids: ['c'] }]);
    expect(events.since(2)).toEqual([]);
    expect(events.since(-1)).toHaveLength(3);
  });
  it('are forgotten after five hundred, and then everything is asked again', () => {
    const events = openAnnouncements();
    for (let number = 0; number < 502; number += 1) events.announce('batch', []);
    expect(events.since(1)).toHaveLength(500);
    expect(events.since(0)).toEqual({ resync: true, seq: 501 });
  });
  it('of another run, or after a restart, are asked again', () => {
    const events = openAnnouncements();
    events.announce('batch', []);
    expect(events.since(7)).toEqual({ resync: true, seq: 0 });
    expect(events.since(0.5)).toEqual({ resync: true, seq: 0 });
    events.restart();
    expect(events.since(0)).toEqual({ resync: true, seq: 1 });
    expect(events.since(1)).toEqual([]);
  });
  it('are no longer told to one that left', () => {
    const events = openAnnouncements();
    const heard: Heard[] = [];
    const leave = events.subscribe((event) => heard.push(event));
    events.announce('batch', []);
    leave();
    events.announce('batch', []);
    expect(heard).toHaveLength(1);
  });
});
