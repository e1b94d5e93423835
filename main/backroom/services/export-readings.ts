/** Readings as CSV: one row each, as it was read, with the thermometer and the entry that vouches for it. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { cellText, figureText, lineText } from '../../../app/packs/trace-csv.ts';
import type { BookRoom, SeriesReading } from '../room.ts';
import { type DaySpan, offsetTeller, spanOfDays } from './export-days.ts';
import { refuseInput } from './field-refusal.ts';
import { inTurns } from './in-turns.ts';
import { pointsOf } from './load-view.ts';
import { zoneOf } from './when.ts';

const COLUMNS = ['point', 'role', 'time_utc', 'time_local', 'value', 'unit', 'thermometer', 'how', 'entry'];
/** As many as a spreadsheet has rows for, its heading aside. */
const MOST_ROWS = 1_048_575;
const ROWS_A_TURN = 256;

interface ExportPoint {
  readonly id: string;
  readonly name: string;
  readonly role: string;
}

/** @throws Refusal: no such load or place, days that can't be, more rows than a spreadsheet has */
export async function exportReadings(room: BookRoom, input: Parsed<'export.readings'>): Promise<Output<'export.readings'>> {
  const { name, points } = input.of === 'load' ? ofLoad(room, input.id) : ofPlace(room, input.id);
  const zone = zoneOf(room);
  const span: DaySpan | null = input.fromDay === null && input.toDay === null ? null
    : spanOfDays(input.fromDay ?? '2000-01-01', input.toDay ?? '2099-12-30', zone);
  const { text, rows } = await inTurns(writeRows(room, points, span, zone));
  return { fileName: `readings-${name.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '')}.csv`, text, rows };
}

function ofLoad(room: BookRoom, id: string): { readonly name: string; readonly points: ExportPoint[] } {
  const load = room.book.shelf('loads').need(id);
  return { name: `load ${load.number}`, points: pointsOf(room, load).map((point) => ({ id: point.id, name: point.name, role: point.role })) };
}

function ofPlace(room: BookRoom, id: string): { readonly name: string; readonly points: ExportPoint[] } {
  const place = room.book.shelf('places').need(id);
  return { name: place.name, points: [{ id, name: place.name, role: place.kind }] };
}

function* writeRows(room: BookRoom, points: readonly ExportPoint[], span: DaySpan | null, zone: string): Generator<undefined, { readonly text: string; readonly rows: number }> {
  const chunks = [lineText(COLUMNS)];
  const instruments = new Map<string | null, string>([[null, '']]);
  const offsetMs = offsetTeller(zone);
  let rows = 0;
  for (const point of points) {
    const head = `${cellText(point.name)},${cellText(point.role)}`;
    let chunk = '';
    for (const reading of room.book.readings(point.id)) {
      if (span !== null && (reading.atMs < span.fromMs || reading.atMs >= span.toMs)) continue;
      if (!instruments.has(reading.instrumentId)) instruments.set(reading.instrumentId, cellText(room.book.shelf('instruments').get(reading.instrumentId ?? '')?.name ?? ''));
      chunk += `${head},${rowText(reading, instruments.get(reading.instrumentId) ?? '', offsetMs(reading.atMs))}`;
      rows += 1;
      if (rows > MOST_ROWS) refuseInput(`There are more than ${MOST_ROWS} readings, more than a spreadsheet has rows.`, ['fromDay'], 'Choose fewer days.');
      if (rows % ROWS_A_TURN !== 0) continue;
      chunks.push(chunk);
      chunk = '';
      yield;
    }
    chunks.push(chunk);
    yield;
  }
  return { text: chunks.join(''), rows };
}

function rowText(reading: SeriesReading, instrument: string, offset: number): string {
  const utc = new Date(reading.atMs).toISOString();
  return `${utc},${new Date(reading.atMs + offset).toISOString().slice(0, -1)}${offsetText(offset)},${figureText(reading.text)},${reading.unit},${instrument},${reading.how},${reading.entry}\r\n`;
}

function offsetText(offset: number): string {
  const minutes = Math.abs(offset) / 60_000;
  return `${offset < 0 ? '-' : '+'}${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
