import { describe, expect, it } from 'vitest';
import { findCheck, sourceOf } from '../../app/limits/limit-set.ts';
import { needSet } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';

describe('the marks a set rests its own figures on', () => {
  it.each([
    ['us-fda-sale', 'HOT-145-30', 'from memory'],
    ['us-fda-sale', 'HOT-PROBES-3', 'from memory'],
    ['us-fda-sale', 'COLD-FDA-90', 'from memory'],
    ['us-fda-sale', 'COOL-FDA12', 'from memory'],
    ['us-fda-sale', 'STORE-40', 'from memory'],
    ['ny-plant', 'COLD-120-6-SABLE', 'from memory'],
    ['eu-uk', 'WPS-ROP-3.5', 'from memory'],
    ['wi', 'HOT-145-30', 'second-hand'],
    ['lodge-default', 'HOT-PROBES-3', 'second-hand'],
    ['lodge-default', 'COOL-AFDO', 'second-hand'],
    ['lodge-default', 'REC-REVIEW-7D', 'from memory'],
  ])('%s knows %s %s', (setId, checkId, mark) => {
    const check = findCheck(limitBook, checkId);
    if (check === undefined) throw new Error(checkId);
    expect(sourceOf(check, needSet(setId)).mark).toBe(mark);
  });
});
