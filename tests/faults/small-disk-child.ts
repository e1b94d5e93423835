/**
 * A process of its own whose folder lies on a small disk: fills it up at bad moments, and says of each case on a line of
 * JSON what was answered, and what of it should not be. Arguments: the folder; `limit` where the disk is not small, and
 * this process is forbidden to write a longer file instead.
 */
import { execFileSync } from 'node:child_process';
import { closeSync, ftruncateSync, openSync, readdirSync, rmSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Reply } from '../../app/contract/envelope.ts';
import { expectedFailure } from '../../main/backroom/failures.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { checkBook, countRows, differenceOf } from './book-check.ts';
import { openFaultKitchen, STORES, valueOf } from './fault-kitchen.ts';
import { sayThrown } from './fault.ts';
import { importInput, logBytes, logMs, logNameOf, LOG_ROWS, logTicks } from './store-log.ts';

const [folder = '', kind = 'disk'] = process.argv.slice(2);
const file = join(folder, 'kitchen.alderbook');
const ballast = join(folder, 'holiday-pictures');
const PAGE = 4096;
/** Of util-linux: changes a limit of a process that runs. */
const LIMIT_TOOL = 'prlimit';

function say(name: string, answered: string, faults: readonly string[]): void {
  writeSync(1, `${JSON.stringify({ name, answered, faults })}\n`);
}

/** Writes until the disk takes no more, then gives back so much of it. */
function fillUp(leftBytes: number): void {
  if (kind === 'limit') {
    const log = statSync(`${file}-wal`, { throwIfNoEntry: false })?.size ?? 0;
    execFileSync(LIMIT_TOOL, ['--pid', String(process.pid), `--fsize=${log + leftBytes}:`]);
    return;
  }
  const handle = openSync(ballast, 'w');
  let size = 0;
  try {
    for (const part = Buffer.alloc(PAGE, 1); size < 64 * 1024 * 1024; size += PAGE) if (writeSync(handle, part) < PAGE) break;
  } catch (thrown) {
    if (!(thrown instanceof Error && 'code' in thrown && thrown.code === 'ENOSPC')) throw thrown;
  }
  ftruncateSync(handle, Math.max(0, size - leftBytes));
  closeSync(handle);
}
function makeRoom(): void {
  if (kind === 'limit') execFileSync(LIMIT_TOOL, ['--pid', String(process.pid), '--fsize=unlimited:']);
  rmSync(ballast, { force: true });
}

/** Of what could not be done: the sentence, and whether it is the one for a full disk, or for one that fails where a file may not grow. */
function refusedFull(reply: Reply<unknown>): { answered: string; faults: string[] } {
  if (reply.ok) return { answered: 'answered', faults: ['it was answered on a full disk'] };
  const { code, message, remedy = '' } = reply.error;
  return { answered: `${code}: ${message} ${remedy}`, faults: isFull(code) ? [] : [`it was refused as ${code}`] };
}

function isFull(code: string | undefined): boolean {
  return code === 'DISK_FULL' || (kind === 'limit' && code === 'FILE_UNREADABLE');
}

function wholeFaults(storeIds: readonly string[], imports: number): string[] {
  return checkBook(file, (book) => storeIds.flatMap((pointId, store) => differenceOf(book.seriesOf(pointId), imports * LOG_ROWS, (index) => {
    const number = Math.floor(index / LOG_ROWS);
    return { atMs: logMs(number, index % LOG_ROWS), ticks: logTicks(number, store, index % LOG_ROWS) };
  }) ?? []));
}

let kitchen = await openFaultKitchen(file);
const { storeIds } = kitchen;
async function importLog(number: number): Promise<Reply<unknown>> {
  const { fileId } = valueOf(await kitchen.takeFile(logNameOf(number), logBytes(number)));
  return kitchen.ask('readings.import', importInput(fileId, storeIds), `import-${number}`);
}
valueOf(await importLog(0));

async function inboxOnFullDisk(): Promise<void> {
  // The log of a book that was just opened is empty, and has no room of its own.
  await kitchen.close();
  kitchen = await openFaultKitchen(file);
  fillUp(2 * PAGE);
  const refused = refusedFull(await kitchen.takeFile(logNameOf(1), logBytes(1)));
  makeRoom();
  valueOf(await kitchen.takeFile(logNameOf(1), logBytes(1)));
  say('a file for the inbox', refused.answered, refused.faults);
}

