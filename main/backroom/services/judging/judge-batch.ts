/** The verdict of a batch by its own set, in the shapes of the contract. */
import type { GateLine, SetResultWire } from '../../../../app/contract/requests/verdict.ts';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { mayPass } from '../../../../app/limits/gates.ts';
import type { SetResult } from '../../../../app/limits/judge-set.ts';
import { checkIdsOf, findSet, sourceOf, findCheck, type LimitSet } from '../../../../app/limits/limit-set.ts';
import { clockWords, type Words } from '../../../../app/limits/words.ts';
import { localTime } from '../../../../app/measures/zone.ts';
import { canonicalJson, sha256Hex } from '../../book/canonical.ts';
import type { StoredBatch } from '../../book/stored.ts';
import type { BookRoom } from '../../room.ts';
import { kitchenOf } from '../kitchen.ts';
import { confirmationsOf, unconfirmedChecks } from '../limit-standing.ts';
import { limitsOf } from '../own-set-book.ts';
import { decisionsOf, standingDecision } from '../release.ts';
import type { AskedPacks } from '../trays-judged.ts';
import { sayDay } from '../when.ts';
import { composeCase, type ComposedCase, type Keeping } from './compose.ts';
import { gateLine, leaveLine, packLine } from './gate-line.ts';
import { judgeBySet } from './judge-by-set.ts';
import { type JudgedWith, judgeComposed, withoutExcluded } from './judge-composed.ts';
import { type ReadingsAt, readOnce } from './points.ts';
import { digestOfRow } from './row-digest.ts';
import { recallJudgement } from './recall.ts';
import { wireSet } from './wire-set.ts';

const MINUTE_MS = 60_000;

export type Gates = Readonly<Record<GateLine['gate'], GateLine>>;

export interface BatchJudgement {
  /** The result by the set that decides this batch. */
  readonly deciding: SetResultWire;
  /** Every reading counted as recorded; null where nobody left a reading out. */
  readonly asRecorded: SetResultWire | null;
  /** For one way of packing and keeping. */
  readonly gates: Gates;
  /** Deciding limits that rest on memory or a second-hand text and that nobody here has confirmed. */
  readonly unconfirmed: string[];
  /** SHA-256 of the canonical JSON of the deciding result: what a decision was made on. */
  readonly digest: string;
}

/** How the batch is packed and kept: as it was released, on HOLD as its packs were sealed, else as it was made for. */
export function keepingOf(room: BookRoom, batch: StoredBatch): Keeping {
  const decisions = decisionsOf(room, batch.id);
  const standing = decisions.at(-1);
  const isSealed = room.book.shelf('packs').where('batchId', batch.id).length > 0;
  const release = isSealed ? decisions.findLast((one) => one.decision === 'release') : standing?.decision === 'release' ? standing : undefined;
  return { pack: (release ?? batch).pack, store: (release ?? batch).store };
}

/**
 * Judges a batch by its deciding set, on the record as it is now.
 * @param keeping how it is to be packed and kept; as it stands when left out
 * @param readingsAt handed on where the same readings are needed more than once
 * @param asked of a part of its packs, or as if the last of them had left then
 */
export function judgeBatch(room: BookRoom, batch: StoredBatch, keeping: Keeping = keepingOf(room, batch), readingsAt: ReadingsAt = readOnce(room), asked: AskedPacks = {}): BatchJudgement {
  const limits = limitsOf(room);
  const set = setOf(room, batch.setId);
  const composed = composeCase(room, batch, keeping, readingsAt, asked);
  const packing = atSealing(set, composed, room.clock.nowMs());
  const leaving = atHandOver(composed, room.clock.nowMs());
  const standing = standingDecision(room, batch.id);
  const asIf = [packing.judgeCase.sealedMs ?? null, leaving.judgeCase.records.store, standing?.id ?? null];
  return recallJudgement(['deciding', whatDecides(room, set, composed), asIf], () => {
    const judgedWith = judgedWithOf(room, set, wordsContextOf(room, composed));
    const both = judgeComposed(judgedWith, composed);
    const resultAt = (one: ComposedCase): SetResult => (one === composed ? both.result : judgeBySet(limits, set, withoutExcluded(one), judgedWith.words));
    const lineAt = (gate: GateLine['gate'], result: SetResult) => gateLine(gate, mayPass(gate, keeping, result));
    return {
      deciding: both.deciding,
      asRecorded: both.asRecorded,
      gates: {
        brine: lineAt('brine', both.result),
        smoke: lineAt('smoke', both.result),
        pack: packLine(lineAt('pack', resultAt(packing)), keeping, composed.judgeCase.records.process.outMs !== undefined),
        leave: leaveLine(lineAt('leave', resultAt(leaving)), keeping, standing),
      },
      unconfirmed: unconfirmedLimits(room, set, both.result, judgedWith.confirmed),
      digest: sha256Hex(canonicalJson(both.deciding)),
    };
  });
}

/**
 * The same record by every other set that has a figure for this process, for information only. Each set is judged
 * in a turn of its own, so that the back room answers others in between.
 */
