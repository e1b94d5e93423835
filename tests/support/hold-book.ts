/**
 * A process of its own that opens a book and holds it. With `write` it goes on writing entries and
 * says each one's number once it stands in the book. Told apart by its arguments: FILE hold|write.
 */
import { openBookFile } from '../../main/backroom/book/open.ts';

const [file = '', what = 'hold'] = process.argv.slice(2);
const handle = openBookFile(file, { clock: { nowMs: () => Date.UTC(2026, 10, 25, 14) } });
let written = 0;

function writeOne(): void {
  written += 1;
  const number = written;
  handle.command((as) => {
    const book = as({ personId: 'p', initials: 'JR', device: 'child', commandId: null, nowMs: () => Date.UTC(2026, 10, 25, 14), newId: () => `${process.pid}-${number}` });
    book.keepReadings({ pointId: 'point', instrumentId: null, unit: 'F', how: 'by-hand', source: 'typed', rows: [{ atMs: number, lowTicks: number, highTicks: number, text: String(number) }] });
    book.record({ kind: 'test.done', subjectId: 's', happenedAtMs: null, summary: `Number ${number}`, after: { number } });
  });
  process.stdout.write(`${number}\n`, () => setImmediate(writeOne));
}

if (what === 'write') writeOne();
else {
  process.stdout.write('held\n');
  setInterval(() => undefined, 1000);
}
