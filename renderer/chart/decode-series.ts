/** A series as it crosses the contract (base64 of little-endian arrays) as arrays to draw from. */
import type { Series } from '../../app/contract/requests/quantities.ts';

export interface DrawnSeries {
  readonly atMs: Float64Array;
  readonly ticks: Int32Array;
}

/** Throws when the lengths disagree: a broken answer, never drawn in part. */
export function decodeSeries(series: Series): DrawnSeries {
  const atMs = new Float64Array(bytesOf(series.atMs));
  const ticks = new Int32Array(bytesOf(series.ticks));
  if (atMs.length !== series.length || ticks.length !== series.length) throw new Error(`a series of ${series.length} came with ${atMs.length} instants and ${ticks.length} values`);
  return { atMs, ticks };
}

function bytesOf(base64: string): ArrayBuffer {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let index = 0; index < text.length; index += 1) bytes[index] = text.charCodeAt(index);
  return bytes.buffer;
}
