import { describe, expect, it } from 'vitest';
import type { JudgeCase, MeasuredPoint } from '../../app/limits/judge-case.ts';
import { batchOf, judgeAlone, minutes, readingsF } from '../support/judge-cases.ts';
import type { Points } from '../support/judged-log.ts';

const HOUR = 60;
const FROZEN: Partial<JudgeCase> = { pack: 'vacuum', store: 'frozen' };
const CHILLED: Partial<JudgeCase> = { pack: 'vacuum', store: 'refrigerated' };

function stored(points: Points): MeasuredPoint[] {
  return [{ name: 'Freezer', role: 'store', readings: readingsF(points) }];
}

describe('a store record whose start is known', () => {
  it('has a gap from the moment the fish was frozen to the first reading after it', () => {
    const holed: Points = [[0, -5], [100 * HOUR, -5], [120 * HOUR, -5]];
    expect(judgeAlone('FROZEN-0F', batchOf(stored(holed), { ...FROZEN, frozenMs: minutes(12 * HOUR), chilledMs: minutes(12 * HOUR) })).verdict).toBe('not-proven');
    const daily: Points = [[0, -5], [36 * HOUR, -5], [60 * HOUR, -5]];
    expect(judgeAlone('FROZEN-0F', batchOf(stored(daily), { ...FROZEN, chilledMs: minutes(12 * HOUR) })).verdict).toBe('meets');
    const late: Points = [[0, -5], [36 * HOUR + 1, -5], [60 * HOUR, -5]];
    expect(judgeAlone('FROZEN-0F', batchOf(stored(late), { ...FROZEN, chilledMs: minutes(12 * HOUR) })).verdict).toBe('not-proven');
  });

  it('proves nothing, for or against, by readings that all lie before that start', () => {
    const before = { ...CHILLED, chilledMs: minutes(10 * HOUR) };
    expect(judgeAlone('STORE-38', batchOf(stored([[0, 36], [60, 36], [120, 36]]), before)).verdict).toBe('not-proven');
    expect(judgeAlone('STORE-38', batchOf(stored([[0, 50], [60, 50], [120, 50]]), before)).verdict).toBe('not-proven');
  });

  it('names the hole and shows what lies before the start as not judged', () => {
    const found = judgeAlone('STORE-38', batchOf(stored([[0, 50], [600, 36], [660, 36]]), { ...CHILLED, chilledMs: minutes(120) }));
    expect(found.verdict).toBe('not-proven');
    expect(found.reason).toContain('no reading from minute 120 to minute 600');
    expect(found.spans.filter((span) => !span.counts).map((span) => [span.fromMs, span.toMs])).toContainEqual([minutes(120), minutes(600)]);
  });

  it('runs, where that start is not known, from the first reading at or below the limit, and shows what lies before, read or not', () => {
    const store: Partial<JudgeCase> = { ...CHILLED };
    const batch = (points: Points) => {
      const closed = batchOf(stored(points), store);
      return { ...closed, records: { ...closed.records, store: { inMs: 0, open: false } } };
    };
    for (const points of [[[600, 37], [660, 37]], [[5, 50], [600, 37], [660, 37]]] as Points[]) {
      const found = judgeAlone('STORE-38', batch(points));
      expect(found.verdict).toBe('meets');
      expect(found.spans[0]).toMatchObject({ fromMs: 0, toMs: minutes(600), counts: false });
    }
    expect(judgeAlone('STORE-38', batch([[600, 37], [660, 37], [800, 37]])).verdict).toBe('not-proven');
  });

  it('still counts every reading where the fish was chilled before the record began', () => {
    const early = { ...CHILLED, chilledMs: minutes(-100) };
    expect(judgeAlone('STORE-38', batchOf(stored([[0, 50], [60, 36], [120, 36]]), early)).verdict).toBe('misses');
    expect(judgeAlone('STORE-38', batchOf(stored([[0, 36], [60, 36], [120, 36]]), early)).verdict).toBe('meets');
  });
});

describe('fish frozen before it is sealed', () => {
  const base = { ...FROZEN, frozenMs: minutes(100), sealedMs: minutes(500) };

  it('is not shown to be frozen at the sealing where it had been taken out of the freezer before', () => {
    expect(judgeAlone('ROP-FROZEN-FC', batchOf([], base)).verdict).toBe('meets');
    expect(judgeAlone('ROP-FROZEN-FC', batchOf([], { ...base, thawedMs: minutes(400) })).verdict).toBe('not-proven');
    expect(judgeAlone('ROP-FROZEN-FC', batchOf([], { ...base, thawedMs: minutes(600) })).verdict).toBe('meets');
  });
});
