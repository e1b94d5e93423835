/**
 * A process of its own that keeps live readings as fast as it can, closes them into the record now and then, and says of
 * each message that it is in the book once keeping it has returned. Arguments: the book's file, the number of the first message.
 */
import { writeSync } from 'node:fs';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { MESSAGES_A_CLOSE, messageOf, placesBefore, pointsOf, POINTS, rowsOf } from './live-rows.ts';

const [file = '', first = '0'] = process.argv.slice(2);
const clock = { nowMs: () => Date.now() };
const handle = openBookFile(file, { clock });
const book = handle.reader();
const places = placesBefore(Number(first));
writeSync(1, 'ready\n');

for (let number = Number(first); ; number += 1) {
  const messages = messageOf(number, places);
  const [only] = messages;
  if (messages.length === 1 && only !== undefined) book.keepLive(only.about, only.rows);
  else book.keepLiveTogether(messages);
  writeSync(1, `kept ${number}\n`);
  for (const point of pointsOf(number)) places[point] = (places[point] ?? 0) + rowsOf(number);
  if (number % MESSAGES_A_CLOSE === 0) closePoint(POINTS[(number / MESSAGES_A_CLOSE) % POINTS.length] ?? '', number);
}

function closePoint(pointId: string, number: number): void {
  handle.command((as) => {
    const writing = as({ personId: null, initials: '', device: 'feed', commandId: null, nowMs: clock.nowMs, newId: () => `${process.pid}-${number}` });
    const count = writing.closeLive(pointId);
    writing.record({ kind: 'readings.live', subjectId: pointId, happenedAtMs: null, summary: `Closed ${count} live readings.`, after: { count } });
  });
}
