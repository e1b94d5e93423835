/** Hours as a kitchen says them. Pure. */
import type { PieceForecast } from '../../../app/contract/requests/tub.ts';
import { words } from '../../words/words.ts';

const { hours: text, forecast } = words.brineBench;
const QUARTER_MINUTES = 15;
/** From here on a part of an hour is more than such a figure can tell. */
const WHOLE_FROM_HOURS = 3;

/** One length of time: quarters of an hour below one hour, halves below three, whole hours from there. */
export function sayHours(hours: number): string {
  if (hours < 1) {
    const minutes = Math.max(QUARTER_MINUTES, Math.round(hours * 60 / QUARTER_MINUTES) * QUARTER_MINUTES);
    return minutes === 60 ? text.hours('1') : text.minutes(minutes);
  }
  const halves = Math.round(hours * 2);
  return text.hours(halves < WHOLE_FROM_HOURS * 2 ? String(halves / 2) : String(Math.round(hours)));
}

/** When a piece reaches the goal, in a sentence: likely and how early and late it may be. */
export function sayReaches({ earliest, likely, latest }: PieceForecast['reaches']): string {
  if (earliest === null) return forecast.never;
  if (likely === null) return forecast.reaches(text.from(sayHours(earliest)));
  if (likely === 0) return forecast.already;
  if (latest === null) return forecast.reaches(text.aboutOpen(sayHours(likely), sayHours(earliest)));
  const [early, about, late] = [sayHours(earliest), sayHours(likely), sayHours(latest)];
  return forecast.reaches(early === late ? text.exactly(about) : text.about(about, shortRange(early, late), late));
}

/** “6” of “6 h to 15 h”: the unit is said once where both have it. */
function shortRange(early: string, late: string): string {
  const unit = / \S+$/.exec(late)?.[0] ?? '';
  return early.endsWith(unit) ? early.slice(0, early.length - unit.length) : early;
}
