/** A program killed while it keeps live readings: the book opens and is whole, and every message that was kept is there, once. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createBookFile } from '../../main/backroom/book/create.ts';
import type { OpenBook } from '../../main/backroom/room.ts';
import { checkBook, countRows, differenceOf } from './book-check.ts';
import { killPlan, MOST_FAULTS, randomFrom, sayThrown, type FaultRun } from './fault.ts';
import { runAndKill } from './killed-child.ts';
import { liveAt, placesBefore, POINTS } from './live-rows.ts';

const CHILD = new URL('./live-child.ts', import.meta.url);
/** A book is used for so many kills, then a fresh one: what is checked grows with it. */
const KILLS_A_BOOK = 20;
const MOST_LINES = 60;

interface Tally {
  kills: number;
  messages: number;
  unanswered: number;
  closings: number;
}

/** @param count how many times it is killed */
export async function killWhileWriting(count: number, seed: number): Promise<FaultRun> {
  const folder = mkdtempSync(join(tmpdir(), 'alderbook-fault-'));
  const random = randomFrom(seed);
  const faults: string[] = [];
  const tally: Tally = { kills: 0, messages: 0, unanswered: 0, closings: 0 };
  try {
    for (let book = 0; tally.kills < count && faults.length < MOST_FAULTS; book += 1) {
      const file = join(folder, `kitchen-${book}.alderbook`);
      createBookFile(file, () => undefined);
      await killOften(file, Math.min(KILLS_A_BOOK, count - tally.kills), random, tally, faults);
      tally.closings += countRows(file, 'entries', 'readings.live');
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  if (tally.messages < count || tally.closings === 0) faults.push(`only ${tally.messages} messages and ${tally.closings} closings: too few to say anything`);
  return { faults, details: [`${tally.kills} kills; ${tally.messages} messages of up to 80 readings kept, ${tally.closings} closings; ${tally.unanswered} messages in the book without their answer`] };
}

async function killOften(file: string, kills: number, random: (below: number) => number, tally: Tally, faults: string[]): Promise<void> {
  let said = 0;
  for (let kill = 0; kill < kills; kill += 1) {
    // The message that had no answer is sent again, as an instrument does that had none.
    const killed = await runAndKill(CHILD, [file, String(said)], killPlan(random, MOST_LINES));
    tally.kills += 1;
    const about = `kill ${tally.kills}`;
    if (killed.problem !== null) faults.push(`${about}: ${killed.problem}`);
    const before = said;
    said = Number(killed.said.findLast((line) => line.startsWith('kept '))?.slice(5) ?? said - 1) + 1;
    try {
      let messages = -1;
      faults.push(...checkBook(file, (opened) => {
        messages = [said, said + 1].find((number) => differences(opened, number).length === 0) ?? -1;
        return messages === -1 ? [`${said} messages were kept: ${differences(opened, said).join(', ')}`] : [];
      }).map((fault) => `${about}: ${fault}`));
      tally.messages += said - before;
      if (messages === said + 1) tally.unanswered += 1;
    } catch (thrown) {
      faults.push(`${about}: ${sayThrown(thrown)}`);
      return;
    }
  }
}

/** What the points have otherwise than after so many messages. */
function differences(book: OpenBook, messages: number): readonly string[] {
  const places = placesBefore(messages);
  return POINTS.flatMap((pointId, point) => {
    const difference = differenceOf(book.seriesOf(pointId), places[point] ?? 0, (place) => liveAt(point, place));
    return difference === undefined ? [] : [`${pointId} has ${difference}`];
  });
}
