/** Random coolings: a fall that comes near its times, with crossings at readings and between them, warm-ups and second holds. */
import type { JudgeCase, MeasuredPoint } from '../../../app/limits/judge-case.ts';
import type { Dice } from '../dice.ts';
import { batchWith, drawTerms, recordsWith, splitInTwo, writeDown, type Row, type Unit } from './record.ts';

/** What a fall passes: its start and targets, and about how many minutes they take. */
export interface Fall {
  readonly limitsF: readonly number[];
  readonly minutes: readonly number[];
}

/** A batch of one to three pieces that are cooling; some are still hot, some were put down before. */
export function drawCooling(dice: Dice, fall: Fall): JudgeCase {
  const unit: Unit = dice.pick(['F', 'F', 'C']);
  const all = Array.from({ length: dice.pick([1, 1, 1, 2, 3]) }, () => drawPiece(dice, fall));
  const points = all.flatMap(({ rows }, index): MeasuredPoint[] => splitInTwo(dice, {
    name: `P${index + 1}`, role: 'piece', readings: writeDown(dice, rows, unit, false), ...(dice.once(2) ? { thicknessMm: dice.whole(10, 60) } : {}),
  }));
  const ended = all[0]?.endMinute ?? 0;
  const endMinute = dice.pick([undefined, ended, ended - dice.whole(0, 30), ended + dice.whole(0, 15)]);
  const firstMinute = all[0]?.rows[0]?.[0] ?? 0;
  const inMinute = dice.pick([undefined, undefined, firstMinute, firstMinute - 20, firstMinute + dice.whole(0, 40)]);
  return batchWith(dice.shuffle(points), {
    ...drawTerms(dice, 5),
    errorTicks: dice.pick([0, 0, 0, 500, 5000, dice.whole(1, 12_000)]),
    records: recordsWith('process', { open: dice.once(3), ...(inMinute === undefined ? {} : { inMs: inMinute * 60_000 }) }),
    ...(endMinute === undefined ? {} : { endOfSmokingMs: endMinute * 60_000 }),
  });
}

function drawPiece(dice: Dice, fall: Fall): { readonly rows: Row[]; readonly endMinute: number } {
  const rows: Row[] = [];
  let minute = 0;
  const hold = () => {
    if (dice.once(2)) rows.push([minute, dice.whole(400, 1400) / 10]);
    const count = dice.pick([2, 6, 7, 7, 8, 10]);
    for (let index = 0; index < count; index += 1) {
      minute += dice.pick([5, 5, 5, 5, 4, 6]);
      rows.push([minute, 145 + dice.whole(0, 40) / 10 - (dice.once(25) ? 3 : 0)]);
    }
  };
  if (!dice.once(3)) hold();
  const endMinute = minute;
  let last = descend(dice, fall, minute, rows);
  if (dice.once(6)) {
    minute = last + dice.whole(5, 60);
    hold();
    last = descend(dice, fall, minute, rows);
  }
  const kept = dice.once(4) ? rows.slice(0, dice.whole(0, rows.length)) : rows;
  return { rows: kept, endMinute };
}

/** Readings on a fall through every limit, each passed about when its time is up; returns the last minute. */
function descend(dice: Dice, fall: Fall, fromMinute: number, rows: Row[]): number {
  const startF = dice.pick([fall.limitsF[0] ?? 135, 146, 142, 134, 128]);
  const hurry = dice.pick([0.6, 0.9, 1, 1, 1.1]);
  let minute = fromMinute + dice.pick([0, 0, 5, 12]);
  let degrees = startF;
  rows.push([minute, degrees]);
  fall.minutes.forEach((allowed, index) => {
    const target = fall.limitsF[index + 1] ?? 40;
    const began = index === 0 ? minute : fromMinute + (fall.minutes[index - 1] ?? 0);
    const until = Math.max(minute + 3, fromMinute + Math.round((allowed + dice.whole(-10, 10)) * hurry));
    const count = dice.whole(1, 6);
    const top = degrees;
    for (let step = 1; step <= count; step += 1) {
      const share = step / count;
      minute = Math.max(minute + (dice.once(20) ? 0 : 1), Math.round(began + (until - began) * share));
      const near = top + (target - top) * share + (dice.once(5) ? dice.whole(-80, 80) / 10 : 0);
      degrees = dice.once(6) ? dice.pick(fall.limitsF) : dice.once(12) ? target + dice.whole(-15, 15) / 10 : Math.round(near * 10) / 10;
      rows.push([minute, degrees]);
    }
    if (dice.once(3)) rows.push([(minute += dice.whole(1, 30)), target - dice.whole(0, 20) / 10]);
    degrees = Math.min(degrees, target + 2);
  });
  if (dice.once(2)) rows.push([(minute += dice.whole(1, 150)), 36 + dice.whole(-20, 60) / 10]);
  return minute;
}
