/** A load of a whole day: eight hours of smoke and the cooling after it, each probe read once a second, taken over from a logger's file. */
import type { Output } from '../../app/contract/contract.ts';
import { LOAD_START_MS, openBenchLoad, type BenchKitchen } from './bench-kitchen.ts';
import { smokedTenths, wideCsv } from './bench-log.ts';

export const DAY_SECONDS = 86_400;
export const DAY_PROBES = 8;
const SMOKED_MS = 8 * 3_600_000;
/** The kitchen's wall clock is five hours behind. */
const START_WALL_MS = LOAD_START_MS - 5 * 3_600_000;

/** Opens a load of seven pieces and the chamber and takes a day of them over; its marks are set, and it is cooled. */
export async function addDayLoad(kitchen: BenchKitchen): Promise<Output<'load.open'>['load']> {
  const load = await openBenchLoad(kitchen, DAY_PROBES - 1);
  const channels = load.points.map(({ role }, index) => smokedTenths(DAY_SECONDS, role === 'chamber' ? 0 : index + 1));
  const names = load.points.map((_, index) => `Probe ${index + 1}`);
  const fileId = await kitchen.takeFile(`day-${load.number}.csv`, new TextEncoder().encode(wideCsv(START_WALL_MS, channels, names)));
  const { kept } = await kitchen.ask('readings.import', {
    fileId, answers: {}, columns: load.points.map(({ id }, index) => ({ name: names[index] ?? '', pointId: id })),
    coversInToOut: true, outAtMs: LOAD_START_MS + SMOKED_MS, loadId: load.id,
  });
  if (kept !== DAY_PROBES * DAY_SECONDS) throw new Error(`Of ${DAY_PROBES * DAY_SECONDS} readings ${kept} were kept.`);
  return load;
}
