import { describe, expect, it } from 'vitest';
import { openPace, type Pace } from '../../renderer/bridge/pace.ts';
import { isTouched } from '../../renderer/bridge/touched-questions.ts';

interface Watched {
  readonly pace: Pace;
  /** When each question was asked. */
  readonly asked: [string, number][];
  /** Lets time pass, answering what is due meanwhile. */
  pass(ms: number): Promise<void>;
}

/** @param answerMs how long an answer takes */
function watch(answerMs = 10): Watched {
  let nowMs = 0;
  let due: { atMs: number; call: () => void }[] = [];
  const asked: [string, number][] = [];
  const after = (ms: number, call: () => void): (() => void) => {
    const one = { atMs: nowMs + ms, call };
    due.push(one);
    return () => { due = due.filter((other) => other !== one); };
  };
  const pace = openPace((key) => new Promise((resolve) => {
    asked.push([key, nowMs]);
    after(answerMs, resolve);
  }), { nowMs: () => nowMs, after });
  return {
    pace, asked,
    async pass(ms) {
      const untilMs = nowMs + ms;
      for (;;) {
        await new Promise((resolve) => { setImmediate(resolve); });
        const next = due.toSorted((left, right) => left.atMs - right.atMs).find(({ atMs }) => atMs <= untilMs);
        if (next === undefined) break;
        due = due.filter((other) => other !== next);
        nowMs = next.atMs;
        next.call();
      }
      nowMs = untilMs;
    },
  };
}

describe('A question that the book touches', () => {
  it('is asked again at once, and a few times more at once', async () => {
    const { pace, asked, pass } = watch();
    for (let time = 0; time < 3; time += 1) {
      pace.touch('load');
      await pass(100);
    }
    expect(asked).toEqual([['load', 0], ['load', 100], ['load', 200]]);
  });
  it('is asked about once a second while it is touched without end, and never misses the last change', async () => {
    const { pace, asked, pass } = watch();
    for (let time = 0; time < 200; time += 1) {
      pace.touch('load');
      await pass(50);
    }
    expect(asked.length).toBeGreaterThanOrEqual(11);
    expect(asked.length).toBeLessThanOrEqual(14);
    await pass(2000);
    expect(asked.at(-1)?.[1]).toBeGreaterThanOrEqual(199 * 50);
  });
  it('is never asked twice at the same time, and one that takes long is asked more seldom', async () => {
    const { pace, asked, pass } = watch(2000);
    for (let time = 0; time < 600; time += 1) {
      pace.touch('verdict');
      await pass(100);
    }
    const steps = asked.slice(1).map(([, atMs], index) => atMs - (asked[index]?.[1] ?? 0));
    expect(Math.min(...steps)).toBeGreaterThanOrEqual(2000);
    expect(asked.length).toBeLessThanOrEqual(13);
  });
  it('is asked once more where it was touched while it was being asked', async () => {
    const { pace, asked, pass } = watch(500);
    pace.touch('load');
    await pass(100);
    pace.touch('load');
    await pass(5000);
    expect(asked).toEqual([['load', 0], ['load', 500]]);
  });
  it('does not wait for another', async () => {
    const { pace, asked, pass } = watch(5000);
    pace.touch('verdict');
    await pass(10);
    pace.touch('series');
    await pass(10);
    expect(asked).toEqual([['verdict', 0], ['series', 10]]);
  });
  it('is left alone once the page stops listening', async () => {
    const { pace, asked, pass } = watch();
    for (let time = 0; time < 6; time += 1) {
      pace.touch('load');
      await pass(20);
    }
    pace.stop();
    const before = asked.length;
    await pass(10_000);
    expect(asked.length).toBe(before);
  });
  it('is left alone then also where it was touched while it was being asked', async () => {
    const { pace, asked, pass } = watch(500);
    pace.touch('load');
    await pass(100);
    pace.touch('load');
    pace.stop();
    await pass(10_000);
    expect(asked).toEqual([['load', 0]]);
  });
});

describe('A change of the book', () => {
  const readings = { seq: 1, subject: 'readings', ids: ['p-1'] } as const;
  it.each([
    ['new readings touch a chart of that point', ['series.get', { pointIds: ['p-2', 'p-1'] }], readings, true],
    ['new readings touch no chart of other points', ['series.get', { pointIds: ['p-2'] }], readings, false],
    ['new readings touch a load', ['load.get', { loadId: 'l-1' }], readings, true],
    ['new readings touch a verdict', ['batch.verdict', { batchId: 'b-1' }], readings, true],
    ['new readings leave the recipes alone', ['recipe.list', {}], readings, false],
    ['a new recipe touches the recipes', ['recipe.list', {}], { seq: 1, subject: 'recipes', ids: [] } as const, true],
    ['a feed touches the feeds', ['feed.list', {}], { seq: 1, subject: 'feeds', ids: [] } as const, true],
    ['a feed touches nothing else', ['load.get', { loadId: 'l-1' }], { seq: 1, subject: 'feeds', ids: [] } as const, false],
    ['what is not known touches everything', ['recipe.list', {}], null, true],
  ])('%s', (_title, question, event, touched) => {
    expect(isTouched(question, event)).toBe(touched);
  });
});
