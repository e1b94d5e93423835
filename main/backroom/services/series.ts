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
  return encodeArrays(Float64Array.from(readings, ({ atMs }) => atMs), Int32Array.from(readings, ({ lowTicks }) => lowTicks));
}

/** As `encodeSeries`, of readings that are bare numbers already. */
export function encodeArrays(atMs: Float64Array, ticks: Int32Array): Series {
  const instants = new DataView(new ArrayBuffer(atMs.length * BYTES_PER_INSTANT));
  const degrees = new DataView(new ArrayBuffer(ticks.length * BYTES_PER_TICK));
  for (let index = 0; index < atMs.length; index += 1) {
    instants.setFloat64(index * BYTES_PER_INSTANT, atMs[index] ?? 0, true);
    degrees.setInt32(index * BYTES_PER_TICK, ticks[index] ?? 0, true);
  }
  return { length: atMs.length, atMs: base64Of(instants), ticks: base64Of(degrees) };
}

function base64Of(view: DataView): string {
  return Buffer.from(view.buffer, view.byteOffset, view.byteLength).toString('base64');
}
