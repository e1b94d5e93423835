import { describe, expect, it } from 'vitest';
import { readMutatedFiles } from '../faults/mutated-files.ts';

describe('Broken files', () => {
  it('are read, asked about or refused with a sentence, each line accounted for, none for long', () => {
    const result = readMutatedFiles(2000, 20_261_125);
    expect(result.faults).toEqual([]);
    expect(result.files).toBe(2000);
    expect(result.read + result.asked + result.refused).toBe(2000);
    expect(Math.min(result.read, result.asked, result.refused, result.direct)).toBeGreaterThan(50);
  }, 300_000);
});
