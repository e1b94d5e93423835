/**
 * Probes pulled out of the fish: within minutes the reading falls further than flesh can cool and, later, rises
 * as fast to where it was. And probes that slipped out inside the chamber: the reading jumps to the chamber's
 * and follows it. A fall at the end of a record is the fish being taken out, and no doubt.
 */
import { firstWhere } from '../measures/halving.ts';
import { celsius, doubtOver, MINUTE_MS, samplesOf, type Doubt, type DoubtRecord, type Sample } from './doubt-record.ts';

/** The thinnest slab (10 mm) in an oven at 85 °C warms by 4.2 °C a minute when cold (computed); three minutes of it. */
const EDGE_TICKS = celsius(13);
const EDGE_MS = 3 * MINUTE_MS;
/** Between two readings of a slow log, the edge is at most one step. */
const SLOW_EDGE_TICKS = celsius(20);
const SLOW_STEP_MS = 6 * MINUTE_MS;
/** Back is back to within a quarter of the depth: a fish may have cooled meanwhile. */
const BACK_SHARE = 0.25;
/** So far from the last good reading the cliff has begun. */
const BRINK_TICKS = celsius(4);
const AWAY_AT_MOST_MS = 60 * MINUTE_MS;
const NEAR_CHAMBER_TICKS = celsius(3);
const FOLLOWS_MS = 10 * MINUTE_MS;
/** A thick probe in still air takes so long to come near the air. */
const REACHES_MS = 10 * MINUTE_MS;

/** No reading is as far along as this, so that an edge "by a reading" needs no second question. */
const NO_EDGE = 2 ** 31 - 1;

/** For each reading the first one by which the record has moved further than flesh can, down and up; `NO_EDGE` where it hasn't. */
interface Edges {
  readonly down: Int32Array;
  readonly up: Int32Array;
}

/** Doubts about a piece's readings, in order of time, and the samples that are not in doubt. */
export function findPulled(samples: readonly Sample[], record: DoubtRecord): { doubts: Doubt[]; rest: Sample[] } {
  if (record.role !== 'piece' || record.how !== 'logged') return { doubts: [], rest: [...samples] };
  const doubts: Doubt[] = [];
  const rest: Sample[] = [];
  const edges: Edges = { down: edgesOf(samples, -1), up: edgesOf(samples, 1) };
  let chamber: readonly Sample[] | undefined;
  for (let position = 0; position < samples.length; position += 1) {
    const before = samples[position];
    if (before === undefined) break;
    rest.push(before);
    if (edges.down[position] === NO_EDGE && edges.up[position] === NO_EDGE) continue;
    chamber ??= samplesOf(record.chamber ?? []);
    const back = backAt(samples, position, edges);
    const end = back ?? slippedTo(samples, position, chamber, edges);
    if (end === undefined) continue;
    const away = samples.slice(position + 1, end + 1);
    const start = cliffOf(before, away, back === undefined ? 1 : -1);
    const [first, last] = [away[start], away.at(-1)];
    if (first === undefined || last === undefined) continue;
    doubts.push(doubtOver('pulled-probe', first, last, reasonOf(before, away.slice(start), back !== undefined, record)));
    rest.push(...away.slice(0, start));
    position = end;
  }
  return { doubts, rest };
}

/** Where among the readings away the cliff begins: at its steepest step, or the steep ones before it. The edge is looked for some minutes ahead, and until then the fish is only fish. */
function cliffOf(before: Sample, away: readonly Sample[], way: 1 | -1): number {
  const foot = away.findIndex((sample) => (sample.ticks - before.ticks) * way > BRINK_TICKS);
  const moves = away.slice(0, foot + 1).map((sample, at) => (sample.ticks - (away[at - 1] ?? before).ticks) * way);
  const steepest = moves.reduce((most, move) => Math.max(most, move), 0);
  let start = moves.lastIndexOf(steepest);
  while (start > 0 && (moves[start - 1] ?? 0) * 2 >= steepest) start -= 1;
  return start;
}

function reasonOf(before: Sample, away: readonly Sample[], isBack: boolean, { words }: DoubtRecord): string {
  const from = `From ${words.degrees(before.ticks)} at ${words.at(before.atMs)}`;
  const ticks = away.map((sample) => sample.ticks);
  if (isBack) return `${from} it fell to ${words.degrees(ticks.reduce((low, next) => Math.min(low, next)))} and came back, faster than fish can: the probe may have been out of the fish.`;
  return `${from} it rose to ${words.degrees(ticks.reduce((high, next) => Math.max(high, next)))}, faster than fish can, and followed the chamber: the probe may have slipped out of the fish.`;
}

