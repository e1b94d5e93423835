import { describe, expect, it } from 'vitest';
import type { Verdict } from '../../app/contract/requests/verdict.ts';
import { nextStep } from '../../renderer/places/smokehouse/next-step.ts';

const IN = { process: 'hot' as const, inAtMs: 1, outAtMs: null, cooledAtMs: null };

function results(...batches: readonly (readonly (readonly ['chamber' | 'cooling' | 'brine', Verdict])[])[]) {
  return batches.map((checks) => ({ result: { checks: checks.map(([question, verdict]) => ({ question, verdict })) } }));
}

describe('the one dark button of a load', () => {
  it('says that the fish is in before anything else', () => {
    expect(nextStep({ load: { ...IN, inAtMs: null }, results: results([['chamber', 'meets']]) })).toBe('in');
  });

  it.each(['open', 'misses', 'not-proven', 'no-figure', 'meets-within-error'] as const)('is never “take it out” while a limit of the chamber is “%s”', (verdict) => {
    expect(nextStep({ load: IN, results: results([['chamber', 'meets'], ['chamber', verdict]]) })).toBe('read');
  });

  it('is never “take it out” when no limit of the chamber is known, or of one batch only', () => {
    expect(nextStep({ load: IN, results: [] })).toBe('read');
    expect(nextStep({ load: IN, results: results([['brine', 'meets']]) })).toBe('read');
    expect(nextStep({ load: IN, results: results([['chamber', 'meets']], [['chamber', 'open']]) })).toBe('read');
    expect(nextStep({ load: IN, results: results([['chamber', 'does-not-apply']]) })).toBe('read');
  });

  it('is “take it out” when every batch meets every limit of the chamber', () => {
    expect(nextStep({ load: IN, results: results([['chamber', 'meets'], ['chamber', 'does-not-apply']], [['chamber', 'meets']]) })).toBe('out');
  });

  it('reads on in a cold smoke, which no temperature ends', () => {
    expect(nextStep({ load: { ...IN, process: 'cold' }, results: results([['chamber', 'meets']]) })).toBe('read');
    expect(nextStep({ load: { ...IN, process: 'cold', outAtMs: 2 }, results: results([['chamber', 'meets']]) })).toBe('done');
  });

  it('reads on while cooling is open, then closes the record', () => {
    const out = { ...IN, outAtMs: 2 };
    expect(nextStep({ load: out, results: results([['cooling', 'open']]) })).toBe('read');
    expect(nextStep({ load: out, results: results([['cooling', 'misses']]) })).toBe('cooled');
    expect(nextStep({ load: { ...out, cooledAtMs: 3 }, results: results([['cooling', 'meets']]) })).toBe('done');
  });
});
