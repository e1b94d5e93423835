/** A logger's column and the thermometers of its point: each row is kept only for a time when that logger sat there. */
import type { ColumnPlace } from '../../../app/probes/log-columns.ts';
import type { RefusedRow } from '../../../app/probes/log-types.ts';
import type { ReadingColumns } from '../../../app/probes/reading-columns.ts';
import type { StoredPoint } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { instrumentAt } from './point-instrument.ts';
import { sayInstant } from './when.ts';

export interface SplitColumn {
  readonly instrumentId: string | null;
  /** The rows that are kept: all of them where the point had one thermometer. */
  readonly place: ColumnPlace;
  /** Of a time when another thermometer was in the point. */
  readonly refused: readonly RefusedRow[];
}

/**
 * @param named the thermometer that the column is from; undefined where nobody said
 * @throws Refusal INVALID_INPUT: the column runs over a change and nobody said which thermometer it is from, the one
 *   that is named was never in the point, or no row is of its time
 */
export function splitByInstrument(room: BookRoom, point: StoredPoint, place: ColumnPlace, named: string | null | undefined, path: readonly (string | number)[]): SplitColumn {
  const earlier = point.earlierInstruments ?? [];
  // A place of the office is read with any thermometer.
  if (point.loadId === null) return { instrumentId: named ?? point.instrumentId, place, refused: [] };
  if (earlier.length === 0 && (named === undefined || named === point.instrumentId)) return { instrumentId: point.instrumentId, place, refused: [] };
  const { atMs } = place.columns;
  const there = [...new Set([...earlier.map((one) => one.instrumentId), point.instrumentId])];
  if (named !== undefined && !there.includes(named)) {
    refuseInput(`${nameOf(room, named)} was never in “${point.name}”.`, path, 'Say first from when on it was there (another thermometer in a piece), or choose the one that was.');
  }
  const met = [...new Set(Array.from(atMs, (at) => instrumentAt(point, at)))];
  const [only] = met;
  const instrumentId = named === undefined && met.length === 1 ? only : named;
  if (instrumentId === undefined) {
    const changes = earlier.map((one) => `${nameOf(room, one.instrumentId)} until ${sayInstant(room, one.untilMs)}`).join(', ');
    refuseInput(`Column “${place.name}” runs over a change: “${point.name}” was read with ${changes}, and with ${nameOf(room, point.instrumentId)} from then on.`, path, 'Choose which of them the column is from; its rows of the other’s time are left out.');
  }
  const isKept = Uint8Array.from(atMs, (at) => (instrumentAt(point, at) === instrumentId ? 1 : 0));
  const refused = Array.from(isKept, (kept, row) => ({ kept, row })).filter(({ kept }) => kept === 0).map(({ row }): RefusedRow => ({
    line: place.lines[row] ?? 0, reason: `In “${place.name}”: ${nameOf(room, instrumentAt(point, atMs[row] ?? 0))} was in “${point.name}” then, not ${nameOf(room, instrumentId)}.`,
  }));
  if (refused.length === atMs.length) refuseInput(`No reading of column “${place.name}” is of a time when ${nameOf(room, instrumentId)} was in “${point.name}”.`, path, 'Leave the column out, or choose the thermometer that was there then.');
  return { instrumentId, place: refused.length === 0 ? place : keepRows(place, isKept), refused };
}

function keepRows(place: ColumnPlace, isKept: Uint8Array): ColumnPlace {
  const { columns, lines } = place;
  const only = <T>(_value: T, row: number): boolean => isKept[row] === 1;
  const kept: ReadingColumns = {
    unit: columns.unit,
    atMs: columns.atMs.filter(only),
    lowTicks: columns.lowTicks.filter(only),
    cut: columns.cut === null ? null : columns.cut.filter(only),
    texts: 'decimals' in columns.texts ? columns.texts : columns.texts.filter(only),
  };
  return { ...place, columns: kept, lines: lines.filter(only) };
}

function nameOf(room: BookRoom, instrumentId: string | null): string {
  return instrumentId === null ? 'a thermometer by hand' : (room.book.shelf('instruments').get(instrumentId)?.name ?? 'a thermometer that is not on file');
}
