/**
 * Every published profile answers every question that it must, by a check or by saying that it gives no
 * figure, for every kind of batch: hot or cold, vacuum packed, air packed or not packed, chilled or
 * frozen. What a set must answer is our own rule (common practice); the figures carry their primary sources and marks in
 * assets/limits.
 */
import { describe, expect, it } from 'vitest';
import type { JudgeCase, PackKind, Process, StoreKind } from '../../app/limits/judge-case.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { Question } from '../../app/limits/limit-set.ts';
import { isRaised, mustAnswer } from '../../app/limits/questions.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, needSet } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';

const MUST: readonly Question[] = ['chamber', 'cooling', 'parasite', 'salt', 'store', 'record'];
const BATCHES: JudgeCase[] = (['hot', 'cold'] as const satisfies Process[]).flatMap((process) => (['vacuum', 'air', 'unpacked'] as const satisfies PackKind[]).flatMap((pack) => (['refrigerated', 'frozen'] as const satisfies StoreKind[])
  .map((store) => batchOf([], { process, pack, store, facts: { onFile: [] } }))));

describe.each(limitBook.sets.map((set) => set.id))('%s', (setId) => {
  it('answers every question it must, by a check or by saying that it has no figure', () => {
    const seen: string[] = [];
    for (const batch of BATCHES) {
      const result = judgeSet(needSet(setId), batch, limitBook, { words: minuteWords('F'), paper: true });
      for (const question of MUST.filter((one) => isRaised(one, batch) && mustAnswer(one, batch))) {
        const units = result.units.filter((unit) => unit.question === question && unit.verdict !== 'does-not-apply');
        const what = `${batch.process} ${batch.pack ?? ''} ${batch.store ?? ''} ${question}`;
        expect(units.length, what).toBeGreaterThan(0);
        expect(units.map((unit) => unit.verdict), what).not.toContain('meets');
        // Silence is said, and is never taken for an answer.
        for (const unit of units.filter((one) => one.deciding.kind === 'no-figure')) expect([unit.verdict, unit.deciding.reason.length > 20], what).toEqual(['no-figure', true]);
        seen.push(what);
      }
    }
    expect(seen.length).toBeGreaterThanOrEqual(12 * 3);
  });
  it('is versioned, in force, and names what leads on from a miss', () => {
    const set = needSet(setId);
    expect(set.version).toMatch(/^2026-\d+$/);
    expect(set.effectiveFrom).toMatch(/^2026-\d{2}-\d{2}$/);
    expect(set.effectiveUntil).toBeUndefined();
    expect(set.correctiveActs.length).toBeGreaterThan(0);
    expect(set.correctiveActs.join(' ').toLowerCase()).not.toContain('freez');
  });
});

it('the sets whose answers changed carry a new version', () => {
  expect(limitBook.sets.filter((set) => set.version === '2026-2').map((set) => set.id).toSorted()).toEqual(['ak', 'ca-on', 'mi-plant', 'ny-plant', 'us-food-code']);
});
