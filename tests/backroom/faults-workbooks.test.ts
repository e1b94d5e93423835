import { describe, expect, it } from 'vitest';
import { readMutatedWorkbooks } from '../faults/mutated-workbooks.ts';

describe('Broken workbooks', () => {
  it('are read, asked about or refused with a sentence, each row accounted for, none for long', async () => {
    const result = await readMutatedWorkbooks(300, 20_261_125);
    expect(result.faults).toEqual([]);
    expect(result.files).toBe(300);
    expect(result.read + result.asked + result.refused).toBe(300);
    expect(Math.min(result.read, result.refused)).toBeGreaterThan(20);
  }, 300_000);
});