async function importOnFullDisk(): Promise<void> {
  const { fileId } = valueOf(await kitchen.takeFile(logNameOf(1), logBytes(1)));
  fillUp(4 * PAGE);
  const refused = refusedFull(await kitchen.ask('readings.import', importInput(fileId, storeIds), 'import-1'));
  const status = valueOf(await kitchen.ask('office.get', {}));
  makeRoom();
  if (status.places.length !== STORES) refused.faults.push('the book could not be read while the disk was full');
  await kitchen.close();
  refused.faults.push(...wholeFaults(storeIds, 1));
  kitchen = await openFaultKitchen(file);
  // The same command again, with room.
  const again = await kitchen.ask('readings.import', importInput(fileId, storeIds), 'import-1');
  if (!again.ok) refused.faults.push(`with room again: ${again.error.message}`);
  await kitchen.close();
  refused.faults.push(...wholeFaults(storeIds, 2));
  say('an import', refused.answered, refused.faults);
}

function liveOnFullDisk(): void {
  const handle = openBookFile(file, { clock: { nowMs: () => Date.now() } });
  const about = { pointId: 'live', instrumentId: null, source: 'feed', unit: 'C' } as const;
  const rowAt = (place: number) => ({ atMs: place * 1000, lowTicks: 900 * (place % 300), highTicks: 900 * (place % 300), text: ((place % 300) / 10).toFixed(1) });
  let [kept, answered, faults] = [0, 'never', [] as string[]];
  fillUp(24 * PAGE);
  try {
    for (; kept < 100_000; kept += 1) handle.reader().keepLive(about, [rowAt(kept)]);
  } catch (thrown) {
    const failure = expectedFailure(thrown);
    answered = failure === undefined ? sayThrown(thrown) : `${failure.code}: ${failure.message} (after ${kept} readings)`;
    faults = isFull(failure?.code) ? [] : [`it was refused as ${answered}`];
  }
  if (kept === 0 || kept === 100_000) faults.push(`${kept} readings were kept`);
  const differs = (from: string): void => {
    const difference = differenceOf(handle.reader().seriesOf('live'), kept, (place) => ({ atMs: place * 1000, ticks: 900 * (place % 300) }));
    if (difference !== undefined) faults.push(`${from}: ${difference}`);
  };
  differs('while the disk is full');
  makeRoom();
  for (const end = kept + 10; kept < end; kept += 1) handle.reader().keepLive(about, [rowAt(kept)]);
  differs('with room again');
  handle.close();
  faults.push(...wholeFaults(storeIds, 2));
  say('live readings', answered, faults);
}

/** A full disk can't take the log back into the book: both lie there, and with room they are one again. */
async function closeAndOpenOnFullDisk(): Promise<void> {
  kitchen = await openFaultKitchen(file);
  valueOf(await importLog(2));
  fillUp(0);
  const faults: string[] = [];
  try {
    await kitchen.close();
  } catch (thrown) {
    faults.push(`closing threw ${sayThrown(thrown)}`);
  }
  let answered = 'opened';
  try {
    openBookFile(file, { clock: { nowMs: () => Date.now() } }).close();
  } catch (thrown) {
    const failure = expectedFailure(thrown);
    answered = failure === undefined ? sayThrown(thrown) : `${failure.code}: ${failure.message}`;
    if (!isFull(failure?.code)) faults.push(`opening was refused as ${answered}`);
  }
  const logWasThere = readdirSync(folder).includes('kitchen.alderbook-wal');
  makeRoom();
  faults.push(...wholeFaults(storeIds, 3));
  say('closing and opening', `${answered}${logWasThere ? ', the log beside it' : ''}`, faults);
}

async function backUpOnFullDisk(): Promise<void> {
  kitchen = await openFaultKitchen(file);
  fillUp(16 * PAGE);
  const before = readdirSync(folder).length;
  const refused = refusedFull(await kitchen.ask('book.backUp', {}));
  if (readdirSync(folder).length !== before) refused.faults.push(`it left ${readdirSync(folder).join(', ')}`);
  makeRoom();
  await kitchen.close();
  refused.faults.push(...wholeFaults(storeIds, 3));
  say('a backup', refused.answered, refused.faults);
}

await inboxOnFullDisk();
await importOnFullDisk();
liveOnFullDisk();
await closeAndOpenOnFullDisk();
await backUpOnFullDisk();
if (countRows(file, 'inbox') !== 3) say('the inbox', 'looked at', [`${countRows(file, 'inbox')} files instead of 3`]);