export async function judgeByOtherSets(room: BookRoom, batch: StoredBatch, keeping: Keeping): Promise<SetResultWire[]> {
  const limits = limitsOf(room);
  const composed = withoutExcluded(composeCase(room, batch, keeping));
  const confirmed = confirmationsOf(room.book);
  const words = wordsOf(room, composed);
  const results: SetResultWire[] = [];
  for (const set of limits.sets) {
    if (set.id === batch.setId) continue;
    const result = recallJudgement(['beside', whatDecides(room, set, composed)], () => judgeBySet(limits, set, composed, words));
    const hasFigure = result.units.some((unit) => unit.question === 'chamber' && unit.verdict !== 'no-figure' && unit.verdict !== 'does-not-apply');
    if (hasFigure) results.push(wireSet(limits, set, result, confirmed));
    await nextTurn();
  }
  return results;
}

/** The gates on the wire, in the order of the work. */
export function gateLines({ brine, smoke, pack, leave }: Gates): GateLine[] {
  return [brine, smoke, pack, leave];
}

/** Everything a judgement rests on, for telling whether it still stands; readings as one digest of their numbers. */
function whatDecides(room: BookRoom, set: LimitSet, { judgeCase, errors }: ComposedCase): unknown {
  const points = judgeCase.points.map(({ readings, ...point }) => ({ ...point, readings: digestOfRow(readings) }));
  return [set.id, set.version, { ...judgeCase, points }, errors, [...confirmationsOf(room.book).values()], dayOf(room), kitchenOf(room.book)];
}

/** The set a batch is judged by. */
export function setOf(room: BookRoom, setId: string): LimitSet {
  const set = findSet(limitsOf(room), setId);
  if (set === undefined) throw new Error(`no limit set ${setId}`);
  return set;
}

/** What clock times are said in: plain data, so that a judgement can keep it. */
export interface WordsContext {
  readonly timeZone: string;
  readonly temperatureUnit: 'F' | 'C';
  /** The day that is left unsaid. */
  readonly usualDay: string;
}

/** Clock times of the kitchen, with the day where it is not the day the batch went in (or today's, before that). */
export function wordsOf(room: BookRoom, composed: ComposedCase): Words {
  return wordsIn(wordsContextOf(room, composed));
}

export function wordsContextOf(room: BookRoom, { judgeCase }: ComposedCase): WordsContext {
  const { timeZone, temperatureUnit } = kitchenOf(room.book);
  return { timeZone, temperatureUnit, usualDay: localTime(judgeCase.records.process.inMs ?? room.clock.nowMs(), timeZone).day };
}

export function wordsIn({ timeZone, temperatureUnit, usualDay }: WordsContext): Words {
  return clockWords(temperatureUnit, (ms) => {
    const { day, clock } = localTime(ms, timeZone);
    return day === usualDay ? clock : `${clock} on ${sayDay(day)}`;
  }, (ms) => sayDay(localTime(ms, timeZone).day));
}

/** What a case of this book is judged with now. */
export function judgedWithOf(room: BookRoom, set: LimitSet, words: WordsContext): JudgedWith {
  return { limits: limitsOf(room), set, words: wordsIn(words), confirmed: confirmationsOf(room.book) };
}

/** Before the batch went in, times are said as of today, so that a judgement is of its day. */
function dayOf(room: BookRoom): string {
  return localTime(room.clock.nowMs(), kitchenOf(room.book).timeZone).day;
}

/** The case as it stands if sealed packs left at this minute: their store's record closed now, where it isn't already. */
function atHandOver(composed: ComposedCase, nowMs: number): ComposedCase {
  const { store } = composed.judgeCase.records;
  if (composed.judgeCase.sealedMs === undefined || store.inMs === undefined || store.outMs !== undefined) return composed;
  const minuteMs = Math.max(store.inMs, Math.floor(nowMs / MINUTE_MS) * MINUTE_MS);
  const records = { ...composed.judgeCase.records, store: { ...store, outMs: minuteMs, open: false } };
  return { ...composed, judgeCase: { ...composed.judgeCase, records } };
}

/**
 * The case as it stands if the fish were sealed at this minute. A set that wants fish frozen before it is sealed
 * asks so before the sealing can be marked.
 */
function atSealing(set: LimitSet, composed: ComposedCase, nowMs: number): ComposedCase {
  const { sealedMs, frozenMs } = composed.judgeCase;
  const asksFrozenFirst = set.answers.some((answer) => answer.question === 'pack');
  if (!asksFrozenFirst || sealedMs !== undefined || frozenMs === undefined) return composed;
  return { ...composed, judgeCase: { ...composed.judgeCase, sealedMs: Math.floor(nowMs / MINUTE_MS) * MINUTE_MS } };
}

function unconfirmedLimits(room: BookRoom, set: LimitSet, result: SetResult, confirmed: ReadonlyMap<string, unknown>): string[] {
  const applying = new Set(result.checks.filter((check) => check.verdict !== 'does-not-apply').map((check) => check.checkId));
  const unseen = new Set(unconfirmedChecks(limitsOf(room), set, confirmed));
  return checkIdsOf(set).filter((id) => applying.has(id) && unseen.has(id)).flatMap((id) => {
    const check = findCheck(limitsOf(room), id);
    if (check === undefined) return [];
    const { publisher, title, mark } = sourceOf(check, set);
    return [`${id}: ${check.title} (${mark}: ${publisher}, ${title})`];
  });
}
