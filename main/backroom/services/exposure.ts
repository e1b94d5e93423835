/** How long a batch's fish was warm, over every step on record: information beside the verdict. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Exposure as ExposureWire } from '../../../app/contract/requests/verdict.ts';
import { measureExposure, type Exposure } from '../../../app/heat/exposure.ts';
import type { ExposureStep } from '../../../app/heat/exposure-stretches.ts';
import type { JudgeCase, MeasuredPoint, Reading } from '../../../app/limits/judge-case.ts';
import { listText, type Words } from '../../../app/limits/words.ts';
import { unwrap } from '../refusal.ts';
import { sayingSource } from './judging/wire-set.ts';
import type { BookRoom } from '../room.ts';
import type { StoredBatch, StoredLoad } from '../book/stored.ts';
import { loadOfBatch } from './taken-out.ts';

const MINUTE_MS = 60_000;
const WITHOUT_PIECE: MeasuredPoint = { name: 'no piece', role: 'piece', readings: [] };

/** A step as it stands on record; it has no end while it runs. */
interface Step extends Omit<ExposureStep, 'fromMs' | 'toMs'> {
  readonly fromMs: number | null;
  readonly toMs: number | null;
}

/**
 * The exposure of a batch: of each piece, and of every band the longest of theirs. Null before its fish came in.
 * @param judged the batch's case, with its readings
 * @param isHoldMet whether the cooling began after a completed hold
 */
export async function exposureOf(room: BookRoom, batch: StoredBatch, judged: Pick<JudgeCase, 'points'>, isHoldMet: boolean, words: Words): Promise<ExposureWire | null> {
  const load = loadOfBatch(room, batch);
  const pieces = judged.points.filter((point) => point.role === 'piece' && point.record === 'process');
  const found: { steps: ExposureStep[]; exposure: Exposure }[] = [];
  for (const piece of pieces.length === 0 ? [WITHOUT_PIECE] : pieces) {
    const steps = runningSteps(stepsOf(room, batch, load, judged.points, piece, isHoldMet), room.clock.nowMs());
    if (steps.length === 0) return null;
    const isOpen = batch.sealedAtMs === null;
    found.push({ steps, exposure: unwrap(measureExposure(steps, { product: batch.process === 'hot' ? 'cooked' : 'raw', staphylococcusOnly: false, isOpen }, words)) });
    // A long record of many pieces takes a while; others are answered in between.
    await nextTurn();
  }
  return wireOf(found.map(({ exposure }) => exposure), found[0]?.steps ?? [], words);
}

/** What is known of the batch's way, in order; a step without a start did not happen yet. */
function stepsOf(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined, points: readonly MeasuredPoint[], piece: MeasuredPoint, isHoldMet: boolean): Step[] {
  const lots = batch.lotIds.map((id) => room.book.shelf('fishLots').need(id));
  const receivedMs = Math.min(...lots.map((lot) => lot.receivedAtMs));
  const soakStart = batch.soak.find((event) => event.what === 'start')?.atMs ?? null;
  const soakEnd = batch.soak.find((event) => event.what === 'end')?.atMs ?? null;
  const inMs = load?.inAtMs ?? null;
  const outMs = load?.outAtMs ?? null;
  const cooledMs = load?.cooledAtMs ?? null;
  const readMs = batch.process === 'hot' ? cooledMs : outMs;
  const keptMs = batch.intoFreezerAtMs ?? batch.sealedAtMs;
  const stored = pointsAt(points, 'store').some(({ readings }) => readings.length > 0) ? pointsAt(points, 'store') : pointsAt(points, 'freezer');
  const received = lots.flatMap((lot): Reading[] => (lot.temperatureTicks === null ? [] : [{ atMs: lot.receivedAtMs, lowTicks: lot.temperatureTicks, highTicks: lot.temperatureTicks }]));
  return [
    { kind: 'receiving', name: 'from fish in to the brine', fromMs: Number.isFinite(receivedMs) ? receivedMs : null, toMs: soakStart ?? inMs, readings: received },
    { kind: 'soak', name: 'in the brine', fromMs: soakStart, toMs: soakEnd ?? inMs, readings: aroundFish(pointsAt(points, 'soak')) },
    { kind: 'drying', name: 'from the brine to the smoker', fromMs: soakEnd, toMs: inMs, readings: aroundFish(pointsAt(points, 'dry')) },
    { kind: 'smoking', name: 'in the smoker', fromMs: inMs, toMs: outMs, readings: piece.readings },
    ...(batch.process === 'hot' ? [{ kind: 'cooling' as const, name: 'cooling', fromMs: outMs, toMs: cooledMs, readings: piece.readings, afterCompletedHold: isHoldMet }] : []),
    { kind: 'packing', name: 'until it lay cold', fromMs: readMs, toMs: keptMs, readings: batch.process === 'hot' ? [] : piece.readings },
    { kind: 'store', name: batch.intoFreezerAtMs === null ? 'in the cold store' : 'in the freezer', fromMs: readMs === null ? null : keptMs, toMs: batch.outOfFreezerAtMs, readings: aroundFish(stored) },
  ];
}

