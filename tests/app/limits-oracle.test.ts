/** The judge against a second evaluator, written apart and naive: 300 random records of every kind; `npm run proof` draws 20,000. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareSeed, KEPT_SEEDS, needKind, seedsOf } from '../proof/agree.ts';
import { Dice } from '../proof/dice.ts';
import { PROOF_KINDS } from '../proof/kinds.ts';

/** The mutation run draws fewer, because it draws them for every mutant. */
const RECORDS = Number(process.env['PROOF_RECORDS'] ?? 300);
const RUN_SEED = fc.readConfigureGlobal().seed ?? 1;

describe('a second evaluator agrees on verdict and minutes', () => {
  it.each(PROOF_KINDS.map(({ name }) => name))('%s', (name) => {
    const kind = needKind(name);
    const disagreements = seedsOf(name, RUN_SEED, 0, RECORDS).map((seed) => compareSeed(kind, seed)).filter((found) => found !== undefined);
    expect(disagreements.slice(0, 3).map((found) => JSON.stringify(found))).toEqual([]);
  });

  it('keeps every seed that failed once under a kind that is still drawn', () => {
    expect(KEPT_SEEDS.filter(({ kind }) => PROOF_KINDS.every(({ name }) => name !== kind))).toEqual([]);
  });

  it('sees every verdict among the records it draws', () => {
    const seen = new Set(seedsOf('hold', RUN_SEED, 0, RECORDS).concat(seedsOf('descent-shared', RUN_SEED, 0, RECORDS)).flatMap((seed) =>
      ['hold', 'descent-shared'].map((name) => drawnVerdict(name, seed))));
    expect([...seen].sort()).toEqual(['meets', 'misses', 'not-proven', 'open']);
  });
});

function drawnVerdict(name: string, seed: number): string {
  const kind = needKind(name);
  return kind.judgeAgain(kind.draw(new Dice(seed)), 0).verdict;
}
