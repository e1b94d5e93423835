import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeBook, makeBookFolder, openForTest, recordOne, write } from '../support/book-folder.ts';

describe('backing up an open book', () => {
  it('writes a whole copy beside it, named by book, day and number', async () => {
    const folder = makeBookFolder();
    const file = join(folder, 'kitchen.alderbook');
    makeBook(file, (book) => recordOne(book));
    const handle = openForTest(file);
    write(handle, (book) => recordOne(book));
    const first = await handle.reader().backUp();
    const second = await handle.reader().backUp();
    expect(first).toEqual({ fileName: 'kitchen-2026-11-25-1.backup.alderbook', bytes: statSync(join(folder, first.fileName)).size });
    expect(second.fileName).toBe('kitchen-2026-11-25-2.backup.alderbook');
    const copy = openForTest(join(folder, first.fileName)).reader();
    expect(copy.checkChain()).toEqual(handle.reader().checkChain());
    expect(readdirSync(folder).filter((name) => name.endsWith('unfinished'))).toEqual([]);
  });
  it('goes by the kitchen’s own day', async () => {
    const folder = makeBookFolder();
    const file = join(folder, 'kitchen.alderbook');
    makeBook(file, (book) => book.shelf('kitchen').put({
      id: 'kitchen', name: 'Far East', address: { street: '', city: 'C', region: 'R', postalCode: '' }, timeZone: 'Pacific/Auckland',
      temperatureUnit: 'C', massUnit: 'kg', kind: 'home', decidingSetId: 'home', demo: false,
    }));
    // 14:00 UTC is the next morning there.
    expect((await openForTest(file).reader().backUp()).fileName).toBe('kitchen-2026-11-26-1.backup.alderbook');
  });
  it('has what was written while it ran, or a whole book without it', async () => {
    const folder = makeBookFolder();
    const file = join(folder, 'kitchen.alderbook');
    makeBook(file, (book) => {
      for (let number = 0; number < 400; number += 1) recordOne(book, `Number ${number} ${'x'.repeat(900)}`);
    });
    const handle = openForTest(file);
    const running = handle.reader().backUp();
    await new Promise((resolve) => setImmediate(resolve));
    write(handle, (book) => recordOne(book, 'Meanwhile'));
    const { fileName } = await running;
    const chain = openForTest(join(folder, fileName)).reader().checkChain();
    expect(chain.intact).toBe(true);
    expect([400, 401]).toContain(chain.entries);
  });
});