/** The last reading away, where the record falls off a cliff after this reading and climbs back up one. */
function backAt(samples: readonly Sample[], position: number, edges: Edges): number | undefined {
  const start = samples[position];
  if (start === undefined || edges.down[position] === NO_EDGE) return undefined;
  let lowest = start.ticks;
  for (let at = position + 1; at < samples.length; at += 1) {
    const sample = samples[at];
    if (sample === undefined || sample.atMs - start.atMs > AWAY_AT_MOST_MS) return undefined;
    lowest = Math.min(lowest, sample.ticks);
    const depth = start.ticks - lowest;
    if (depth >= EDGE_TICKS && sample.ticks >= start.ticks - depth * BACK_SHARE) return cameUpFast(edges, position, at) ? at - 1 : undefined;
  }
  return undefined;
}

/**
 * For each reading the first one by which the record has moved further than flesh can within minutes, down (−1) or
 * up (+1). The furthest reading of the minutes ahead is kept as they go by, so that a record by the second is walked
 * through once.
 */
function edgesOf(samples: readonly Sample[], way: 1 | -1): Int32Array {
  const edges = new Int32Array(samples.length).fill(NO_EDGE);
  // Positions ahead within the minutes, each further than all that come after it.
  const furthest: number[] = [];
  let head = 0;
  let ahead = 0;
  samples.forEach((start, position) => {
    if (ahead <= position) ahead = position + 1;
    for (let next = samples[ahead]; next !== undefined && next.atMs - start.atMs <= EDGE_MS; next = samples[ahead]) {
      while (furthest.length > head && (next.ticks - ticksAt(samples, furthest.at(-1))) * way >= 0) furthest.pop();
      furthest.push(ahead);
      ahead += 1;
    }
    while (head < furthest.length && (furthest[head] ?? 0) <= position) head += 1;
    if (head === furthest.length) edges[position] = slowEdge(samples, position, way);
    else if ((ticksAt(samples, furthest[head]) - start.ticks) * way >= EDGE_TICKS) edges[position] = firstBeyond(samples, position, way);
  });
  return edges;
}

/** Of a slow log, whose next reading is some minutes away. */
function slowEdge(samples: readonly Sample[], position: number, way: 1 | -1): number {
  const [start, next] = [samples[position], samples[position + 1]];
  const isEdge = start !== undefined && next !== undefined && next.atMs - start.atMs <= SLOW_STEP_MS && (next.ticks - start.ticks) * way >= SLOW_EDGE_TICKS;
  return isEdge ? position + 1 : NO_EDGE;
}

/** The first reading that is far enough from one of which it is known that there is such a reading. */
function firstBeyond(samples: readonly Sample[], position: number, way: 1 | -1): number {
  const startTicks = ticksAt(samples, position);
  let at = position + 1;
  while (at < samples.length && (ticksAt(samples, at) - startTicks) * way < EDGE_TICKS) at += 1;
  return at;
}

function ticksAt(samples: readonly Sample[], position: number | undefined): number {
  return position === undefined ? 0 : (samples[position]?.ticks ?? 0);
}

/** Whether some reading of the stretch away is the foot of a climb as fast as the fall. */
function cameUpFast({ up }: Edges, from: number, to: number): boolean {
  for (let at = to - 1; at > from; at -= 1) if ((up[at] ?? NO_EDGE) <= to) return true;
  return false;
}

/** The last reading that follows the chamber, where the record jumps up to the chamber's temperature after this reading. */
function slippedTo(samples: readonly Sample[], position: number, chamber: readonly Sample[], edges: Edges): number | undefined {
  const start = samples[position];
  if (start === undefined || chamber.length === 0 || edges.up[position] === NO_EDGE) return undefined;
  let first: Sample | undefined;
  let end: number | undefined;
  for (let at = position + 1; at < samples.length; at += 1) {
    const sample = samples[at];
    if (sample === undefined) break;
    const air = nearest(chamber, sample.atMs);
    const isNear = air !== undefined && Math.abs(air.ticks - sample.ticks) <= NEAR_CHAMBER_TICKS;
    if (first === undefined) {
      if (isNear && sample.ticks - start.ticks >= EDGE_TICKS) first = sample;
      else if (sample.atMs - start.atMs > REACHES_MS) return undefined;
    } else if (!isNear) break;
    if (first !== undefined) end = at;
  }
  const last = samples[end ?? -1];
  return first !== undefined && last !== undefined && last.atMs - first.atMs >= FOLLOWS_MS ? end : undefined;
}

/** The chamber's reading nearest in time, by halving; at most one slow step away. */
function nearest(chamber: readonly Sample[], atMs: number): Sample | undefined {
  const place = firstWhere(chamber.length, (at) => (chamber[at]?.atMs ?? 0) >= atMs);
  const around = [chamber[place - 1], chamber[place]].filter((sample) => sample !== undefined);
  const best = around.sort((left, right) => Math.abs(left.atMs - atMs) - Math.abs(right.atMs - atMs))[0];
  return best !== undefined && Math.abs(best.atMs - atMs) <= SLOW_STEP_MS ? best : undefined;
}
