/**
 * How long the judge takes beside one bare pass over the same readings: 12 pieces, a reading a second for 24 h,
 * against every check of the default set.
 */
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { JudgeCase, Reading } from '../../app/limits/judge-case.ts';
import { findSet } from '../../app/limits/limit-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { exactTicks } from '../../app/measures/temperature.ts';
import { limitBook } from '../support/judged-log.ts';
import { atMost, medianOf, type BenchResult } from './bench.ts';

const PIECES = 12;
const SECONDS = 86_400;
const RUNS = 25;
const MOST_TIMES = 8;

/** A hot smoke and its cooling, each piece a little behind the one before. */
function makeReadings(piece: number): Reading[] {
  const readings: Reading[] = [];
  let core = 5;
  for (let second = 0; second < SECONDS; second += 1) {
    const air = second < 30_000 ? 82 : 1.5;
    core += (air - core) / (4000 + piece * 120);
    const ticks = Math.round(core * 10 + Math.sin(second / 7)) * 900;
    readings.push({ atMs: second * 1000, lowTicks: ticks, highTicks: ticks });
  }
  return readings;
}

function makeCase(): JudgeCase {
  return {
    process: 'hot', species: 'Coregonus clupeaformis', pack: 'vacuum', store: 'frozen', errorTicks: 5000,
    points: Array.from({ length: PIECES }, (_, index) => ({ id: `p${index}`, name: `Piece ${index + 1}`, role: 'piece' as const, record: 'process' as const, readings: makeReadings(index) })),
    records: { process: { inMs: 0, outMs: 30_000_000, open: false }, soak: { open: false }, freezer: { open: false }, store: { open: false } },
    saltSamples: [], facts: { cure: 'wet', wasFrozen: false, nitriteUsed: false, brineReused: false, onFile: [] },
  };
}

/** Reads time and temperature of every reading, compares the step with a gap and the temperature with one limit. */
function barePass(judged: JudgeCase): number {
  const limit = exactTicks(145, 'F');
  const gapMs = 300_000;
  let count = 0;
  for (const { readings } of judged.points) {
    let before = 0;
    for (let index = 0; index < readings.length; index += 1) {
      const reading = readings[index];
      if (reading === undefined) continue;
      if (reading.atMs - before > gapMs || reading.lowTicks >= limit) count += 1;
      before = reading.atMs;
    }
  }
  return count;
}

/** Measures both in this process, one after the other, and takes the middle of each. */
export function runJudgeBench(): BenchResult {
  const judged = makeCase();
  const set = findSet(limitBook, 'lodge-default');
  if (set === undefined) throw new Error('The default set is missing.');
  const options = { words: minuteWords('F'), paper: true };
  const verdict = judgeSet(set, judged, limitBook, options).units.find((unit) => unit.question === 'chamber')?.verdict;
  if (verdict !== 'meets') throw new Error(`The bench's own batch should meet its hold, and it is ${String(verdict)}.`);
  barePass(judged);
  const bare: number[] = [];
  const judging: number[] = [];
  let counted = 0;
  for (let run = 0; run < RUNS; run += 1) {
    const start = performance.now();
    counted += barePass(judged);
    const bareMs = performance.now() - start;
    // Rows of its own for each run, so that nothing is known of them yet.
    const fresh = { ...judged, points: judged.points.map((point) => ({ ...point, readings: point.readings.slice() })) };
    const between = performance.now();
    judgeSet(set, fresh, limitBook, options);
    bare.push(bareMs);
    judging.push(performance.now() - between);
  }
  if (counted === 0) throw new Error('The bare pass counted nothing.');
  const times = medianOf(judging) / medianOf(bare);
  return atMost('judge', times, MOST_TIMES, {
    detail: `${PIECES * SECONDS} readings, judged beside one bare pass: ${medianOf(judging).toFixed(0)} ms, bare pass ${medianOf(bare).toFixed(1)} ms; median of ${RUNS}`,
  });
}
