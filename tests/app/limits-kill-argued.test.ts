/** What is argued of mutants that live on: each is one that `npm run mutants` makes, and is argued once. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keyOf, needlessOf, readArguments, whyOf, type Argument } from '../support/mutate/arguments.ts';
import { instrumentFile, type Mutant } from '../support/mutate/instrument.ts';

const ROOT = new URL('../../', import.meta.url);
const argued = readArguments(readFileSync(new URL('tests/support/mutate/argued.json', ROOT), 'utf8'));
const WHY = 'Nobody can see it, and this is why.';

describe('the arguments', () => {
  it('name mutants that are made, as often as they are argued', () => {
    const made = [...new Set(argued.map(({ file }) => file))].flatMap((file) => instrumentFile(file, readFileSync(new URL(file, ROOT), 'utf8'), 1).mutants).map(keyOf);
    const missing = argued.filter((one) => made.filter((key) => key === keyOf(one)).length < (one.times ?? 1));
    expect(missing).toEqual([]);
  });
  it('say why in one sentence, once for each', () => {
    const one = { file: 'app/limits/hold.ts', text: 'longest(stretches)', what: 'never', why: WHY };
    expect(readArguments(JSON.stringify([one, { ...one, what: 'always' }]))).toHaveLength(2);
    expect(() => readArguments(JSON.stringify([one, one]))).toThrow('argued twice');
    expect(() => readArguments(JSON.stringify([{ ...one, why: 'equivalent' }]))).toThrow('Invalid string');
  });
});

describe('a survivor', () => {
  const mutant = (id: number, text = 'left === right'): Mutant => ({ id, file: 'app/limits/hold.ts', line: id, what: 'never', text });
  const one: Argument = { file: 'app/limits/hold.ts', text: 'left === right', what: 'never', why: WHY };
  it('is argued wherever its line is, by its own text alone', () => {
    expect([whyOf(mutant(3), [one], [mutant(3)]), whyOf(mutant(3, 'other'), [one], [mutant(3, 'other')])]).toEqual([WHY, undefined]);
  });
  it('is not argued where another of its name lives on beside it', () => {
    const two = [mutant(3), mutant(9)];
    expect([whyOf(mutant(3), [one], two), whyOf(mutant(3), [{ ...one, times: 2 }], two)]).toEqual([undefined, WHY]);
  });
  it('that is killed leaves its argument needless, in the files that were tried', () => {
    const tried = new Set(['app/limits/hold.ts']);
    expect([needlessOf([one], tried, []), needlessOf([one], tried, [mutant(3)]), needlessOf([one], new Set(), [])]).toEqual([[one], [], []]);
    expect(needlessOf([{ ...one, times: 2 }], tried, [mutant(3)])).toHaveLength(1);
  });
});
