import { describe, expect, it } from 'vitest';
import { newUuidV7 } from '../../main/backroom/identifiers.ts';

describe('an id of ours', () => {
  it('is a UUID of version 7 that begins with the time', () => {
    // The time of the worked example in IETF RFC 9562, appendix A.6 (2024): 22 February 2022, 14:22:22 at −05:00.
    const id = newUuidV7(Date.UTC(2022, 1, 22, 19, 22, 22));
    expect(id).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
  it('sorts after every id of an earlier millisecond, and never repeats', () => {
    const ids = Array.from({ length: 2000 }, (_, ms) => newUuidV7(1_800_000_000_000 + ms));
    expect(ids.toSorted()).toEqual(ids);
    expect(new Set(Array.from({ length: 2000 }, () => newUuidV7(1))).size).toBe(2000);
  });
});
