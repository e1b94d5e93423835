/**
 * What the judge says of some hundreds of drawn cases, word for word as it was last read through: a
 * sentence, a span or a gate that changes by itself is seen here. After a change that is meant,
 * `WRITE_SENTENCES=1` writes them anew, to be read through again.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { SAID_OF, saidOf } from '../proof/sentences.ts';

const FILE = new URL('../fixtures/limit-sentences.json', import.meta.url);
const Kept = z.array(z.strictObject({ of: z.string(), seed: z.int(), said: z.array(z.string()) }));
const kept = Kept.parse(JSON.parse(readFileSync(FILE, 'utf8')));

if (process.env['WRITE_SENTENCES'] === '1') {
  writeFileSync(FILE, `${JSON.stringify(kept.map(({ of, seed }) => ({ of, seed, said: saidOf(of, seed) })), null, 1)}\n`);
}

it.each(SAID_OF)('%s: says what it said when it was last read', (name) => {
  const cases = kept.filter(({ of }) => of === name);
  expect(cases.length).toBeGreaterThan(3);
  for (const { seed, said } of cases) expect(saidOf(name, seed)).toEqual(said);
});
