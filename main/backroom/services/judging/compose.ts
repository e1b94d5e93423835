/** The record of one batch as the judge reads it: measured points, marks, laboratory samples and facts. */
import type { CaseFacts, ExcludedReading, JudgeCase, PackKind, RecordSpan, SaltSample, StoreKind } from '../../../../app/limits/judge-case.ts';
import { differenceTicks } from '../../../../app/measures/temperature.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';
import type { BookRoom } from '../../room.ts';
import { type AskedPacks, keptColdOf, type KeptCold } from '../trays-judged.ts';
import { paperFactsOf, scheduledOf } from '../paper-facts.ts';
import { weighedLines } from '../brine-card-ingredients.ts';
import { errorOf, filedChecks } from '../instrument-checks.ts';
import { declaresNitrite } from '../nitrite-rule.ts';
import { errorsOf, type RecordErrors } from './instrument-errors.ts';
import { fillPoint } from './point-plan.ts';
import { instrumentsIn, readingsWithin, type PointPlan } from './taken-readings.ts';
import { excludedReadings } from './doubt-evidence.ts';
import { brinePoints, dryPoints, loadPoints, rawPoints, type ReadingsAt, readOnce, roomPoints } from './points.ts';
import { evidenceOf, type ReadingEvidence } from './reading-evidence.ts';
import { loadOfBatch } from '../taken-out.ts';

/** What a thermometer that nobody named is taken to be off by (common practice). */
const UNKNOWN_ERROR_TICKS = differenceTicks(2, 'F');
/** A review is asked for within 7 days: 21 CFR 123.8(a)(3) (from memory). */
const REVIEW_MS = 7 * 86_400_000;

/** How the batch is to be packed and kept: what it was made for, or what a manager asks about. */
export interface Keeping {
  readonly pack: PackKind;
  readonly store: StoreKind;
}

/** A case without its instruments' error, which differs by the place a check reads. */
export interface ComposedCase {
  readonly judgeCase: Omit<JudgeCase, 'errorTicks'>;
  readonly errors: RecordErrors;
  /** Where the readings of the case's points come from, in their order, and what is known of them. */
  readonly plans: readonly PointPlan[];
  readonly evidence: ReadingEvidence;
}

/**
 * Composes the case of a batch for one way of packing and keeping it.
 *
 * Pieces and chamber are the process record. It stays open until the cooling record is closed (hot) or the
 * load is out (cold); of a piece every reading from the in mark on counts, of the chamber none after the out mark.
 * Room and brine are the soak's, and a cold smoke's drying is the same room's until it goes in; the freezer is
 * read from the freezer's own record while the batch was in it, and that record is the store's only where the
 * packs lay there.
 * Nothing is taken out here: the case names what people left out, and `applyExclusions` takes it out.
 * @param readingsAt handed on where the same readings are needed more than once
 * @param asked of a part of its packs, or as if the last of them had left then
 */
export function composeCase(room: BookRoom, batch: StoredBatch, keeping: Keeping, readingsAt: ReadingsAt = readOnce(room), asked: AskedPacks = {}): ComposedCase {
  const load = loadOfBatch(room, batch);
  const kept = keptColdOf(room, batch, load, keeping.store, asked);
  const plans = plansOf(room, batch, keeping, kept);
  const evidence = evidenceOf(room, plans, readingsAt);
  const judgeCase: Omit<JudgeCase, 'errorTicks'> = {
    process: batch.process,
    species: batch.speciesId,
    pack: keeping.pack,
    store: keeping.store,
    points: plans.map((plan) => fillPoint(plan, readingsAt, evidence)),
    records: recordsOf(room, batch, load, kept, keeping.store),
    excluded: leftOut(room, plans, readingsAt),
    endOfSmokingMs: load?.endOfSmokingAtMs ?? undefined,
    sealedMs: batch.sealedAtMs ?? undefined,
    frozenMs: kept.frozenMs,
    thawedMs: kept.thawedMs,
    chilledMs: chilledMs(batch, kept, keeping.store),
    saltSamples: saltSamplesOf(room, batch.id),
    scheduledProcess: scheduledOf(room, batch),
    facts: { ...factsOf(room, batch), ...withChecks(room, paperFactsOf(room, batch, load, keeping.pack), plans, readingsAt) },
  };
  return { judgeCase, errors: errorsWith(room, readingsAt, batch, load, kept), plans, evidence };
}

/** Where the readings of a batch's points come from, for one way of packing and keeping it. */
export function plansOf(room: BookRoom, batch: StoredBatch, { store }: Pick<Keeping, 'store'>, kept: KeptCold = keptColdOf(room, batch, loadOfBatch(room, batch), store)): PointPlan[] {
  const load = loadOfBatch(room, batch);
  return [
    ...rawPoints(room, batch),
    ...loadPoints(room, batch, load),
    ...roomPoints(room, batch),
    ...brinePoints(batch),
    ...dryPoints(room, batch, load),
    ...kept.plans,
  ];
}

/** What people left out; a reading where one stretch ends and the next begins is named once. */
function leftOut(room: BookRoom, plans: readonly PointPlan[], readingsAt: ReadingsAt): ExcludedReading[] {
  return [...new Map(excludedReadings(room, plans, readingsAt).map((one) => [JSON.stringify(one), one])).values()];
}

