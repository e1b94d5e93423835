import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { makeBook, makeBookFolder, openForTest, recordOne, TEST_CLOCK, write } from '../support/book-folder.ts';

const CHILD = new URL('../support/hold-book.ts', import.meta.url).pathname;

interface Child {
  readonly process: ChildProcess;
  /** Every line it has said so far. */
  readonly said: string[];
  /** Waits until it has said that many lines. */
  hear(lines: number): Promise<void>;
  kill(): Promise<void>;
}

function startChild(file: string, what: 'hold' | 'write'): Child {
  const child = spawn(process.execPath, [CHILD, file, what], { stdio: ['ignore', 'pipe', 'inherit'] });
  let text = '';
  const said: string[] = [];
  child.stdout.on('data', (part: Buffer) => {
    text += part.toString();
    const lines = text.split('\n');
    text = lines.pop() ?? '';
    said.push(...lines);
  });
  async function kill(): Promise<void> {
    if (child.exitCode !== null || child.signalCode !== null) return;
    const ended = once(child, 'close');
    child.kill('SIGKILL');
    await ended;
  }
  onTestFinished(kill);
  return {
    process: child,
    said,
    kill,
    async hear(lines) {
      while (said.length < lines) {
        if (child.exitCode !== null) throw new Error(`the other program ended with ${child.exitCode}`);
        await new Promise((resolve) => setTimeout(resolve, 10));
      }
    },
  };
}

describe('two programs on one book', () => {
  it('the second is told who has it and since when, and the note stays', async () => {
    const file = join(makeBookFolder(), 'kitchen.alderbook');
    makeBook(file);
    const other = startChild(file, 'hold');
    await other.hear(1);
    let message = '';
    try {
      openBookFile(file, { clock: TEST_CLOCK });
    } catch (problem) {
      message = problem instanceof Error ? problem.message : '';
    }
    expect(message).toBe(`kitchen.alderbook is open in another Alderbook (process ${other.process.pid}, since 2026-11-25 14:00 UTC).`);
    expect(existsSync(`${file}.holder`)).toBe(true);
  });
  it('a note left by a program that was killed blocks nobody', async () => {
    const file = join(makeBookFolder(), 'kitchen.alderbook');
    makeBook(file);
    const other = startChild(file, 'hold');
    await other.hear(1);
    await other.kill();
    expect(existsSync(`${file}.holder`)).toBe(true);
    const handle = openForTest(file);
    write(handle, (book) => recordOne(book));
    expect(handle.reader().checkChain()).toMatchObject({ entries: 1, intact: true });
  });
});

describe('a program killed while it writes', () => {
  it('has lost nothing that it had answered, and the record is whole', async () => {
    const folder = makeBookFolder();
    const file = join(folder, 'kitchen.alderbook');
    makeBook(file);
    let answered = 0;
    for (const wanted of [5, 40]) {
      const writer = startChild(file, 'write');
      await writer.hear(wanted);
      await writer.kill();
      answered += Number(writer.said.at(-1));
      const handle = openBookFile(file, { clock: TEST_CLOCK });
      const chain = handle.reader().checkChain();
      const readings = handle.reader().readings('point');
      handle.close();
      // One more may stand in the book than was said before the end.
      expect([answered, answered + 1]).toContain(chain.entries);
      expect(chain.intact).toBe(true);
      expect(readings.length).toBeGreaterThan(0);
      answered = chain.entries;
      expect(readdirSync(folder)).toEqual(['kitchen.alderbook']);
    }
  });
});
