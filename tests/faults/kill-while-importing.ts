/**
 * A program killed while it takes over long logs: the book opens and is whole, every import that was answered is there
 * whole, and of one that wasn't there is all or nothing. A file that was taken into the inbox and not imported stays: it
 * was kept before it was answered, it has no reading and no entry, and choosing it again goes on with it.
 */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkBook, countRows, differenceOf } from './book-check.ts';
import { openFaultKitchen, STORES } from './fault-kitchen.ts';
import { killPlan, MOST_FAULTS, randomFrom, sayThrown, type FaultRun } from './fault.ts';
import { runAndKill } from './killed-child.ts';
import { LOG_ROWS, logMs, logTicks } from './store-log.ts';

const CHILD = new URL('./import-child.ts', import.meta.url);
/** A book is used for so many kills, then a fresh one: what is checked grows with it. */
const KILLS_A_BOOK = 10;
/** Two lines an import: taken, done. */
const MOST_LINES = 10;

interface Tally {
  kills: number;
  answered: number;
  finished: number;
  overtaken: number;
  left: number;
}

/** @param count how many times it is killed */
export async function killWhileImporting(count: number, seed: number): Promise<FaultRun> {
  const folder = mkdtempSync(join(tmpdir(), 'alderbook-fault-'));
  const random = randomFrom(seed);
  const tally: Tally = { kills: 0, answered: 0, finished: 0, overtaken: 0, left: 0 };
  const faults: string[] = [];
  try {
    const fresh = join(folder, 'fresh.alderbook');
    const kitchen = await openFaultKitchen(fresh);
    await kitchen.close();
    while (tally.kills < count && faults.length < MOST_FAULTS) {
      const file = join(folder, 'kitchen.alderbook');
      copyFileSync(fresh, file);
      await killOften(file, kitchen.storeIds, Math.min(KILLS_A_BOOK, count - tally.kills), random, tally, faults);
      for (const ending of ['', '-wal', '-shm', '.holder']) rmSync(`${file}${ending}`, { force: true });
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  if (tally.finished < count / 10) faults.push(`only ${tally.finished} imports were finished: too few to say anything`);
  return {
    faults,
    details: [`${tally.kills} kills; ${tally.finished} imports of ${LOG_ROWS * STORES} readings, ${tally.answered} of them answered; ${tally.overtaken} kills within an import, ${tally.left} of whose files were in the inbox alone`],
  };
}

async function killOften(file: string, storeIds: readonly string[], kills: number, random: (below: number) => number, tally: Tally, faults: string[]): Promise<void> {
  let [before, answered] = [0, 0];
  for (let kill = 0; kill < kills; kill += 1) {
    // The one that had no answer is sent again, as a page does that had none.
    const { said, problem } = await runAndKill(CHILD, [file, String(answered)], killPlan(random, MOST_LINES));
    tally.kills += 1;
    const about = `kill ${tally.kills}`;
    if (problem !== null) faults.push(`${about}: ${problem}`);
    const done = said.findLast((line) => line.startsWith('done '))?.slice(5);
    const answeredBefore = answered;
    answered = done === undefined ? answered : Number(done) + 1;
    try {
      let whole = 0;
      const found = checkBook(file, (book) => {
        const readings = book.seriesOf(storeIds[0] ?? '').atMs.length;
        whole = Math.floor(readings / LOG_ROWS);
        return storeIds.flatMap((pointId, store) => differenceOf(book.seriesOf(pointId), whole * LOG_ROWS, (index) => {
          const number = Math.floor(index / LOG_ROWS);
          return { atMs: logMs(number, index % LOG_ROWS), ticks: logTicks(number, store, index % LOG_ROWS) };
        }) ?? []);
      });
      if (whole < answered || whole > answered + 1) found.push(`${answered} imports were answered and ${whole} are in the book`);
      const entries = countRows(file, 'entries', 'readings.import');
      if (entries !== whole * STORES) found.push(`${entries} entries for ${whole} imports of ${STORES} stores`);
      const left = countRows(file, 'inbox') - whole;
      if (left < 0 || left > 1) found.push(`${left} files of the inbox without their import`);
      faults.push(...found.map((fault) => `${about}: ${fault}`));
      const wasWithin = said.at(-1)?.startsWith('taken') === true;
      tally.finished += whole - before;
      tally.answered += answered - answeredBefore;
      if (wasWithin) tally.overtaken += 1;
      if (wasWithin && left === 1) tally.left += 1;
      before = whole;
    } catch (thrown) {
      faults.push(`${about}: ${sayThrown(thrown)}`);
      return;
    }
  }
}
