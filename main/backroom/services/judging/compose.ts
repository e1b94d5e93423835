/** The record of one batch as the judge reads it: measured points, marks, laboratory samples and facts. */
import type { CaseFacts, JudgeCase, MeasuredPoint, PackKind, RecordKind, RecordSpan, SaltSample, StoreKind } from '../../../../app/limits/judge-case.ts';
import type { StoredBatch, StoredLoad } from '../../book/stored.ts';
import type { BookRoom } from '../../room.ts';
import { paperFactsOf, scheduledOf } from '../paper-facts.ts';
import { weighedLines } from '../brine-card-ingredients.ts';
import { declaresNitrite } from '../nitrite-rule.ts';
import { freezerStay, frozenWithin, isStayOfPacks } from './freezer-stay.ts';
import { errorsOf, type RecordErrors } from './instrument-errors.ts';
import { brinePoints, keptPoints, loadPoints, type ReadingsAt, readOnce, roomPoints } from './points.ts';

/** How the batch is to be packed and kept: what it was made for, or what a manager asks about. */
export interface Keeping {
  readonly pack: PackKind;
  readonly store: StoreKind;
}

/** A case without its instruments' error, which differs by the place a check reads. */
export interface ComposedCase {
  readonly judgeCase: Omit<JudgeCase, 'errorTicks'>;
  readonly errors: RecordErrors;
}

/**
 * Composes the case of a batch for one way of packing and keeping it.
 *
 * Pieces and chamber are the process record. It stays open until the cooling record is closed (hot) or the
 * load is out (cold); the judge ends a hold at the out mark and lets the same pieces' cooling go on after it.
 * Room and brine are the soak's; the freezer is read from the freezer's own record while the batch was in it, and
 * that record is the store's only where the packs lay there.
 * Nothing is excluded: every reading counts as recorded.
 * @param readingsAt handed on where the same readings are needed more than once
 */
export function composeCase(room: BookRoom, batch: StoredBatch, keeping: Keeping, readingsAt: ReadingsAt = readOnce(room)): ComposedCase {
  const load = batch.loadId === null ? undefined : room.book.shelf('loads').need(batch.loadId);
  const stay = freezerStay(batch, load);
  const frozenMs = frozenWithin(stay, batch);
  const points: readonly MeasuredPoint[] = [
    ...loadPoints(room, readingsAt, batch, load),
    ...roomPoints(room, readingsAt, batch),
    ...brinePoints(batch),
    ...keptPoints(room, readingsAt, batch, stay, keeping.store),
  ];
  const judgeCase: Omit<JudgeCase, 'errorTicks'> = {
    process: batch.process,
    species: batch.speciesId,
    pack: keeping.pack,
    store: keeping.store,
    points,
    records: recordsOf(batch, load, stay, keeping.store),
    endOfSmokingMs: load?.endOfSmokingAtMs ?? undefined,
    sealedMs: batch.sealedAtMs ?? undefined,
    frozenMs,
    thawedMs: frozenMs === undefined ? undefined : stay.outMs,
    chilledMs: chilledMs(batch, stay, keeping.store),
    saltSamples: saltSamplesOf(room, batch.id),
    scheduledProcess: scheduledOf(room, batch),
    facts: { ...factsOf(room, batch), ...paperFactsOf(room, batch, load, keeping.pack) },
  };
  return { judgeCase, errors: errorsOf(room, readingsAt, batch, load) };
}

function recordsOf(batch: StoredBatch, load: StoredLoad | undefined, stay: RecordSpan, store: StoreKind): Record<RecordKind, RecordSpan> {
  const soakStart = batch.soak.find((event) => event.what === 'start')?.atMs;
  const soakEnd = batch.soak.find((event) => event.what === 'end')?.atMs;
  const processEnd = batch.process === 'hot' ? load?.cooledAtMs : load?.outAtMs;
  return {
    process: { inMs: load?.inAtMs ?? undefined, outMs: load?.outAtMs ?? undefined, open: (processEnd ?? null) === null },
    soak: spanOf(soakStart ?? null, soakEnd ?? null),
    freezer: stay,
    // Handing over isn't marked yet, so a store record without an end of its own stays open.
    store: store === 'frozen' && isStayOfPacks(stay, batch) ? stay : spanOf(batch.sealedAtMs, null),
  };
}

function spanOf(inMs: number | null, outMs: number | null): RecordSpan {
  return { inMs: inMs ?? undefined, outMs: outMs ?? undefined, open: outMs === null };
}

/** Known to be chilled: hot-smoked chilled packs at their sealing, because their cooling ended before; frozen packs once they were frozen solid. */
function chilledMs(batch: StoredBatch, stay: RecordSpan, store: StoreKind): number | undefined {
  if (store === 'frozen') return isStayOfPacks(stay, batch) ? frozenWithin(stay, batch) : undefined;
  return batch.process === 'hot' ? (batch.sealedAtMs ?? undefined) : undefined;
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
    labelledAsSealed: packs.length > 0 ? packs.every((pack) => pack.printedCount > 0) : undefined,
  };
}

/** Whether the brine is new, as told at the start of the soak; before it there is no brine to speak of, and nothing is assumed. */
function brineFacts({ asksReuse, brineReused, soak }: StoredBatch): Pick<CaseFacts, 'brineReused' | 'brineBatchNumber'> {
  if (!asksReuse) return soak.length === 0 ? {} : { brineReused: false, brineBatchNumber: 1 };
  if (brineReused === null) return {};
  return brineReused ? { brineReused } : { brineReused, brineBatchNumber: 1 };
}
