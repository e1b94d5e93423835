import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { readAskArguments } from '../../main/start/ask-arguments.ts';
import { splitInput } from '../../main/start/input-lines.ts';

const FOLDER = path.resolve('/kitchen');

async function linesOf(...chunks: readonly string[]): Promise<(string | null)[]> {
  async function* bytes(): AsyncGenerator<Uint8Array> {
    for (const chunk of chunks) yield Buffer.from(chunk, 'latin1');
  }
  const lines: (string | null)[] = [];
  for await (const line of splitInput(bytes())) lines.push(line);
  return lines;
}

describe('what is typed after ask', () => {
  it.each([
    [['brine.strength', '{"a":1}'], { what: { kind: 'one', name: 'brine.strength', inputText: '{"a":1}' }, bookFile: null, as: null }],
    [['book.status'], { what: { kind: 'one', name: 'book.status', inputText: '{}' }, bookFile: null, as: null }],
    [['--list'], { what: { kind: 'list' }, bookFile: null, as: null }],
    [['--book', 'b.alderbook', '--as', 'MG', '--lines'], { what: { kind: 'lines' }, bookFile: path.join(FOLDER, 'b.alderbook'), as: 'MG' }],
    [['office.get', '--book', '/other/b'], { what: { kind: 'one', name: 'office.get', inputText: '{}' }, bookFile: path.resolve('/other/b'), as: null }],
  ])('%j is understood', (typed, value) => {
    expect(readAskArguments(typed, FOLDER)).toEqual({ ok: true, value });
  });
  it.each([
    [[], 'Nothing was asked.'],
    [['--all'], 'There is no option --all.'],
    [['--list', '{}'], '“{}” can’t stand after --list.'],
    [['--lines', 'x'], '“x” can’t stand after --lines.'],
    [['--book'], '--book needs the name of a file after it.'],
    [['--book', '--list'], '--book needs the name of a file after it.'],
    [['--as', '', 'book.status'], '--as needs a person’s initials after it.'],
    [['brine.strength', '{"a":', '1}'], '“1}” is one word too many.'],
  ])('%j is refused with a sentence', (typed, message) => {
    expect(readAskArguments(typed, FOLDER)).toMatchObject({ ok: false, problem: { message, remedy: expect.stringMatching(/\.$/) } });
  });
});

describe('lines of standard input', () => {
  it('end at line feeds, wherever the chunks break', async () => {
    expect(await linesOf('a\nb', 'c\n', '\nd')).toEqual(['a', 'bc', '', 'd']);
    expect(await linesOf('a\n')).toEqual(['a']);
    expect(await linesOf()).toEqual([]);
  });
  it('keep a line separator of the text and a character broken over two chunks', async () => {
    expect(await linesOf('"\u00e2\u0080\u00a8"\n"\u00c3', '\u00a9"')).toEqual(['"\u2028"', '"é"']);
  });
  it('lose a byte order mark at the very beginning only', async () => {
    expect(await linesOf('\u00ef\u00bb\u00bf{}\n\u00ef\u00bb\u00bf{}')).toEqual(['{}', '\ufeff{}']);
  });
});
