import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ColumnLog } from '../../app/probes/log-columns.ts';
import { blocksOf, noteBlocks, type PackedBlock } from '../../main/backroom/book/block-bytes.ts';
import { handsInProcess, type Hands } from '../../main/backroom/hands/hands.ts';
import { buffersOf, packLog, unpackLog } from '../../main/backroom/hands/packed-log.ts';
import { readLogColumns } from '../../main/backroom/services/log-read.ts';
import { readAhead, readOnceOnly } from '../../main/backroom/services/read-ahead.ts';
import { makeBook, makeBookFolder, openForTest, recordOne, write } from '../support/book-folder.ts';

const OPTIONS = { fileName: 'log.csv', timeZone: 'America/Chicago', answers: {} };

function logBytes(rows: number, tenths = (row: number) => 1400 + ((row * 7) % 11)): Uint8Array {
  const lines = Array.from({ length: rows }, (_, row) => `${new Date(Date.UTC(2026, 6, 14, 5) + row * 1000).toISOString()},${(tenths(row) / 10).toFixed(1)}`);
  return new TextEncoder().encode(`Time,Probe (°F)\n${lines.join('\n')}\n`);
}

function logOf(rows: number): ColumnLog {
  const read = readLogColumns(logBytes(rows), OPTIONS);
  if (!read.ok) throw new Error(read.problem.message);
  return read.value;
}

/** Helper threads that count what they are asked, and may fail once. */
function countingHands(failures = 0): Hands & { readonly runs: () => number } {
  const hands = handsInProcess();
  let runs = 0;
  return {
    ...hands,
    runs: () => runs,
    run(task, ...input) {
      runs += 1;
      return runs <= failures ? Promise.reject(new Error('A helper thread ended with code 9.')) : hands.run(task, ...input);
    },
  };
}

describe('A file that comes', () => {
  it('is read once, while it is being kept, however often it is asked for', async () => {
    const hands = countingHands();
    readAhead(hands, logBytes(300), OPTIONS)('file-1');
    const [one, other] = [await readOnceOnly(hands, 'file-1', OPTIONS, () => new Uint8Array(0)), await readOnceOnly(hands, 'file-1', OPTIONS, () => new Uint8Array(0))];
    expect(one.ok && one.value.counts.read).toBe(300);
    expect(other).toBe(one);
    expect(hands.runs()).toBe(1);
  });
  it('is read again for another answer, another zone and as another file', async () => {
    const hands = countingHands();
    readAhead(hands, logBytes(300), OPTIONS)('file-1');
    const counts: (number | false)[] = [];
    for (const [fileId, options, rows] of [
      ['file-1', { ...OPTIONS, answers: { unit: 'F' } }, 301], ['file-1', { ...OPTIONS, timeZone: 'UTC' }, 302], ['file-2', OPTIONS, 303], ['file-1', OPTIONS, 304],
    ] as const) {
      const read = await readOnceOnly(hands, fileId, options, () => logBytes(rows));
      counts.push(read.ok && read.value.counts.read);
    }
    expect(counts).toEqual([301, 302, 303, 304]);
    expect(hands.runs()).toBe(5);
  });
  it('is read again where the thread that read it died', async () => {
    const hands = countingHands(1);
    readAhead(hands, logBytes(300), OPTIONS)('file-1');
    await expect(readOnceOnly(hands, 'file-1', OPTIONS, () => logBytes(300))).rejects.toThrow('code 9');
    expect((await readOnceOnly(hands, 'file-1', OPTIONS, () => logBytes(300))).ok).toBe(true);
  });
});

describe('Blocks made in another thread', () => {
  it('are kept as they came, and the readings and the chain are those of blocks made here', async () => {
    const read = unpackLog(structuredClone(await packLog({ ok: true, value: logOf(40_000) })));
    if (!read.ok) throw new Error(read.problem.message);
    const columns = read.value.places[0]?.columns;
    if (columns === undefined) throw new Error('There is no place.');
    const plain = (blocks: readonly PackedBlock[]) => blocks.map((block) => ({ ...block, body: [...block.body] }));
    expect(plain(blocksOf(columns))).toEqual(plain(blocksOf({ ...columns })));
    expect(blocksOf(columns).map(({ count }) => count)).toEqual([32_768, 7232]);
    const file = join(makeBookFolder(), 'kitchen.alderbook');
    makeBook(file);
    const handle = openForTest(file);
    write(handle, (book) => {
      book.keepColumns({ pointId: 'p', instrumentId: null, how: 'file', source: 'log.csv' }, columns);
      recordOne(book);
    });
    expect(handle.reader().seriesOf('p')).toMatchObject({ atMs: columns.atMs, lowTicks: columns.lowTicks });
    expect(handle.reader().checkChain().intact).toBe(true);
  });
  it('count for those very columns only: a cut or moved copy is packed anew', () => {
    const columns = logOf(300).places[0]?.columns;
    if (columns === undefined) throw new Error('There is no place.');
    noteBlocks(columns, blocksOf({ ...columns }));
    const moved = { ...columns, atMs: columns.atMs.map((at) => at + 5000) };
    expect(blocksOf(moved)[0]?.firstMs).toBe((columns.atMs[0] ?? 0) + 5000);
  });
  it('are not made while something must be asked, nor of few readings', async () => {
    expect(await packLog({ ok: true, value: { ...logOf(300), questions: [{ id: 'unit', text: 'Which?', choices: [] }] } })).not.toHaveProperty('packed');
    expect((await packLog({ ok: true, value: logOf(255) })).packed).toEqual([[]]);
    expect((await packLog({ ok: true, value: logOf(256) })).packed?.[0]).toHaveLength(1);
  });
  it('pass with the memory of their numbers, each once', async () => {
    const packed = await packLog({ ok: true, value: logOf(300) });
    const buffers = buffersOf(packed);
    expect(new Set(buffers).size).toBe(buffers.length);
    expect(buffers.length).toBeGreaterThanOrEqual(2);
    expect(buffersOf({ ok: false, problem: { message: 'no log' } })).toEqual([]);
  });
});
