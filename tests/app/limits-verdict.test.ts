import { describe, expect, it } from 'vitest';
import { best, isMet, rank, VERDICTS, worst } from '../../app/limits/verdict.ts';

describe('the worst of several verdicts', () => {
  it('goes by the list, worst first', () => {
    for (const [index, worse] of VERDICTS.slice(0, 6).entries()) {
      for (const better of VERDICTS.slice(index)) expect(worst([better, worse])).toBe(worse);
    }
  });
  it('gives a set’s silence the weight of a record that proves nothing', () => {
    expect(rank('no-figure')).toBe(rank('not-proven'));
    expect(worst(['meets', 'no-figure', 'open'])).toBe('no-figure');
    expect(worst(['no-figure', 'not-proven'])).toBe('not-proven');
  });
  it('leaves out what does not apply, and nothing left is not proven', () => {
    expect(worst(['does-not-apply', 'meets'])).toBe('meets');
    expect(worst(['does-not-apply'])).toBe('not-proven');
    expect(worst([])).toBe('not-proven');
  });
});

describe('the best of several verdicts', () => {
  it('is that of a group of options', () => {
    expect(best(['misses', 'open', 'not-proven'])).toBe('open');
    expect(best(['does-not-apply', 'misses'])).toBe('misses');
    expect(best(['does-not-apply'])).toBeUndefined();
  });
});

it('lets a batch go on only when a limit is met', () => expect(VERDICTS.filter(isMet)).toEqual(['meets-within-error', 'meets']));
