import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId } from './smoke-kitchen.ts';

/** A load that is in, and a way to type a round of it. */
async function typing() {
  const smoke = await openSmokeKitchen();
  const { kitchen } = smoke;
  const load = await openLoad(smoke);
  await kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: smoke.readyMs });
  kitchen.clock.advance(60 * MINUTE_MS);
  const minuteMs = Math.floor(kitchen.clock.nowMs() / MINUTE_MS) * MINUTE_MS;
  const type = (figures: Readonly<Record<string, string>>, second = 0, more: { instrumentId?: string; how?: 'by-hand' | 'copied-from-paper'; as?: string } = {}) => kitchen.ask('readings.enter', {
    how: more.how ?? 'by-hand', readings: Object.entries(figures).map(([name, text]) => ({ pointId: pointId(load, name), atMs: minuteMs + second * 1000, value: { text, unit: 'F' as const }, instrumentId: more.instrumentId ?? smoke.handId })),
  }, more.as ?? 'CH');
  const count = async (name: string) => (await kitchen.ask('load.get', { loadId: load.id })).series.find((one) => one.pointId === pointId(load, name))?.readings;
  const entries = async () => (await kitchen.ask('record.batch', { batchId: smoke.batchId })).entries.length;
  return { smoke, load, type, count, entries };
}

describe('one round typed twice', () => {
  it('is in the book once, whoever types it and at whichever second, and the second is told', async () => {
    const { type, count, entries } = await typing();
    expect(await type({ Tail: '101', 'Thick end': '99.5' }, 5)).toEqual({ kept: 2 });
    const before = await entries();
    expect(await type({ Tail: '101', 'Thick end': '99.5' }, 40, { as: 'HA' })).toEqual({ kept: 0, already: 2 });
    expect([await count('Tail'), await count('Thick end'), await entries()]).toEqual([1, 1, before]);
    expect(await type({ Tail: '101', 'Centre cut': '100' }, 59, { how: 'copied-from-paper' })).toEqual({ kept: 1, already: 1 });
    expect(await type({ Tail: '101' }, 64)).toEqual({ kept: 0, already: 1 });
    expect(await type({ Tail: '101' }, 65)).toEqual({ kept: 1 });
  });

  it('keeps both where the figures differ, says so, and never takes one thermometer for another', async () => {
    const { smoke, load, type, count } = await typing();
    await type({ Tail: '101' });
    expect(await type({ Tail: '100.5' }, 20)).toEqual({ kept: 1, beside: [{ pointId: pointId(load, 'Tail'), text: '101', unit: 'F' }] });
    expect(await count('Tail')).toBe(2);
    expect(await type({ Tail: '101' }, 30, { instrumentId: smoke.probeIds[2] ?? '' })).toEqual({ kept: 1 });
    expect(await count('Tail')).toBe(3);
  });
});
