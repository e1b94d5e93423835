/**
 * Doubts about a record: readings that may not be what they say. Proposals only, each with a reason; nothing is
 * changed or left out until a named person decides, and until then every reading counts against the batch.
 * Meant to raise few false alarms: what a kitchen does every day is not in doubt.
 */
import { findClock } from './doubt-clock.ts';
import { findFlat } from './doubt-flat.ts';
import { findOpen } from './doubt-open.ts';
import { findPulled } from './doubt-pulled.ts';
import { samplesOf, type Doubt, type DoubtRecord } from './doubt-record.ts';
import { findSpikes } from './doubt-spike.ts';

export type { Doubt, DoubtRecord, RecordedTicks } from './doubt-record.ts';

/**
 * Every doubt about one point's readings by one instrument, in order of time.
 * What one kind of doubt has found, the next ones don't look at again; clocks are looked at by themselves.
 */
export function findDoubts(record: DoubtRecord): Doubt[] {
  const open = findOpen(samplesOf(record.readings), record);
  const spikes = findSpikes(open.rest, record);
  const pulled = findPulled(spikes.rest, record);
  const doubts = [...findClock(record), ...open.doubts, ...spikes.doubts, ...pulled.doubts, ...findFlat(pulled.rest, record)];
  return doubts.sort((left, right) => left.fromMs - right.fromMs || left.toMs - right.toMs || (left.kind < right.kind ? -1 : 1));
}
