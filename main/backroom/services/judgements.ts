/** Judgements on file: what a decision was made on, kept so that it can be judged again and gives the same, byte for byte. */
import { createHash } from 'node:crypto';
import type { Confirmation } from '../../../app/contract/requests/limits.ts';
import type { SetResultWire } from '../../../app/contract/requests/verdict.ts';
import { ENGINE_VERSION } from '../../../app/limits/engine-version.ts';
import type { JudgeCase } from '../../../app/limits/judge-case.ts';
import { canonicalJson, sha256Hex } from '../book/canonical.ts';
import type { StoredBatch, StoredJudgement } from '../book/stored.ts';
import type { BookRoom, SeriesReading } from '../room.ts';
import { composeCase, type ComposedCase, type Keeping } from './judging/compose.ts';
import type { RecordErrors } from './judging/instrument-errors.ts';
import { judgedWithOf, setOf, type WordsContext, wordsContextOf, wordsIn } from './judging/judge-batch.ts';
import { judgeComposed } from './judging/judge-composed.ts';
import { fillPoint } from './judging/point-plan.ts';
import { readingsWithin, type PointPlan } from './judging/taken-readings.ts';
import { readOnce, type ReadingsAt } from './judging/points.ts';
import type { ReadingEvidence } from './judging/reading-evidence.ts';
import { limitsOf } from './own-set-book.ts';

/** Everything that was judged but the readings themselves, which stand in the book. */
interface JudgedOn {
  /** The last entry that was in the record; later readings take no part. */
  readonly entry: number;
  readonly keeping: Keeping;
  readonly judgeCase: Omit<JudgeCase, 'errorTicks' | 'points'>;
  readonly errors: RecordErrors;
  readonly plans: readonly PointPlan[];
  readonly evidence: ReadingEvidence;
  readonly words: WordsContext;
  readonly confirmed: readonly Confirmation[];
  /** Of what each plan takes, in their order. */
  readonly readings: readonly { readonly count: number; readonly digest: string }[];
}

export interface JudgementResult {
  readonly deciding: SetResultWire;
  readonly asRecorded: SetResultWire | null;
}

export type Replay =
  | { readonly state: 'same' | 'different'; readonly result: JudgementResult }
  /** The readings, the judge or the published set are not those of then. */
  | { readonly state: 'other-readings' | 'other-engine' | 'other-set' };

/**
 * Keeps what a batch is judged on now, with what comes of it; inside the command that decides, after its entry.
 * @param entry the number of that entry
 * @returns the judgement's digest
 */
export function keepJudgement(room: BookRoom, batch: StoredBatch, keeping: Keeping, entry: number): string {
  const readingsAt = readOnce(room);
  const composed = composeCase(room, batch, keeping, readingsAt);
  const set = setOf(room, batch.setId);
  const words = wordsContextOf(room, composed);
  const judgedWith = judgedWithOf(room, set, words);
  const result = resultOf(judgedWith, composed);
  const { points: _points, ...judgeCase } = composed.judgeCase;
  const judged: JudgedOn = {
    entry, keeping, judgeCase, errors: composed.errors, plans: composed.plans, evidence: composed.evidence, words,
    confirmed: [...judgedWith.confirmed.values()], readings: composed.plans.map((plan) => digestOf(plan, readingsAt)),
  };
  const digest = sha256Hex(canonicalJson(result.deciding));
  room.book.shelf('judgements').put({
    id: room.newId(), batchId: batch.id, atMs: room.clock.nowMs(), engine: ENGINE_VERSION, setId: set.id, setVersion: set.version,
    judged: plainJson(judged), result: plainJson(result), digest,
  });
  return digest;
}

/** The deciding result that a decision was made on; undefined for decisions of older books, which kept none. */
export function resultOn(room: BookRoom, batchId: string, digest: string): SetResultWire | undefined {
  const judgement = room.book.shelf('judgements').where('batchId', batchId).findLast((one) => one.digest === digest);
  // Written by `keepJudgement`, and held to the chain of the record since.
  return judgement === undefined ? undefined : (judgement.result as unknown as JudgementResult).deciding;
}

/** Judges again what a judgement on file was made on. */
export function replayJudgement(room: BookRoom, judgementId: string): Replay {
  const judgement = room.book.shelf('judgements').need(judgementId);
  if (judgement.engine !== ENGINE_VERSION) return { state: 'other-engine' };
  const set = setOf(room, judgement.setId);
  if (set.version !== judgement.setVersion) return { state: 'other-set' };
  const judged = judgedOf(judgement);
  const readingsAt = asOf(readOnce(room), judged.entry);
  const readings = judged.plans.map((plan) => digestOf(plan, readingsAt));
  if (canonicalJson(readings) !== canonicalJson(judged.readings)) return { state: 'other-readings' };
  const points = judged.plans.map((plan) => fillPoint(plan, readingsAt, judged.evidence));
  const composed: ComposedCase = { judgeCase: { ...judged.judgeCase, points }, errors: judged.errors, plans: judged.plans, evidence: judged.evidence };
  const confirmed = new Map(judged.confirmed.map((confirmation) => [confirmation.checkId, confirmation]));
  const result = resultOf({ limits: limitsOf(room), set, words: wordsIn(judged.words), confirmed }, composed);
  return { state: canonicalJson(plainJson(result)) === canonicalJson(judgement.result) ? 'same' : 'different', result };
}

function resultOf(judgedWith: Parameters<typeof judgeComposed>[0], composed: ComposedCase): JudgementResult {
  const { deciding, asRecorded } = judgeComposed(judgedWith, composed);
  return { deciding, asRecorded };
}

/** Readings as they stood when an entry was made: live ones were put into the record before. */
function asOf(readingsAt: ReadingsAt, entry: number): ReadingsAt {
  const taken = new Map<string, readonly SeriesReading[]>();
  return (pointId) => {
    const readings = taken.get(pointId) ?? readingsAt(pointId).filter((reading) => reading.entry > 0 && reading.entry <= entry);
    taken.set(pointId, readings);
    return readings;
  };
}

function digestOf({ taken }: PointPlan, readingsAt: ReadingsAt): { count: number; digest: string } {
  const readings = taken === null ? [] : readingsWithin(taken, readingsAt);
  const hash = createHash('sha256');
  for (const { atMs, lowTicks, highTicks, instrumentId, how } of readings) hash.update(`${atMs} ${lowTicks} ${highTicks} ${instrumentId ?? ''} ${how}\n`);
  return { count: readings.length, digest: hash.digest('hex') };
}

function judgedOf({ judged }: StoredJudgement): JudgedOn {
  // Written by `keepJudgement` of this engine version, and held to the chain of the record since.
  return judged as unknown as JudgedOn;
}

/** The same as JSON would have it: what is undefined is not there. */
function plainJson(value: unknown): StoredJudgement['judged'] {
  return JSON.parse(JSON.stringify(value)) as StoredJudgement['judged'];
}
