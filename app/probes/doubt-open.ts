/**
 * Open or shorted sensors: a value off the scale of a kitchen, or one that devices write when they have none.
 * The values are conventions of common devices (common practice).
 */
import { exactTicks } from '../measures/temperature.ts';
import { celsius, doubtOver, MINUTE_MS, type Doubt, type DoubtRecord, type Sample } from './doubt-record.ts';

/** Hotter than any smokehouse, colder than any freezer. */
const HOTTEST_TICKS = exactTicks(400, 'C');
const COLDEST_TICKS = exactTicks(-70, 'C');
/** A thermistor that is cut reads this cold or colder; a fast freezer does too, so only a fall to it at once is odd. */
const CUT_TICKS = exactTicks(-40, 'C');
const WARM_TICKS = exactTicks(-10, 'C');
const FALL_MS = 10 * MINUTE_MS;
/** What a one-wire sensor reads before its first measurement. */
const POWER_UP_TICKS = exactTicks(85, 'C');
const POWER_UP_DIFFERENCE = celsius(20);

/** Doubts about single values, and the samples that are not in doubt. */
export function findOpen(samples: readonly Sample[], record: DoubtRecord): { doubts: Doubt[]; rest: Sample[] } {
  const doubts: Doubt[] = [];
  const rest: Sample[] = [];
  let run: Sample[] = [];
  let why = '';
  const close = () => {
    const [first, last] = [run[0], run.at(-1)];
    if (first !== undefined && last !== undefined) doubts.push(doubtOver('open-circuit', first, last, why));
    run = [];
  };
  samples.forEach((sample, position) => {
    if (isOrdinary(sample)) {
      if (run.length > 0) close();
      rest.push(sample);
      return;
    }
    const isStillCut = sample.ticks <= CUT_TICKS && (run.at(-1)?.ticks ?? WARM_TICKS) <= CUT_TICKS;
    const reason = isStillCut ? why : reasonOf(sample, rest.at(-1), samples[position + 1], record);
    if (reason === undefined) {
      close();
      rest.push(sample);
      return;
    }
    if (run.length === 0) why = reason;
    run.push(sample);
  });
  close();
  return { doubts, rest };
}

/** Nothing below is asked about such a value. */
function isOrdinary({ ticks }: Sample): boolean {
  return ticks > CUT_TICKS && ticks < HOTTEST_TICKS && ticks !== POWER_UP_TICKS;
}

function reasonOf(sample: Sample, before: Sample | undefined, after: Sample | undefined, { words }: DoubtRecord): string | undefined {
  const { ticks, atMs } = sample;
  const says = () => `It read ${words.degrees(ticks)} at ${words.at(atMs)}`;
  if (ticks >= HOTTEST_TICKS || ticks <= COLDEST_TICKS) return `${says()}, off the scale of a kitchen: the sensor may be cut, shorted or unplugged.`;
  const isFar = (other: Sample) => Math.abs(other.ticks - ticks) >= POWER_UP_DIFFERENCE;
  const isFresh = before === undefined || (atMs - before.atMs > FALL_MS && isFar(before));
  if (isFresh && after !== undefined && ticks === POWER_UP_TICKS && isFar(after)) return `${says()} as its first value, which some sensors show before they measure.`;
  if (before !== undefined && ticks <= CUT_TICKS && before.ticks >= WARM_TICKS && atMs - before.atMs <= FALL_MS) return `${says()}, and ${words.degrees(before.ticks)} just before: the sensor may be cut or unplugged.`;
  return undefined;
}
