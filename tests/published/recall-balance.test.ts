import { describe, expect, it } from 'vitest';
import { balanceRecall, type RecallPack } from '../../app/packs/recall-balance.ts';
import { RECALL_LIMITS, standOf } from '../../app/packs/recall-limits.ts';
import { yieldAmong } from '../../app/packs/recall-yield.ts';

function packs(counts: Readonly<Partial<Record<Exclude<RecallPack['where'], null> | 'open', number>>>): RecallPack[] {
  return Object.entries(counts).flatMap(([where, count]) => Array.from({ length: count }, (): RecallPack => ({ grams: 340, where: where === 'open' ? null : (where as RecallPack['where']) })));
}

describe('the mass balance of a recall: what is found against what was made (computed)', () => {
  it('of 48 packs, 20 in store, 24 shipped, 3 served and 1 destroyed, is 100 % and passes', () => {
    expect(balanceRecall(packs({ 'in-store': 20, 'with-them': 24, served: 3, destroyed: 1 }))).toMatchObject({ packs: 48, accounted: 48, percent: '100 %', isWhole: true, grams: 16_320, accountedGrams: 16_320 });
  });

  it('with 23 of the 24 shipped is 97.9 % and fails', () => {
    expect(balanceRecall(packs({ 'in-store': 20, 'with-them': 23, served: 3, destroyed: 1, 'not-found': 1 }))).toMatchObject({ accounted: 47, notFound: 1, open: 0, percent: '97.9 %', isWhole: false });
  });

  it('counts what nobody looked for apart from what was looked for and not found', () => {
    expect(balanceRecall(packs({ open: 2, 'not-found': 1, eaten: 1 }))).toMatchObject({ packs: 4, accounted: 1, notFound: 1, open: 2, percent: '25.0 %' });
  });

  it('is never rounded up to the whole, and of nothing is no whole', () => {
    expect(balanceRecall(packs({ 'in-store': 4999, 'not-found': 1 }))).toMatchObject({ percent: '99.9 %', isWhole: false });
    expect(balanceRecall([])).toMatchObject({ percent: '0 %', isWhole: false });
  });
});

describe('the clock of a recall', () => {
  const HOUR_MS = 3_600_000;
  const states = (elapsedHours: number, isWhole: boolean, isFinished: boolean, allReached = isWhole): string[] =>
    RECALL_LIMITS.map((limit) => standOf(limit, { elapsedMs: elapsedHours * HOUR_MS, isWhole, allReached, isFinished }));

  it('runs until every pack is accounted for', () => expect(states(1, false, false)).toEqual(['running', 'running', 'running', 'running', 'running']));
  it('is met at exactly its hours, and missed after them', () => {
    expect(states(4, true, true)).toEqual(['met', 'missed', 'met', 'met', 'met']);
    expect(states(4 + 1 / HOUR_MS, true, true)[0]).toBe('missed');
  });
  it('is missed where it was ended short', () => expect(states(1, false, true)).toEqual(['missed', 'missed', 'met', 'missed', 'missed']));
  it('names a source and a mark for every limit', () => {
    for (const { source } of RECALL_LIMITS) expect(source).toMatch(/\((read|second-hand|from memory)\)|our choice/);
  });
});

describe('a yield among others of its kind (common practice: three standard deviations)', () => {
  const others = [0.6, 0.62, 0.64, 0.66, 0.68];
  it('is usual within three standard deviations of the mean, and unusual beyond', () => {
    // Mean 0.64, standard deviation √0.001 = 0.031 62 (computed): 0.5451 to 0.7349.
    expect(yieldAmong(0.734, others).state).toBe('usual');
    expect(yieldAmong(0.736, others).state).toBe('unusual');
    expect(yieldAmong(0.544, others).state).toBe('unusual');
  });
  it('is not judged among fewer than five', () => expect(yieldAmong(0.1, others.slice(1)).state).toBe('too-few'));
});