function pointsAt(points: readonly MeasuredPoint[], record: 'soak' | 'dry' | 'store' | 'freezer'): MeasuredPoint[] {
  return points.filter((point) => point.record === record);
}

/**
 * What was read around fish that had no thermometer in it. Read at one place, that was its temperature. Read at
 * several (brine and room, or coolers of which one held it), it was as cold as the coldest of them at most: warm
 * readings of one alone don't prove that the fish was warm.
 */
function aroundFish(points: readonly MeasuredPoint[]): Reading[] {
  const read = points.filter(({ readings }) => readings.length > 0);
  const readings = read.flatMap((point) => point.readings);
  if (read.length < 2) return readings;
  const coldestTicks = readings.reduce((coldest, { lowTicks }) => Math.min(coldest, lowTicks), Infinity);
  return readings.map((reading) => ({ ...reading, lowTicks: coldestTicks }));
}

/** Steps that have begun; the one still running, or overtaken by the next, ends there. */
function runningSteps(steps: readonly Step[], nowMs: number): ExposureStep[] {
  const begun = steps.flatMap(({ fromMs, ...step }) => (fromMs === null ? [] : [{ ...step, fromMs }]));
  return begun.map((step, index): ExposureStep => {
    const toMs = step.toMs ?? begun[index + 1]?.fromMs ?? Math.max(nowMs, step.fromMs);
    // Fish frozen before it was sealed has its steps in another order than usual.
    return { ...step, toMs: Math.max(step.fromMs, toMs) };
  });
}

function wireOf(pieces: readonly Exposure[], steps: readonly ExposureStep[], words: Words): ExposureWire {
  const [first] = pieces;
  if (first === undefined) throw new Error('An exposure needs a piece, with readings or without.');
  const longest = <T extends { shortestMs: number; longestMs: number }>(of: (piece: Exposure) => T | undefined) => minutesOf(pieces.flatMap((piece) => of(piece) ?? []));
  const unknown = pieces.flatMap((piece) => piece.unknown);
  return {
    steps: steps.map((step) => ({ name: step.name, fromMs: step.fromMs, toMs: step.toMs, readings: step.readings.filter(({ atMs }) => atMs >= step.fromMs && atMs <= step.toMs).length, isApart: step.kind === 'smoking' || step.afterCompletedHold === true })),
    bands: first.bands.map(({ organism, effect, band, source }, index) => ({
      organism, effect, band: band.text, allowedMinutes: band.allowedMinutes, ...longest((piece) => piece.bands[index]), note: band.note ?? '', source: sayingSource(source), mark: source.mark,
    })).filter((band) => band.longestMinutes > 0),
    rules: first.rules.map(({ rule, tiers, limbs }, index) => ({
      title: rule.title, tiers: listText(tiers), source: sayingSource(rule.source), mark: rule.source.mark,
      limbs: limbs.map(({ text, allowedMinutes }) => ({ text, allowedMinutes, ...longest((piece) => piece.rules[index]?.limbs.find((limb) => limb.text === text)) })),
    })),
    apart: first.apart.map(({ what }, index) => ({ what: what === 'smoking' ? 'smoking' : 'cooling', ...longest((piece) => piece.apart[index]) })),
    notes: [
      ...new Set(pieces.flatMap((piece) => piece.disagreements)),
      ...(unknown.length === 0 ? [] : [`No temperature tells of ${words.lasting(unknown.reduce((sum, { fromMs, toMs }) => Math.max(sum, toMs - fromMs), 0))} at the longest; it counts as inside for the longest time and as outside for the shortest.`]),
    ],
  };
}

function minutesOf(times: readonly { readonly shortestMs: number; readonly longestMs: number }[]): { shortestMinutes: number; longestMinutes: number } {
  return {
    shortestMinutes: Math.max(0, ...times.map((time) => time.shortestMs)) / MINUTE_MS,
    longestMinutes: Math.max(0, ...times.map((time) => time.longestMs)) / MINUTE_MS,
  };
}
