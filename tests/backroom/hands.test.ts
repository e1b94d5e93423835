import { afterAll, describe, expect, it, onTestFinished } from 'vitest';
import { type Hands, handsInProcess, handsInThread } from '../../main/backroom/hands/hands.ts';

const HAND = new URL('../../main/backroom/hands/hand.ts', import.meta.url);
const log = new TextEncoder().encode('Time,Probe 1 (°F)\n2026-11-25 08:00,140\n2026-11-25 08:01,141.5\n');
const options = { fileName: 'log.csv', timeZone: 'America/Chicago', answers: {} };

function openHands(hands: Hands): Hands {
  onTestFinished(() => hands.close());
  return hands;
}

describe.each([
  ['in a thread of their own', () => handsInThread(HAND)],
  ['in the asking thread', () => handsInProcess()],
])('helpers %s', (_where, make) => {
  const hands = make();
  afterAll(() => hands.close());

  it('read a logger’s file', async () => {
    const read = await hands.run('readColumns', log, options);
    if (!read.ok) throw new Error(read.problem.message);
    expect(read.value.places.map(({ name, columns: { unit, atMs, lowTicks } }) => ({ unit, name, atMs: [...atMs], lowTicks: [...lowTicks] }))).toEqual([
      { name: expect.stringContaining('Probe 1'), unit: 'F', atMs: [Date.UTC(2026, 10, 25, 14), Date.UTC(2026, 10, 25, 14, 1)], lowTicks: [540_000, 547_500] },
    ]);
  });
  it('say in a sentence what is wrong with a file', async () => {
    const read = await hands.run('readColumns', new Uint8Array(), options);
    expect(read).toMatchObject({ ok: false, problem: { message: expect.stringContaining('log.csv') } });
  });
  it('judge a record, and refuse one with its field named', async () => {
    const record = { process: 'hot', readings: { unit: 'F', places: [{ name: 'a', role: 'piece', points: [[0, 146], [30, 146]] }] }, maxGapMinutes: 30 } as const;
    const places = record.readings.places.map((place) => ({ ...place, points: place.points.map(([minute, value]): [number, number] => [minute, value]) }));
    const input = { ...record, readings: { ...record.readings, places } };
    expect(await hands.run('judgeLog', { ...input, checkIds: ['HOT-145-30'] })).toMatchObject({ ok: true, value: { verdict: 'meets' } });
    expect(await hands.run('judgeLog', { ...input, setId: 'nowhere' })).toMatchObject({ ok: false, failure: { code: 'INVALID_INPUT', fields: [{ path: ['setId'] }] } });
  });
  it('do several tasks at once, each with its own answer', async () => {
    const other = new TextEncoder().encode('Time,Core (°C)\n2026-11-25 08:00,60\n');
    const [first, second] = await Promise.all([hands.run('readColumns', log, options), hands.run('readColumns', other, options)]);
    expect([first, second].map((read) => (read.ok ? read.value.places[0]?.columns.atMs.length : 0))).toEqual([2, 1]);
  });
});

describe('a helper thread', () => {
  it('that dies fails its open tasks, and the next task gets a new one', async () => {
    const hands = openHands(handsInThread(new URL('../support/dying-hand.ts', import.meta.url)));
    expect(await hands.run('readColumns', Uint8Array.of(1, 2, 3), options)).toBe(3);
    await expect(hands.run('readColumns', Uint8Array.of(0), options)).rejects.toThrow('A helper thread ended with code 9.');
    expect(await hands.run('readColumns', Uint8Array.of(1, 2), options)).toBe(2);
  });
  it('that can’t be given its input fails that task alone', async () => {
    const hands = openHands(handsInThread(HAND));
    const unsendable = { ...options, answers: { unit: (() => 'F') as unknown as string } };
    await expect(hands.run('readColumns', log, unsendable)).rejects.toThrow('could not be cloned');
    expect((await hands.run('readColumns', log, options)).ok).toBe(true);
  });
  it('fails what is open when the program closes', async () => {
    const hands = handsInThread(HAND);
    const open = hands.run('readColumns', log, options);
    await Promise.all([expect(open).rejects.toThrow('The program is closing.'), hands.close()]);
  });
});
