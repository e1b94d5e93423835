/** Long logs of four stores, numbered; what each reading must be is known from the number alone. */
import type { Input } from '../../app/contract/contract.ts';
import { ticksFromDecimal } from '../../app/measures/temperature.ts';
import { STORES } from './fault-kitchen.ts';

export const LOG_ROWS = 6000;
const FIRST_MS = Date.UTC(2020, 0, 1);

/** The instant of a row of a log; both count from 0, and one log follows on the other. */
export function logMs(number: number, row: number): number {
  return FIRST_MS + (number * LOG_ROWS + row) * 1000;
}

function tenthsAt(number: number, store: number, row: number): number {
  return 300 + ((number * 31 + store * 17 + row * 7) % 200);
}

/** The exact ticks of 1/9000 °C. */
export function logTicks(number: number, store: number, row: number): number {
  return known[tenthsAt(number, store, row) - 300] ?? Number.NaN;
}

const known = Array.from({ length: 200 }, (_, index) => {
  const ticks = ticksFromDecimal(((index + 300) / 10).toFixed(1), 'F');
  if (!ticks.ok) throw new Error(ticks.problem.message);
  return ticks.value.lowTicks;
});

export function logNameOf(number: number): string {
  return `stores-${number}.csv`;
}

/** The bytes of a log. */
export function logBytes(number: number): Uint8Array {
  const lines = [`Time,${Array.from({ length: STORES }, (_, store) => `Store ${store + 1} (°F)`).join(',')}`];
  for (let row = 0; row < LOG_ROWS; row += 1) {
    lines.push(`${new Date(logMs(number, row)).toISOString()},${Array.from({ length: STORES }, (_, store) => (tenthsAt(number, store, row) / 10).toFixed(1)).join(',')}`);
  }
  return new TextEncoder().encode(lines.join('\n'));
}

/** What takes a log over. */
export function importInput(fileId: string, storeIds: readonly string[]): Input<'readings.import'> {
  return { fileId, answers: {}, coversInToOut: false, loadId: null, columns: storeIds.map((pointId, store) => ({ name: `Store ${store + 1}`, pointId })) };
}
