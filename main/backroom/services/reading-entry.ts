/** Readings typed by a person: by hand, or copied from paper. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { StoredPoint } from '../book/stored.ts';
import type { BookRoom, KeptReading, ReadingsToKeep } from '../room.ts';
import { announceReadings } from './reading-news.ts';
import { keepPoint, subjectOf } from './measuring.ts';
import { refuseWrongSheet } from './paper-sheet-entry.ts';
import { instrumentAt } from './point-instrument.ts';
import { sortTwice } from './readings-twice.ts';
import { readTypedTemperature } from './typed-temperature.ts';
import { refuseFuture } from './when.ts';

type Entering = Parsed<'readings.enter'>;

interface TypedReading {
  readonly point: StoredPoint;
  readonly instrumentId: string | null;
  readonly unit: 'F' | 'C';
  readonly row: KeptReading;
}

/**
 * Keeps typed readings of pieces, chambers and places; late ones are kept like any other, with the time entered.
 * @returns how many were new, and what of them was typed before for the same minute
 * @throws Refusal INVALID_INPUT naming the reading: not a temperature, still to come, an unknown point or instrument
 */
export function enterReadings(room: BookRoom, input: Entering): Output<'readings.enter'> {
  const typed = input.readings.map((reading, index): TypedReading => {
    refuseFuture(room, reading.atMs, ['readings', index, 'atMs']);
    const { lowTicks, highTicks, text } = readTypedTemperature(reading.value, ['readings', index, 'value']);
    if (reading.instrumentId !== null) room.book.shelf('instruments').need(reading.instrumentId);
    const row = { atMs: reading.atMs, lowTicks, highTicks, text };
    const point = keepPoint(room, reading.pointId);
    // The point’s own thermometer is the one that sat in it then.
    const instrumentId = reading.instrumentId === point.instrumentId ? instrumentAt(point, reading.atMs) : reading.instrumentId;
    return { point, instrumentId, unit: reading.value.unit, row };
  });
  refuseWrongSheet(room, input.how === 'copied-from-paper' ? input.sheet : undefined, typed.map((reading) => reading.point));
  const { fresh, already, beside } = sortTwice(room, typed);
  let kept = 0;
  for (const [subjectId, mine] of groupBy(fresh, (reading) => subjectOf(reading.point))) {
    for (const readings of groupsToKeep(mine, input)) kept += room.book.keepReadings(readings).kept;
    recordTyped(room, subjectId, mine, input);
  }
  announceReadings(room, fresh.map((reading) => reading.point));
  return { kept, ...(already.length === 0 ? {} : { already: already.length }), ...(beside.length === 0 ? {} : { beside: [...beside] }) };
}

/** What the record says of where they come from. */
function sourceOf({ how, sheet }: Pick<Entering, 'how' | 'sheet'>): string {
  return how === 'copied-from-paper' && sheet !== undefined ? `sheet ${sheet}` : 'typed';
}

function groupsToKeep(typed: readonly TypedReading[], input: Entering): ReadingsToKeep[] {
  return [...groupBy(typed, ({ point, instrumentId, unit }) => JSON.stringify([point.id, instrumentId, unit])).values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    const { point, instrumentId, unit } = first;
    return [{ pointId: point.id, instrumentId, unit, how: input.how, source: sourceOf(input), rows: group.map((reading) => reading.row) }];
  });
}

function recordTyped(room: BookRoom, subjectId: string, typed: readonly TypedReading[], { how, sheet }: Entering): void {
  const words = typed.map(({ point, row, unit }) => `${point.name} ${row.text} °${unit}`).join(', ');
  room.book.record({
    kind: 'readings.enter', subjectId,
    happenedAtMs: Math.min(...typed.map(({ row }) => row.atMs)),
    summary: `${how === 'by-hand' ? 'Read by hand' : sheet === undefined ? 'Copied from paper' : `Copied from sheet ${sheet}`}: ${words.length > 160 ? `${typed.length} readings` : words}.`,
    after: { how, ...(how === 'copied-from-paper' && sheet !== undefined ? { sheet } : {}), readings: typed.map(({ point, instrumentId, unit, row }) => ({ pointId: point.id, instrumentId, unit, atMs: row.atMs, text: row.text })) },
  });
}

function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}
