import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { refuseInput } from '../../main/backroom/input-faults.ts';

const target = z.strictObject({
  target: z.union([
    z.strictObject({ brinePercent: z.number() }),
    z.strictObject({ brineSalometer: z.number() }),
    z.strictObject({ finishedPercent: z.number(), yieldPercent: z.number() }),
  ]),
});
const either = z.strictObject({ value: z.union([z.number(), z.string()]) });

function faultsOf(schema: z.ZodType, input: unknown): (readonly [string, string])[] {
  const parsed = schema.safeParse(input);
  if (parsed.success) throw new Error('it fits');
  return (refuseInput(parsed.error).fields ?? []).map(({ path, message }) => [path.join('.'), message] as const);
}

describe('a value that may have one of several shapes', () => {
  it.each([
    ['one shape with a wrong type', { brinePercent: 'x' }, [['target.brinePercent', 'target.brinePercent must be a number.']]],
    ['a longer shape with half missing', { finishedPercent: 3.5 }, [['target.yieldPercent', 'target.yieldPercent is missing; it must be a number.']]],
    ['nothing of any shape', {}, [['target', 'target needs one of brinePercent, brineSalometer, finishedPercent with yieldPercent.']]],
    ['two shapes at once', { brinePercent: 10, brineSalometer: 40 }, [['target.brineSalometer', 'target.brineSalometer is not known here.']]],
    ['a key of no shape', { brinePercent: 10, salt: 1 }, [['target.salt', 'target.salt is not known here.']]],
    ['no object', 'x', [['target', 'target must be an object.']]],
  ])('names the field of the shape it was meant to be: %s', (_what, value, faults) => {
    expect(faultsOf(target, { target: value })).toEqual(faults);
  });
  it('names the field itself where it is missing', () => {
    expect(faultsOf(target, {})).toEqual([['target', 'target is missing.']]);
  });
  it('names both types where there are two', () => {
    expect(faultsOf(either, { value: true })).toEqual([['value', 'value must be a number or text.']]);
  });
});

describe('sentences of other faults', () => {
  it.each([
    ['an exact length', z.strictObject({ letter: z.string().length(1) }), { letter: 'ab' }, 'letter must be 1 character long.'],
    ['a number that must be over nought', z.strictObject({ ratio: z.number().positive() }), { ratio: 0 }, 'ratio must be more than 0.'],
    ['a list too long', z.strictObject({ list: z.array(z.number()).max(1) }), { list: [1, 2] }, 'list must be at most 1 item long.'],
    ['base64', z.strictObject({ bytes: z.base64() }), { bytes: '*' }, 'bytes must be base64 text.'],
    ['a fixed value', z.strictObject({ yes: z.literal(true) }), { yes: false }, 'yes must be true.'],
    ['true or false', z.strictObject({ open: z.boolean() }), { open: 'yes' }, 'open must be true or false.'],
    ['a rule of our own', z.strictObject({ a: z.number().refine((n) => n % 2 === 0, 'a must be even') }), { a: 1 }, 'a must be even.'],
    ['a step', z.strictObject({ a: z.number().multipleOf(5) }), { a: 1 }, 'a must be a multiple of 5.'],
    ['a null', z.strictObject({ a: z.null() }), { a: 1 }, 'a must be null.'],
  ])('%s', (_what, schema, input, message) => {
    expect(faultsOf(schema, input).map(([, text]) => text)).toEqual([message]);
  });
});
