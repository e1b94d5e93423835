/**
 * The rows of a food-traceability table: receiving, transformation and shipping with their key data elements. 21 CFR 1.1340,
 * 1.1345 (read), 1.1350 (from memory); the source of a lot's code by its location or a reference, of which the book has no other. A row for each event and, of a transformation, for each lot that went into it; the
 * columns and their order are common practice.
 */
import type { Cell } from './trace-csv.ts';

export const EVENT_COLUMNS = [
  'event', 'event_date', 'tlc', 'tlc_source_name', 'tlc_source_address', 'tlc_source_reference', 'input_tlc', 'input_qty', 'input_uom',
  'product_description', 'species_market_name', 'scientific_name', 'qty', 'uom', 'from_name', 'from_address', 'to_name', 'to_address',
  'harvest_start', 'harvest_end', 'harvest_area_standard', 'harvest_area_code', 'landed_date', 'ref_doc_type', 'ref_doc_no', 'recorded_by', 'recorded_at',
] as const;
export type EventColumn = (typeof EVENT_COLUMNS)[number];

/** One row; what isn’t known is left out. Days are YYYY-MM-DD, instants ISO 8601 in UTC, weights kilograms. */
export type TraceEvent = { readonly event: 'RECEIVE' | 'TRANSFORM' | 'SHIP' } & { readonly [C in Exclude<EventColumn, 'event'>]?: Cell };

/** What each kind of row must say, and the words for it where it doesn’t. */
const MUST: Readonly<Record<TraceEvent['event'], readonly (readonly [EventColumn, string])[]>> = {
  RECEIVE: [
    ['tlc', 'the traceability lot code of the fish received'], ['tlc_source_address', 'the address of whoever gave the lot its code'], ['qty', 'the quantity received'], ['product_description', 'the description of the fish received'],
    ['from_name', 'whom the fish came from'], ['from_address', 'the address the fish came from'], ['to_address', 'the kitchen’s address'], ['ref_doc_no', 'the reference document of receiving'],
  ],
  TRANSFORM: [
    ['tlc', 'the new lot code'], ['input_tlc', 'the code of a lot that went in'], ['input_qty', 'how much of a lot went in'], ['qty', 'the quantity made'],
    ['tlc_source_address', 'the kitchen’s address'],
  ],
  SHIP: [
    ['tlc', 'the lot code of what left'], ['qty', 'the quantity that left'], ['to_name', 'whom it went to'], ['to_address', 'the address it went to'], ['from_address', 'the kitchen’s address'],
  ],
};

/** Of one lot on one day. */
const ORDER = { RECEIVE: 0, TRANSFORM: 1, SHIP: 2 } as const;

/** The rows by lot code, then day, then as it goes: received, made, shipped. */
export function sortEvents(events: readonly TraceEvent[]): TraceEvent[] {
  return events.toSorted((one, other) => compare(one.tlc, other.tlc) || compare(one.event_date, other.event_date) || ORDER[one.event] - ORDER[other.event] || compare(one.input_tlc, other.input_tlc));
}

function compare(one: Cell | undefined, other: Cell | undefined): number {
  const [left, right] = [String(one ?? ''), String(other ?? '')];
  return left < right ? -1 : left > right ? 1 : 0;
}

/** The table with its heading line. */
export function eventTable(events: readonly TraceEvent[]): Cell[][] {
  return [[...EVENT_COLUMNS], ...events.map((event) => EVENT_COLUMNS.map((column) => event[column] ?? ''))];
}

/** What the rule asks for and rows lack, each with how many. */
export function gapsOf(events: readonly TraceEvent[]): { readonly what: string; readonly rows: number }[] {
  const counts = new Map<string, number>();
  for (const event of events) {
    for (const [column, what] of MUST[event.event]) {
      if ((event[column] ?? '') === '') counts.set(what, (counts.get(what) ?? 0) + 1);
    }
  }
  return [...counts].map(([what, rows]) => ({ what, rows }));
}
