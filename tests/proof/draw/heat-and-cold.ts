/** Random records of smoking, freezing and keeping. */
import type { EarlyRecordKind, JudgeCase, MeasuredPoint, PointRole, RecordKind } from '../../../app/limits/judge-case.ts';
import type { Dice } from '../dice.ts';
import { batchWith, drawMarks, drawMinutes, drawNear, drawTerms, recordsWith, splitInTwo, writeDown, type Row, type Unit } from './record.ts';

/** What a record of a place comes near. */
export interface Near {
  readonly limitF: number;
  readonly side: 'above' | 'below';
  readonly stepMinutes: number;
  readonly gapMinutes: number;
  readonly most: number;
}

/** One record near a limit; a few are a single reading or none. */
export function drawRows(dice: Dice, near: Near): Row[] {
  const count = dice.once(30) ? dice.whole(0, 2) : dice.whole(3, near.most);
  const outOnceIn = dice.pick([3, 10, 25, 200]);
  return drawMinutes(dice, count, near.stepMinutes, near.gapMinutes).map((minute): Row => [minute, drawNear(dice, near.limitF, near.side, outOnceIn)]);
}

/** A hot batch of one to four pieces; some pieces were only looked at once or twice. */
export function drawHeat(dice: Dice, limitF = 145): JudgeCase {
  const stepMinutes = dice.pick([1, 3, 5, 5, 6, 10]);
  const unit: Unit = dice.pick(['F', 'C']);
  const near: Near = { limitF, side: 'above', stepMinutes, gapMinutes: 45, most: Math.ceil(60 / stepMinutes) + 4 };
  const all: Row[][] = Array.from({ length: dice.pick([1, 1, 2, 3, 4]) }, () => {
    const rows = drawRows(dice, near);
    return dice.once(6) ? rows.slice(0, dice.whole(0, 3)).map(([minute, value]): Row => [minute + dice.whole(0, 40), value]).sort(([left], [right]) => left - right) : rows;
  });
  const points = all.flatMap((rows, index) => splitInTwo(dice, { name: `P${index + 1}`, role: 'piece', readings: writeDown(dice, rows, unit) }));
  const marks = drawMarks(dice, all[0] ?? [], 25);
  return batchWith(dice.shuffle(points), { ...drawTerms(dice, stepMinutes), records: recordsWith('process', { ...marks, open: dice.once(3) }) });
}

/** A freezing of the hours that a limit asks, of pieces, of a store, or of both. */
export function drawFreezing(dice: Dice, limitF: number, hours: number): JudgeCase {
  const stepMinutes = dice.pick([Math.ceil(hours * 1.5), hours * 3, hours * 4, hours * 6]);
  const near: Near = { limitF, side: 'below', stepMinutes, gapMinutes: hours * 20, most: Math.ceil((hours * 60) / stepMinutes) + 6 };
  const unit: Unit = dice.pick(['F', 'C']);
  const place = (name: string, role: PointRole): MeasuredPoint => ({ name, role, record: 'freezer', readings: writeDown(dice, drawRows(dice, near), unit) });
  const pieces = Array.from({ length: dice.pick([0, 0, 1, 2]) }, (_, index) => place(`P${index + 1}`, 'piece'));
  const stores = Array.from({ length: pieces.length === 0 ? dice.pick([1, 1, 2, 0]) : dice.pick([0, 1]) }, (_, index) => place(`Freezer ${index + 1}`, 'store'));
  const points = [...pieces, ...stores];
  const rows: Row[] = (points[0]?.readings ?? []).map(({ atMs }): Row => [atMs / 60_000, 0]).sort(([left], [right]) => left - right);
  const marks = drawMarks(dice, rows, hours * 10);
  return batchWith(dice.shuffle(points.flatMap((point) => splitInTwo(dice, point))), { process: 'cold', ...drawTerms(dice, stepMinutes), records: recordsWith('freezer', { ...marks, open: dice.once(3) }) });
}

/** A place under a maximum, as a chamber, a room or a store. */
export function drawUnder(dice: Dice, role: PointRole, record: RecordKind | EarlyRecordKind, limitF: number, hours: number): JudgeCase {
  const stepMinutes = dice.pick([5, 14, 15, 30, 60, 60]);
  const near: Near = { limitF, side: 'below', stepMinutes, gapMinutes: 200, most: Math.min(30, Math.ceil((hours * 60) / stepMinutes) + 6) };
  const unit: Unit = dice.pick(['F', 'C']);
  const all = Array.from({ length: dice.pick([1, 1, 1, 2]) }, () => drawRows(dice, near));
  const points = all.map((rows, index): MeasuredPoint => ({ name: `Place ${index + 1}`, role, record, readings: writeDown(dice, rows, unit) }));
  const marks = drawMarks(dice, all[0] ?? [], 130);
  const longMarks = dice.once(4) && marks.inMs !== undefined ? { ...marks, outMs: marks.inMs + (hours * 60 + dice.whole(-2, 2)) * 60_000 } : marks;
  return batchWith(dice.shuffle(points.flatMap((point) => splitInTwo(dice, point))), {
    process: role === 'chamber' ? 'cold' : 'hot', ...drawTerms(dice, stepMinutes), records: recordsWith(record, { ...longMarks, open: dice.once(3) }),
    ...(dice.once(2) ? { readingsStandForMarks: true } : {}),
  });
}

/** A store of finished fish, warm at first, with or without the time it was chilled. */
export function drawStore(dice: Dice, limitF: number, store: 'refrigerated' | 'frozen'): JudgeCase {
  const batch = warmAtFirst(dice, drawUnder(dice, 'store', 'store', limitF, 24));
  const chilledMinute = dice.pick([undefined, undefined, dice.whole(0, 400)]);
  return { ...batch, store, ...(chilledMinute === undefined ? {} : { chilledMs: chilledMinute * 60_000 }) };
}

/** Raw or thawing fish, its pieces or its store, warm at first or not. */
export function drawBefore(dice: Dice, role: PointRole, record: EarlyRecordKind, limitF: number): JudgeCase {
  const batch = drawUnder(dice, role, record, limitF, 12);
  return { ...(dice.once(2) ? warmAtFirst(dice, batch) : batch), facts: { wasFrozen: record === 'thaw' } };
}

function warmAtFirst(dice: Dice, batch: JudgeCase): JudgeCase {
  const warm = dice.whole(0, 4);
  const points = batch.points.map((point): MeasuredPoint => {
    const begins = [...point.readings].sort((left, right) => left.atMs - right.atMs).slice(0, warm).map(({ atMs }) => atMs);
    return { ...point, readings: point.readings.map((reading) => begins.includes(reading.atMs) ? { ...reading, lowTicks: reading.lowTicks + 40_000, highTicks: reading.highTicks + 40_000 } : reading) };
  });
  return { ...batch, points };
}
