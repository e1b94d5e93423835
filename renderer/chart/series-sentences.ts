/** The lines of a chart in sentences: for who can't see it, and for the telephone. Pure. */
import type { Formats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import { insideOf } from './chart-lines.ts';
import { gapEnds, type Line } from './chart-model.ts';
import type { TimeSpan } from './chart-view.ts';

const text = words.chart.sentences;

/** What one line shows: where it begins and ends, its highest and lowest reading, and its gaps. */
export function sayLine(line: Line, span: TimeSpan, formats: Pick<Formats, 'temperature' | 'moment'>): string {
  const { from, end } = insideOf(line, span);
  const count = end - from;
  const value = (index: number): string => formats.temperature(line.ticks[index] ?? 0);
  const moment = (index: number): string => formats.moment(line.atMs[index] ?? 0);
  if (count <= 0) return text.empty(line.name);
  if (count === 1) return text.one(line.name, moment(from), value(from));
  let [lowest, highest] = [from, from];
  for (let index = from; index < end; index += 1) {
    if ((line.ticks[index] ?? 0) < (line.ticks[lowest] ?? 0)) lowest = index;
    if ((line.ticks[index] ?? 0) > (line.ticks[highest] ?? 0)) highest = index;
  }
  const readings = grouped(line.isWhole ? count : line.readings);
  const told = line.ticks[lowest] === line.ticks[highest]
    ? [text.steady(line.name, readings, moment(from), moment(end - 1), value(from))]
    : [text.run(line.name, readings, moment(from), value(from), moment(end - 1), value(end - 1)), text.highest(value(highest), moment(highest)), text.lowest(value(lowest), moment(lowest))];
  return [...told, ...sayGaps(line, span, moment)].join(' ');
}

function sayGaps(line: Line, span: TimeSpan, moment: (index: number) => string): string[] {
  const gaps = gapEnds(line).filter(([before, after]) => (line.atMs[before] ?? 0) < span.toMs && (line.atMs[after] ?? 0) > span.fromMs);
  const lengthOf = ([before, after]: readonly [number, number]): number => (line.atMs[after] ?? 0) - (line.atMs[before] ?? 0);
  const longest = gaps.toSorted((one, other) => lengthOf(other) - lengthOf(one))[0];
  if (longest === undefined) return [];
  const [from, to] = [moment(longest[0]), moment(longest[1])];
  return [gaps.length === 1 ? text.gap(from, to) : text.gaps(gaps.length, from, to)];
}

/** 86400 as “86,400”. */
export function grouped(count: number): string {
  return count.toLocaleString('en-US');
}
