/** Disks that are full or may not be written, files that change while they are read, files far too large: a sentence, and nothing lost. */
import { chmodSync, closeSync, ftruncateSync, mkdtempSync, openSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { appendFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Reply } from '../../app/contract/envelope.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { expectedFailure } from '../../main/backroom/failures.ts';
import { readChosen } from '../../main/window/read-chosen.ts';
import { checkBook, countRows } from './book-check.ts';
import { openFaultKitchen, valueOf, type FaultKitchen } from './fault-kitchen.ts';
import { sayThrown, type FaultRun } from './fault.ts';
import { sendLargeFile } from './large-upload.ts';
import { runOnSmallDisk } from './small-disk.ts';
import { importInput, logBytes, logNameOf, LOG_ROWS } from './store-log.ts';

const LARGE_BYTES = 2 * 1024 ** 3;
/** A file of 2 GB may not be held, nor much of it. */
const MOST_MEMORY_BYTES = 256 * 1024 ** 2;

interface Cases {
  readonly faults: string[];
  readonly details: string[];
}

/** Every case, each in a folder of its own. */
export async function fillDisks(): Promise<FaultRun> {
  const cases: Cases = { faults: [], details: [] };
  const { how, cases: onSmallDisk } = runOnSmallDisk();
  cases.details.push(how === null ? 'full disk: this system makes no small disk' : `full disk, by ${how}:`);
  for (const { name, answered, faults } of onSmallDisk) tell(cases, name, answered, faults);
  await inFolder(cases, 'read-only book', readOnlyBook);
  await inFolder(cases, 'file changed while read', changingFile);
  await inFolder(cases, 'file of 2 GB', largeFile);
  return cases;
}

function tell({ faults, details }: Cases, name: string, answered: string, found: readonly string[]): void {
  details.push(`${name}: ${answered}`);
  faults.push(...found.map((fault) => `${name}: ${fault}`));
}

type Said = { readonly answered: string; readonly faults: readonly string[] };

async function inFolder(cases: Cases, name: string, work: (folder: string) => Promise<Said>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'alderbook-disk-'));
  try {
    const { answered, faults } = await work(folder);
    tell(cases, name, answered, faults);
  } catch (thrown) {
    tell(cases, name, 'threw', [sayThrown(thrown)]);
  } finally {
    chmodSync(folder, 0o700);
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A book with one log in it, closed. */
async function makeBook(file: string): Promise<void> {
  const kitchen = await openFaultKitchen(file);
  valueOf(await takeOver(kitchen, 0));
  await kitchen.close();
}

async function takeOver(kitchen: FaultKitchen, number: number): Promise<Reply<unknown>> {
  const taken = await kitchen.takeFile(logNameOf(number), logBytes(number));
  return taken.ok ? kitchen.ask('readings.import', importInput(taken.value.fileId, kitchen.storeIds)) : taken;
}

function sentenceOf(reply: Reply<unknown>, code: string, faults: string[]): string {
  if (reply.ok) {
    faults.push('it was answered');
    return 'answered';
  }
  const { code: told, message, remedy = '' } = reply.error;
  if (told !== code || !/^[^\n]+[.!?]$/.test(message)) faults.push(`it was refused as ${told}: ${message}`);
  return `${told}: ${message} ${remedy}`;
}

/** Read-only as a file, then by its folder: what was there can be looked at, nothing is added, not a byte changes. */
async function readOnlyBook(folder: string): Promise<Said> {
  const file = join(folder, 'kitchen.alderbook');
  await makeBook(file);
  const before = readFileSync(file);
  const faults: string[] = [];
  let answered = '';
  for (const [path, mode, back] of [[file, 0o444, 0o644], [folder, 0o555, 0o700]] as const) {
    chmodSync(path, mode);
    const kitchen = await openFaultKitchen(file);
    answered = sentenceOf(await kitchen.takeFile(logNameOf(1), logBytes(1)), 'BOOK_READ_ONLY', faults);
    sentenceOf(await kitchen.ask('office.addPlace', { name: 'Another', kind: 'cooler' }), 'BOOK_READ_ONLY', faults);
    const { series } = valueOf(await kitchen.ask('place.get', { placeId: kitchen.storeIds[0] ?? '' }));
    if (series.length !== LOG_ROWS) faults.push(`${series.length} readings can be looked at instead of ${LOG_ROWS}`);
    await kitchen.close();
    chmodSync(path, back);
    if (!readFileSync(file).equals(before)) faults.push('the file was changed');
  }
  faults.push(...checkBook(file, () => []));
  return { answered, faults };
}

/** The window reads a file itself; a browser hands over the bytes that it read, all of them or none. */
async function changingFile(folder: string): Promise<Said> {
  const file = join(folder, 'logger.csv');
  writeFileSync(file, Buffer.alloc(24_000_000, '08:00,40.1\n'));
  const faults: string[] = [];
  let isRead = false;
  const reading = readChosen(file, 'logger.csv').finally(() => {
    isRead = true;
  });
  while (!isRead) await appendFile(file, '08:01,40.2\n');
  const answered = sentenceOf(await reading, 'FILE_UNREADABLE', faults);
  const still = await readChosen(file, 'logger.csv');
  if (!still.ok || still.value.byteLength !== statSync(file).size) faults.push('at rest it could not be read');
  const book = join(folder, 'kitchen.alderbook');
  await makeBook(book);
  const cut = await sendLargeFile(book, file, { breakOffAfterBytes: 1_000_000 });
  if (cut.status !== null) faults.push(`a file whose sender went away was answered with ${cut.status}`);
  faults.push(...checkBook(book, () => []));
  if (countRows(book, 'inbox') !== 1) faults.push(`${countRows(book, 'inbox')} files are in the inbox`);
  return { answered, faults };
}

/** Chosen in the window, sent by a browser, and opened as a book. */
async function largeFile(folder: string): Promise<Said> {
  const file = join(folder, 'season.csv');
  const handle = openSync(file, 'w');
  ftruncateSync(handle, LARGE_BYTES);
  closeSync(handle);
  const book = join(folder, 'kitchen.alderbook');
  await makeBook(book);
  const faults: string[] = [];
  const before = process.memoryUsage().rss;
  const answered = sentenceOf(await readChosen(file, 'season.csv'), 'INVALID_INPUT', faults);
  const sent = await sendLargeFile(book, file, {});
  if (sent.status !== 413 || !sent.message.endsWith('.')) faults.push(`a browser was answered with ${sent.status} ${sent.message}`);
  try {
    openBookFile(file, { clock: { nowMs: () => Date.now() } }).close();
    faults.push('it was opened as a book');
  } catch (thrown) {
    if (expectedFailure(thrown)?.code !== 'BOOK_DAMAGED') faults.push(sayThrown(thrown));
  }
  const grownBytes = Math.max(sent.peakBytes, process.memoryUsage().rss) - before;
  if (grownBytes > MOST_MEMORY_BYTES) faults.push(`it took ${Math.round(grownBytes / 1024 ** 2)} MB of memory`);
  faults.push(...checkBook(book, () => []));
  if (countRows(book, 'inbox') !== 1) faults.push(`${countRows(book, 'inbox')} files are in the inbox`);
  return { answered: `${answered} Memory grew by at most ${Math.max(0, Math.round(grownBytes / 1024 ** 2))} MB.`, faults };
}
