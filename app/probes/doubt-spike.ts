/** Spikes: one or two readings far from those on both sides, too fast for what the thermometer stands in. */
import type { PointRole } from '../limits/judge-case.ts';
import { celsius, doubtOver, MINUTE_MS, type Doubt, type DoubtRecord, type Sample } from './doubt-record.ts';

/** Fish and brine are slow; the air of a chamber jumps when its door opens, that of a store when it defrosts. */
const JUMP_TICKS: Readonly<Record<PointRole, number>> = { piece: celsius(5), brine: celsius(5), chamber: celsius(45), room: celsius(20), store: celsius(20) };
const MOST_READINGS = 2;
const STEP_MS = 6 * MINUTE_MS;
const NO_SPIKE: readonly Sample[] = [];

/** Doubts, and the samples that are not in doubt. */
export function findSpikes(samples: readonly Sample[], record: DoubtRecord): { doubts: Doubt[]; rest: Sample[] } {
  const jump = JUMP_TICKS[record.role];
  const doubts: Doubt[] = [];
  const rest: Sample[] = [];
  for (let position = 0; position < samples.length; position += 1) {
    const sample = samples[position];
    if (sample === undefined) break;
    const spike = spikeAt(samples, position, jump);
    const first = spike[0];
    const last = spike.at(-1);
    if (first === undefined || last === undefined) {
      rest.push(sample);
      continue;
    }
    const { words } = record;
    doubts.push(doubtOver('spike', first, last, `It jumped to ${words.degrees(first.ticks)} at ${words.at(first.atMs)} and back at once: perhaps a bad contact or a slip of the pen.`));
    position += spike.length - 1;
  }
  return { doubts, rest };
}

/** The readings of a spike that begins here; none where there is no spike. */
function spikeAt(samples: readonly Sample[], position: number, jump: number): readonly Sample[] {
  const before = samples[position - 1];
  const first = samples[position];
  if (before === undefined || first === undefined || Math.abs(first.ticks - before.ticks) <= jump) return NO_SPIKE;
  for (let count = 1; count <= MOST_READINGS; count += 1) {
    const after = samples[position + count];
    if (after === undefined) return NO_SPIKE;
    const between = samples.slice(position, position + count);
    const away = between.map((sample) => Math.min(sample.ticks - before.ticks, sample.ticks - after.ticks));
    const below = between.map((sample) => Math.min(before.ticks - sample.ticks, after.ticks - sample.ticks));
    const least = Math.max(Math.min(...away), Math.min(...below));
    const isQuick = [...between, after].every((sample, index) => sample.atMs - ([before, ...between][index]?.atMs ?? -Infinity) <= STEP_MS);
    // Back to where it was: the two sides differ by less than the spike stands out from both.
    if (isQuick && least > jump && Math.abs(after.ticks - before.ticks) <= least) return between;
  }
  return NO_SPIKE;
}
