/** Clocks: time that runs backwards, an hour that comes twice, readings from the future, and a device's clock that is off. */
import { doubtOver, middleStepMs, MINUTE_MS, type Doubt, type DoubtRecord, type RecordedTicks, type Sample } from './doubt-record.ts';

const HOUR_MS = 60 * MINUTE_MS;
/** A device's clock may be off by so much, and run off by so much between two looks (common practice). */
const OFF_MS = 2 * MINUTE_MS;

/** Doubts about times; a person may type in any order, so only logged records are looked at for that. */
export function findClock(record: DoubtRecord): Doubt[] {
  const isBackwards = record.how === 'logged' && goesBack(record.readings);
  if (!isBackwards && record.nowMs === undefined && record.clockSightings === undefined) return [];
  const samples = record.readings.map((reading, index): Sample => ({ index, atMs: reading.atMs, ticks: reading.lowTicks }));
  return [...(isBackwards ? backwards(samples, record) : []), ...fromFuture(samples, record), ...offClock(samples, record)];
}

function goesBack(readings: readonly RecordedTicks[]): boolean {
  let beforeMs = -Infinity;
  for (const { atMs } of readings) {
    if (atMs < beforeMs) return true;
    beforeMs = atMs;
  }
  return false;
}

function backwards(samples: readonly Sample[], { words }: DoubtRecord): Doubt[] {
  const usualMs = middleStepMs(samples) ?? 0;
  const laterThan = firstLater(samples);
  return samples.flatMap((sample, position) => {
    const before = samples[position - 1];
    if (before === undefined || sample.atMs >= before.atMs) return [];
    // Until the record is past where it was, its times may belong to either pass.
    const last = samples[(laterThan[position - 1] ?? samples.length) - 1] ?? sample;
    const backMs = before.atMs - sample.atMs;
    const isHour = Math.abs(backMs + usualMs - HOUR_MS) <= usualMs;
    const cause = isHour ? 'an hour comes twice, as when clocks go back' : 'its clock may have been set back';
    return [{ ...doubtOver('clock', sample, last, `After ${words.at(before.atMs)} the record goes on at ${words.at(sample.atMs)}, ${words.lasting(backMs)} earlier: ${cause}.`), fromMs: sample.atMs, toMs: Math.max(sample.atMs, last.atMs) }];
  });
}

function fromFuture(samples: readonly Sample[], { nowMs, words }: DoubtRecord): Doubt[] {
  if (nowMs === undefined) return [];
  const late = samples.filter((sample) => sample.atMs > nowMs + OFF_MS);
  const [first, last] = [late[0], late.at(-1)];
  return first === undefined || last === undefined ? [] : [doubtOver('clock', first, last, `It was read at ${words.at(first.atMs)}, which is still to come: its clock may be fast, or the day wrong.`)];
}

function offClock(samples: readonly Sample[], { clockSightings = [], words }: DoubtRecord): Doubt[] {
  const [first, last] = [samples[0], samples.at(-1)];
  const sightings = [...clockSightings].sort((left, right) => left.kitchenMs - right.kitchenMs);
  const [early, late] = [sightings[0], sightings.at(-1)];
  if (first === undefined || last === undefined || early === undefined || late === undefined) return [];
  const fastMs = (sighting: typeof early) => sighting.deviceMs - sighting.kitchenMs;
  const driftMs = fastMs(late) - fastMs(early);
  const side = (ms: number) => `${words.lasting(Math.abs(ms))} ${ms > 0 ? 'fast' : 'slow'}`;
  if (Math.abs(driftMs) > OFF_MS) return [doubtOver('clock', first, last, `Its clock drifts: between two looks at it, it ran ${side(driftMs)}.`)];
  return Math.abs(fastMs(late)) > OFF_MS ? [doubtOver('clock', first, last, `Its clock was ${side(fastMs(late))} when it was looked at.`)] : [];
}

/** For each sample the position of the first one after it with a later time; the number of samples where there is none. */
function firstLater(samples: readonly Sample[]): Int32Array {
  const later = new Int32Array(samples.length).fill(samples.length);
  const waiting: number[] = [];
  samples.forEach((sample, position) => {
    for (let last = waiting.at(-1); last !== undefined && (samples[last]?.atMs ?? Infinity) < sample.atMs; last = waiting.at(-1)) {
      later[last] = position;
      waiting.pop();
    }
    waiting.push(position);
  });
  return later;
}