function recordsOf(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined, kept: KeptCold, store: StoreKind): JudgeCase['records'] {
  const soakStart = batch.soak.find((event) => event.what === 'start')?.atMs;
  const soakEnd = batch.soak.find((event) => event.what === 'end')?.atMs;
  const receivedMs = batch.lotIds.map((id) => room.book.shelf('fishLots').need(id).receivedAtMs).reduce((first, at) => Math.min(first, at), Infinity);
  const processEnd = batch.process === 'hot' ? load?.cooledAtMs : load?.outAtMs;
  return {
    process: { inMs: load?.inAtMs ?? undefined, outMs: load?.outAtMs ?? undefined, open: (processEnd ?? null) === null },
    soak: spanOf(soakStart ?? null, soakEnd ?? null),
    raw: spanOf(Number.isFinite(receivedMs) ? receivedMs : null, soakStart ?? load?.inAtMs ?? null),
    ...(soakEnd === undefined ? {} : { dry: spanOf(soakEnd, load?.inAtMs ?? null) }),
    freezer: kept.freezer,
    // The store's record ends when the last pack is gone, and is open until then.
    store: store === 'frozen' && kept.packs !== undefined ? kept.packs : spanOf(batch.sealedAtMs, kept.goneMs ?? null),
  };
}

/** Packs may lie in several freezers, with a probe of their own; the largest error is the strict side. */
function errorsWith(room: BookRoom, readingsAt: ReadingsAt, batch: StoredBatch, load: StoredLoad | undefined, { freezerIds, probeIds }: KeptCold): RecordErrors {
  const errors = errorsOf(room, readingsAt, batch, load);
  if (freezerIds.length < 2 && probeIds.length === 0) return errors;
  const others = freezerIds.filter((id) => id !== batch.freezerPlaceId).map((freezerPlaceId) => errorsOf(room, readingsAt, { ...batch, freezerPlaceId }, load).store);
  const probes = probeIds.flatMap((id) => [...instrumentsIn(readingsAt(id))]).map((id) => {
    const instrument = id === null ? undefined : room.book.shelf('instruments').get(id);
    return instrument === undefined ? UNKNOWN_ERROR_TICKS : errorOf(room.book, instrument, 'cold').ticks;
  });
  return { ...errors, store: Math.max(errors.store, ...others, ...probes) };
}

function spanOf(inMs: number | null, outMs: number | null): RecordSpan {
  return { inMs: inMs ?? undefined, outMs: outMs ?? undefined, open: outMs === null };
}

/** Known to be chilled: chilled packs at their sealing, hot-smoked because their cooling ended before and cold-smoked because they are packed cold; frozen packs once the first of them were frozen solid. */
function chilledMs(batch: StoredBatch, kept: KeptCold, store: StoreKind): number | undefined {
  if (store === 'frozen') return kept.packs === undefined ? undefined : kept.chilledMs;
  return batch.sealedAtMs ?? undefined;
}

function saltSamplesOf(room: BookRoom, batchId: string): SaltSample[] {
  return room.book.shelf('labResults').where('batchId', batchId).map(({ saltPercent, moisturePercent, nitritePpm }) => ({
    saltPercent, moisturePercent, nitritePpm: nitritePpm ?? undefined,
  }));
}

function factsOf(room: BookRoom, batch: StoredBatch): CaseFacts {
  const packs = room.book.shelf('packs').where('batchId', batch.id);
  return {
    cure: batch.card.cure,
    nitriteUsed: weighedLines(room, batch).some(({ ingredient }) => declaresNitrite(ingredient)),
    ...brineFacts(batch),
    ...reviewFacts(room, batch),
    labelledAsSealed: packs.length > 0 ? packs.every((pack) => pack.printedCount > 0) : undefined,
  };
}

/**
 * The first review after the record was complete by somebody trained, else the first at all, under the initials that
 * the training paper names. As long as nobody made one, it may still come while the strictest of the published days run.
 */
function reviewFacts(room: BookRoom, batch: StoredBatch): Pick<CaseFacts, 'review'> {
  const load = loadOfBatch(room, batch);
  const recordedMs = (batch.process === 'hot' ? load?.cooledAtMs : load?.outAtMs) ?? undefined;
  if (recordedMs === undefined) return { review: { mayCome: true } };
  const reviews = room.book.shelf('reviews').where('batchId', batch.id).filter(({ atMs }) => atMs >= recordedMs);
  const review = reviews.find(({ trained }) => trained) ?? reviews[0];
  if (review === undefined) return room.clock.nowMs() - recordedMs <= REVIEW_MS ? { review: { mayCome: true } } : { review: { recordedMs } };
  return { review: { recordedMs, reviewedMs: review.atMs, reviewer: review.initials } };
}

/** Papers on file with the checks of the thermometers that the smoke was read by, under their names. */
function withChecks(room: BookRoom, papers: Pick<CaseFacts, 'onFile' | 'loadDayStartMs'>, plans: readonly PointPlan[], readingsAt: ReadingsAt): Pick<CaseFacts, 'onFile' | 'loadDayStartMs' | 'probesUsed'> {
  const ids = new Set(plans.flatMap(({ record, taken }) => (record !== 'process' || taken === null ? [] : [...instrumentsIn(readingsWithin(taken, readingsAt))])));
  // A thermometer that nobody named can't be shown to have been checked.
  if (ids.size === 0 || ids.has(null)) return papers;
  const instruments = [...ids].flatMap((id) => (id === null ? [] : (room.book.shelf('instruments').get(id) ?? [])));
  return { ...papers, onFile: [...(papers.onFile ?? []), ...filedChecks(room.book, instruments)], probesUsed: instruments.map(({ name }) => name) };
}

/** Whether the brine is new, as told at the start of the soak; before it there is no brine to speak of, and nothing is assumed. */
function brineFacts({ asksReuse, brineReused, soak }: StoredBatch): Pick<CaseFacts, 'brineReused' | 'brineBatchNumber'> {
  if (!asksReuse) return soak.length === 0 ? {} : { brineReused: false, brineBatchNumber: 1 };
  if (brineReused === null) return {};
  return brineReused ? { brineReused } : { brineReused, brineBatchNumber: 1 };
}
