/**
 * The readings that benches measure with: tenths of a degree, one a second, on the slow curve of a smoke, each with a noise
 * of -0.1, 0 or +0.1 degrees, all three alike.
 */
import { TICKS_PER_FAHRENHEIT } from '../../app/measures/temperature.ts';
import type { ReadingColumns } from '../../app/probes/reading-columns.ts';

/** The same numbers at each run: a linear congruential generator (Numerical Recipes' constants, from memory). */
function seededNoise(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * 3) - 1;
  };
}

const SMOKED_SECONDS = 8 * 3600;

/**
 * Tenths of a degree Fahrenheit, one a second: eight hours in a smoker, then a cold room.
 * @param channel each follows the air a little slower than the one before; 0 is the air itself
 */
export function smokedTenths(seconds: number, channel: number, seed = channel): Int32Array {
  const noise = seededNoise(1000 + seed);
  const tenths = new Int32Array(seconds);
  let air = 70;
  let core = 42;
  for (let second = 0; second < seconds; second += 1) {
    air += ((second < SMOKED_SECONDS ? 190 : 33) - air) / 900;
    core += (air - core) / (2700 + channel * 240);
    tenths[second] = Math.round((channel === 0 ? air : core) * 10) + noise();
  }
  return tenths;
}

const FAHRENHEIT_ZERO_TICKS = -32 * TICKS_PER_FAHRENHEIT;

export function ticksOfTenths(tenths: Int32Array): Int32Array {
  return tenths.map((value) => value * (TICKS_PER_FAHRENHEIT / 10) + FAHRENHEIT_ZERO_TICKS);
}

/** As a logger's file of tenths of a degree Fahrenheit, one a second, gives them. */
export function columnsOfTicks(lowTicks: Int32Array, fromMs: number): ReadingColumns {
  return { unit: 'F', cut: null, texts: { decimals: 1, mark: '.' }, atMs: Float64Array.from(lowTicks, (_ticks, second) => fromMs + second * 1000), lowTicks };
}

export function tenthsText(tenths: number): string {
  const size = Math.abs(tenths);
  return `${tenths < 0 ? '-' : ''}${Math.floor(size / 10)}.${size % 10}`;
}

/** `2026-07-14 05:00:00` of an instant, read as UTC. */
function wallText(ms: number): string {
  return new Date(ms).toISOString().slice(0, 19).replace('T', ' ');
}

/** A time and a column for each channel. */
export function wideCsv(startWallMs: number, channels: readonly Int32Array[], names: readonly string[]): string {
  const rows = [`Time,${names.map((name) => `${name} (°F)`).join(',')}\n`];
  for (let second = 0; second < (channels[0]?.length ?? 0); second += 1) {
    rows.push(`${wallText(startWallMs + second * 1000)},${channels.map((channel) => tenthsText(channel[second] ?? 0)).join(',')}\n`);
  }
  return rows.join('');
}

/** A row for each reading: time, channel, temperature. */
export function longCsv(startWallMs: number, channels: readonly Int32Array[], names: readonly string[]): string {
  const rows = ['Time,Channel,Temp (°F)\n'];
  for (let second = 0; second < (channels[0]?.length ?? 0); second += 1) {
    const time = wallText(startWallMs + second * 1000);
    channels.forEach((channel, index) => rows.push(`${time},${names[index]},${tenthsText(channel[second] ?? 0)}\n`));
  }
  return rows.join('');
}
