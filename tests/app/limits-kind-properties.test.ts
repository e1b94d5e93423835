/**
 * What must hold of every kind of check whatever the record: over the drawn records of the proof, with
 * nominal interval and longest step fixed where taking a reading away would change them.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holdsNamed, judgeCheck, type CheckResult } from '../../app/limits/judge.ts';
import type { JudgeCase, MeasuredPoint, Reading, RecordSpan } from '../../app/limits/judge-case.ts';
import type { Check, Figure } from '../../app/limits/limit-set.ts';
import { isMet, rank } from '../../app/limits/verdict.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { needKind } from '../proof/agree.ts';
import { Dice } from '../proof/dice.ts';
import type { ProofCase } from '../proof/kinds.ts';
import { PROOF_KINDS } from '../proof/kinds.ts';
import { ticksOf } from '../proof/naive/record.ts';
import { needCheck } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';

const RUNS = { numRuns: Number(process.env['PROOF_RECORDS'] ?? 300) };
const KINDS = PROOF_KINDS.map(({ name }) => name);
/** Moves the limit as well as the stretch that is judged by it, so a stricter one may leave the warm beginning out. */
const ONCE_CHILLED = new Set(['ceiling-store', 'ceiling-frozen', 'ceiling-raw']);
const TEMPERATURES = KINDS.filter((name) => !/salt|nitrite|probe/.test(name));
const seeds = fc.integer({ min: 0, max: 2 ** 31 - 1 });
const HOLDS = holdsNamed(limitBook, ['HOT-145-30']);

describe.each(KINDS)('%s', (name) => {
  it('never depends on the order of pieces, places, samples and readings', () => {
    fc.assert(fc.property(seeds, seeds, (seed, order) => {
      const drawn = drawOne(name, seed);
      const dice = new Dice(order);
      const points = dice.shuffle(drawn.batch.points.map((point) => ({ ...point, readings: dice.shuffle(point.readings) })));
      const mixed = { ...drawn.batch, points, saltSamples: dice.shuffle(drawn.batch.saltSamples) };
      expect(inOneOrder(judge(drawn, mixed))).toEqual(inOneOrder(judge(drawn, drawn.batch)));
    }), RUNS);
  });

  it('never depends on when the record began', () => {
    fc.assert(fc.property(seeds, fc.integer({ min: -100_000, max: 30_000_000 }), (seed, minutes) => {
      const drawn = drawOne(name, seed);
      expect(figuresOf(judge(drawn, shifted(drawn.batch, minutes * 60_000)))).toEqual(figuresOf(judge(drawn, drawn.batch)));
    }), RUNS);
  });

  it('stays missed when an open record is closed', () => {
    fc.assert(fc.property(seeds, (seed) => {
      const drawn = drawOne(name, seed);
      const withOpen = (open: boolean) => judge(drawn, { ...drawn.batch, records: mapRecords(drawn.batch, (span) => ({ ...span, open })) }).verdict;
      if (withOpen(true) === 'misses') expect(withOpen(false)).toBe('misses');
    }), RUNS);
  });
});

describe.each(TEMPERATURES.filter((name) => !ONCE_CHILLED.has(name)))('a stricter limit: %s', (name) => {
  it('never improves the verdict', () => {
    fc.assert(fc.property(seeds, fc.integer({ min: 1, max: 30 }), (seed, tenths) => {
      const drawn = drawOne(name, seed);
      const check = needCheck(drawn.checkId);
      expect(rank(judge(drawn, drawn.batch, stricter(check, tenths)).verdict)).toBeLessThanOrEqual(rank(judge(drawn, drawn.batch).verdict));
    }), RUNS);
  });
});

