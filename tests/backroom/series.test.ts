import { describe, expect, it } from 'vitest';
import { decodeSeries } from '../../renderer/chart/decode-series.ts';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, smokeAndCool } from './smoke-kitchen.ts';

describe('a series for a window', () => {
  it('comes whole where it is short, thinned where the pixels are few, and with the one before and after', async () => {
    const smoke = await openSmokeKitchen();
    const { load, inMs } = await smokeAndCool(smoke);
    const thick = pointId(load, 'Thick end');
    const ask = async (fromMs: number, toMs: number, pixels: number) => {
      const [one] = (await smoke.kitchen.ask('series.get', { pointIds: [thick], fromMs, toMs, pixels })).series;
      if (one === undefined) throw new Error('no series');
      return { ...one, drawn: decodeSeries(one.series) };
    };
    const hour = await ask(inMs + 60 * MINUTE_MS, inMs + 120 * MINUTE_MS, 800);
    expect(hour).toMatchObject({ readings: 61, isWhole: true, gapMs: 5 * MINUTE_MS, breaks: [] });
    expect(hour.drawn.atMs).toHaveLength(63);
    expect([hour.drawn.atMs[0], hour.drawn.atMs.at(-1)]).toEqual([inMs + 59 * MINUTE_MS, inMs + 121 * MINUTE_MS]);
    const few = await ask(inMs, inMs + 600 * MINUTE_MS, 20);
    expect(few.isWhole).toBe(false);
    expect(few.readings).toBeGreaterThan(500);
    expect(few.drawn.atMs.length).toBeLessThanOrEqual(82);
    const whole = await ask(inMs, inMs + 600 * MINUTE_MS, 4000);
    expect(Math.max(...few.drawn.ticks)).toBe(Math.max(...whole.drawn.ticks));
  });

  it('breaks the line where the record has a gap', async () => {
    const smoke = await openSmokeKitchen();
    const { load, inMs } = await smokeAndCool(smoke, { leaveOut: (minute) => minute > 100 && minute < 130 });
    const shown = await smoke.kitchen.ask('series.get', { pointIds: [pointId(load, 'Tail')], fromMs: inMs, toMs: inMs + 200 * MINUTE_MS, pixels: 900 });
    expect(shown.series[0]?.breaks).toEqual([101]);
  });

  it('is asked for in whole windows and of points that there are', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const point = pointId(load, 'Tail');
    expect(await refusal(smoke.kitchen.reply('series.get', { pointIds: [point], fromMs: 10, toMs: 10, pixels: 10 }))).toMatchObject({ code: 'INVALID_INPUT', message: 'The window ends before it begins.' });
    expect(await refusal(smoke.kitchen.reply('series.get', { pointIds: ['nothing'], fromMs: 1, toMs: 10, pixels: 10 }))).toMatchObject({ code: 'NOT_FOUND' });
    expect((await smoke.kitchen.ask('series.get', { pointIds: [smoke.freezerId], fromMs: 1, toMs: 10, pixels: 10 })).series[0]?.series.length).toBe(0);
  });
});
