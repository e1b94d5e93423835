/** Long temperature series as they cross the contract: base64 of little-endian arrays, the same on every front. */
import type { Series } from '../../../app/contract/requests/quantities.ts';

const BYTES_PER_INSTANT = 8;
const BYTES_PER_TICK = 4;

/**
 * Packs readings for drawing.
 * @param readings in the order they are to be drawn; `lowTicks` (1/9000 °C) is what is drawn
 * @returns `atMs` as float64 UTC ms, `ticks` as int32, both little-endian and base64
 */
export function encodeSeries(readings: readonly { readonly atMs: number; readonly lowTicks: number }[]): Series {
  const instants = new DataView(new ArrayBuffer(readings.length * BYTES_PER_INSTANT));
  const ticks = new DataView(new ArrayBuffer(readings.length * BYTES_PER_TICK));
  for (const [index, reading] of readings.entries()) {
    instants.setFloat64(index * BYTES_PER_INSTANT, reading.atMs, true);
    ticks.setInt32(index * BYTES_PER_TICK, reading.lowTicks, true);
  }
  return { length: readings.length, atMs: base64Of(instants), ticks: base64Of(ticks) };
}

function base64Of(view: DataView): string {
  return Buffer.from(view.buffer, view.byteOffset, view.byteLength).toString('base64');
}