describe.each(['hold', 'freeze', 'ceiling', 'ceiling-timed', 'ceiling-room'])('a satisfying reading taken away: %s', (name) => {
  it('never makes the check meet', () => {
    fc.assert(fc.property(seeds, fc.nat(), (seed, pick) => {
      const drawn = drawOne(name, seed);
      const check = needCheck(drawn.checkId);
      const [point] = drawn.batch.points;
      if (point === undefined || !('limit' in check)) return;
      const limitTicks = ticksOf(check.limit.value, check.limit.unit);
      const satisfies = (reading: Reading) => reading.doubt === undefined && (check.kind === 'hold' ? reading.lowTicks >= limitTicks : reading.highTicks <= limitTicks);
      const satisfying = point.readings.filter(satisfies);
      const gone = satisfying[pick % Math.max(1, satisfying.length)];
      if (gone === undefined) return;
      const before = fixedTo(drawn.batch, point, point.readings);
      const after = fixedTo(drawn.batch, point, point.readings.filter((reading) => reading !== gone));
      if (!isMet(judge(drawn, before).verdict)) expect(isMet(judge(drawn, after).verdict)).toBe(false);
    }), RUNS);
  });
});

function drawOne(name: string, seed: number): ProofCase {
  return needKind(name).draw(new Dice(seed));
}

function judge(drawn: ProofCase, batch: JudgeCase, check: Check = needCheck(drawn.checkId)): CheckResult {
  return judgeCheck(check, batch, { words: minuteWords('F'), alone: true, holds: HOLDS, together: drawn.together, probesAsked: drawn.piecesAsked });
}

function figuresOf({ verdict, provenMinutes, possibleMinutes, shortestMinutes, longestMinutes }: CheckResult) {
  return { verdict, provenMinutes, possibleMinutes, shortestMinutes, longestMinutes };
}

/** Pieces, places and spans in one order; they are listed as they were given, and samples are numbered so. */
function inOneOrder({ pieces, spans, reason, ...rest }: CheckResult) {
  const sorted = (items: readonly unknown[]) => items.map((item) => JSON.stringify(item)).sort();
  return { ...rest, pieces: sorted(pieces), spans: sorted(spans), reason: reason.replace(/^Sample \d+ of .*/, 'A sample.') };
}

function mapRecords(batch: JudgeCase, change: (span: RecordSpan) => RecordSpan): JudgeCase['records'] {
  const { process, soak, freezer, store, ...early } = batch.records;
  const changed = Object.fromEntries(Object.entries(early).map(([name, span]) => [name, change(span)]));
  return { process: change(process), soak: change(soak), freezer: change(freezer), store: change(store), ...changed };
}

/** The whole record that much later. */
function shifted(batch: JudgeCase, byMs: number): JudgeCase {
  const later = (ms: number | undefined) => (ms === undefined ? undefined : ms + byMs);
  const points = batch.points.map((point) => ({ ...point, readings: point.readings.map((reading) => ({ ...reading, atMs: reading.atMs + byMs, coversSinceMs: later(reading.coversSinceMs) })) }));
  const records = mapRecords(batch, (span) => ({ ...span, inMs: later(span.inMs), outMs: later(span.outMs) }));
  return { ...batch, points, records, endOfSmokingMs: later(batch.endOfSmokingMs), chilledMs: later(batch.chilledMs) };
}

/** One place alone, marked from the first to the last of all its readings, with its interval and longest step given. */
function fixedTo(batch: JudgeCase, point: MeasuredPoint, readings: readonly Reading[]): JudgeCase {
  const times = point.readings.map(({ atMs }) => atMs);
  const marks = { inMs: Math.min(...times), outMs: Math.max(...times) };
  return {
    ...batch, points: [{ ...point, readings }], records: mapRecords(batch, (span) => ({ ...span, ...marks })),
    maxGapMs: batch.maxGapMs ?? 600_000, nominalIntervalMs: batch.nominalIntervalMs ?? 300_000,
  };
}

/** The check with its limits moved by so many tenths of a degree to the strict side. */
function stricter(check: Check, tenths: number): Check {
  const moved = (figure: Figure, by: number): Figure => ({ ...figure, value: ((Math.round(Number(figure.value) * 10) + by) / 10).toFixed(1) });
  switch (check.kind) {
    case 'hold': return { ...check, limit: moved(check.limit, tenths) };
    case 'freeze':
    case 'ceiling':
    case 'brine-start':
    case 'soak-room': return { ...check, limit: moved(check.limit, -tenths) };
    // A clock of its own starts at the first target, which is why only the last is moved.
    case 'descent': return { ...check, targets: check.targets.map((target, index) => (index === check.targets.length - 1 ? { ...target, limit: moved(target.limit, -tenths) } : target)) };
    default: throw new Error(`${check.id} has no temperature to move`);
  }
}
