/** Random soaks and laboratory samples. */
import type { JudgeCase, MeasuredPoint, SaltSample } from '../../../app/limits/judge-case.ts';
import type { Dice } from '../dice.ts';
import { batchWith, drawMarks, drawMinutes, drawNear, drawTerms, recordsWith, writeDown, type Row, type Unit } from './record.ts';

/** A soak of about four hours: its brine, its room, its marks. */
export function drawSoak(dice: Dice, brineF: number, roomF: number): JudgeCase {
  const unit: Unit = dice.pick(['F', 'C']);
  const hours = dice.pick([2, 3.5, 4, 4, 4.5, 9]);
  const brineStep = dice.pick([20, 30, 60, 120]);
  const brineRows = drawMinutes(dice, dice.pick([0, 1, 2, Math.ceil((hours * 60) / brineStep) + 1]), brineStep, 150).map((minute, index): Row => [minute, index === 0 ? drawNear(dice, brineF, 'below', 4) : 50]);
  const roomStep = dice.pick([5, 15, 30]);
  const roomRows = drawMinutes(dice, dice.pick([0, 1, 5, 15]), roomStep, 150).map((minute): Row => [minute, drawNear(dice, roomF, 'below', dice.pick([4, 200]))]);
  const points: MeasuredPoint[] = [
    ...(dice.once(15) ? [] : [{ name: 'Tub', role: 'brine' as const, readings: writeDown(dice, brineRows, unit, false) }]),
    ...(dice.once(15) ? [] : [{ name: 'Room', role: 'room' as const, readings: writeDown(dice, roomRows, unit, false) }]),
  ];
  const marks = drawMarks(dice, brineRows.length > 0 ? brineRows : roomRows, 60);
  const exact = dice.once(3) && marks.inMs !== undefined ? { ...marks, outMs: marks.inMs + (240 + dice.whole(-1, 1)) * 60_000 } : marks;
  return batchWith(dice.shuffle(points), { ...drawTerms(dice, 15), facts: { cure: 'wet' }, records: recordsWith('soak', { ...exact, open: dice.once(4) }) });
}

/** Up to four laboratory samples around a limit; some exactly at it, some with a method's error, some without nitrite. */
export function drawSamples(dice: Dice, percent: number, mostPpm: number): SaltSample[] {
  return Array.from({ length: dice.pick([0, 1, 1, 2, 3, 4]) }, () => {
    // Whole per cents of moisture times the limit give sums that are the limit exactly.
    const moisture = dice.whole(4000, 7000);
    const atLimit = Math.round((percent * moisture) / (100 - percent));
    const isExact = dice.once(3);
    const salt = isExact ? Math.round(percent * 58) : Math.max(1, atLimit + dice.whole(-3, dice.pick([3, 40])));
    const water = isExact ? 5800 - salt : moisture;
    const errorPercent = dice.once(3) ? decimal(dice.whole(0, 40), 2) : undefined;
    const ppm = dice.pick([mostPpm, mostPpm * 10, mostPpm * 10 + 1, dice.whole(0, mostPpm * 12), 1000, 999, 0]);
    return {
      saltPercent: decimal(salt, 2), moisturePercent: decimal(water, 2),
      ...(errorPercent === undefined ? {} : { errorPercent }), ...(dice.once(8) ? {} : { nitritePpm: decimal(ppm, 1) }),
    };
  });
}

/** Up to three samples of salt in the whole contents, near a limit or exactly at it. */
export function drawTotalSalt(dice: Dice, percent: number): SaltSample[] {
  return Array.from({ length: dice.pick([0, 1, 1, 2, 3]) }, () => {
    const saltPercent = decimal(percent * 100 + dice.pick([0, dice.whole(-2, 2), dice.whole(0, 60)]), 2);
    return { saltPercent, moisturePercent: '60', ...(dice.once(3) ? { errorPercent: decimal(dice.whole(0, 30), 2) } : {}) };
  });
}

function decimal(count: number, places: number): string {
  const digits = String(count).padStart(places + 1, '0');
  return `${digits.slice(0, -places)}.${digits.slice(-places)}`;
}
