import { describe, expect, it } from 'vitest';
import { killWhileImporting } from '../faults/kill-while-importing.ts';
import { killWhileWriting } from '../faults/kill-while-writing.ts';

/** `npm run faults` kills 200 times. */
const KILLS = 6;

describe('A program that is killed', () => {
  it('while it takes over logs has every one that was answered, whole, and none by half', async () => {
    const { faults, details } = await killWhileImporting(KILLS, 20_261_125);
    expect(faults).toEqual([]);
    expect(details.join()).toContain(`${KILLS} kills`);
  }, 600_000);

  it('while it keeps live readings has every message that was kept, once', async () => {
    const { faults, details } = await killWhileWriting(KILLS, 20_261_125);
    expect(faults).toEqual([]);
    expect(details.join()).toContain(`${KILLS} kills`);
  }, 600_000);
});
