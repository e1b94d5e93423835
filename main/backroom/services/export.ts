/** Tables to carry out of the book. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { eventTable, gapsOf, sortEvents } from '../../../app/packs/trace-events.ts';
import { tableText } from '../../../app/packs/trace-csv.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { spanOfDays } from './export-days.ts';
import { eventsOf } from './export-events.ts';
import { exportReadings } from './export-readings.ts';
import { workbookOf } from './export-workbook.ts';
import { inTurns } from './in-turns.ts';
import { zoneOf } from './when.ts';

export const exportServices = {
  'export.traceability': exportTraceability,
  'export.readings': exportReadings,
} satisfies Services<'export.traceability' | 'export.readings'>;

/** @throws Refusal INVALID_INPUT: days that can't be */
async function exportTraceability(room: BookRoom, { fromDay, toDay, form, withGuests }: Parsed<'export.traceability'>): Promise<Output<'export.traceability'>> {
  const events = sortEvents(await inTurns(eventsOf(room, spanOfDays(fromDay, toDay, zoneOf(room)), withGuests)));
  const table = eventTable(events);
  const bytes = form === 'csv' ? new TextEncoder().encode(tableText(table)) : await workbookOf('Traceability', table);
  return {
    fileName: `traceability-${fromDay}-to-${toDay}.${form}`,
    mediaType: form === 'csv' ? 'text/csv' : 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    base64: Buffer.from(bytes).toString('base64'), rows: events.length,
    gaps: gapsOf(events).map(({ what, rows }) => `${rows} ${rows === 1 ? 'row lacks' : 'rows lack'} ${what}.`),
  };
}
