import { describe, expect, it } from 'vitest';
import { connect } from '../../main/backroom/book/open.ts';
import { fillDisks } from '../faults/disk-full.ts';

describe('A disk that is full or may not be written, a file that changes or is far too large', () => {
  it('is said in a sentence, and nothing is lost', async () => {
    const { faults, details } = await fillDisks();
    expect(faults).toEqual([]);
    const names = ['read-only book', 'file changed while read', 'file of 2 GB', ...(process.platform === 'linux' ? ['a file for the inbox', 'an import', 'live readings', 'closing and opening', 'a backup'] : [])];
    for (const name of names) expect(details.some((detail) => detail.startsWith(`${name}: `)), name).toBe(true);
  }, 600_000);
});

describe('A book', () => {
  it('waits for the disk before it answers, so that a power cut takes nothing that was answered', () => {
    const database = connect(':memory:');
    // 2 is FULL: SQLite, “PRAGMA Statements”, synchronous (from memory).
    expect(['synchronous', 'fullfsync', 'checkpoint_fullfsync'].map((setting) => database.pragma(setting, { simple: true }))).toEqual([2, 1, 1]);
    database.close();
  });
});
