/** The load itself before it is lit: pieces to measure, the thickest among them, where they hang, and its weight. */
import type { ReadyItem } from '../../../app/contract/requests/corrective.ts';
import { massIn } from '../../../app/measures/mass.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { weightOf } from './batch-weights.ts';
import { kitchenOf } from './kitchen.ts';
import { checksOf, isReady, type LoadPlan } from './ready-plan.ts';

/** Each batch is judged by its own pieces, so each needs as many as its set asks. */
export function probesItem(room: BookRoom, plan: LoadPlan): ReadyItem {
  const counts = plan.batches.map((batch) => ({
    batch,
    has: plan.pieces.filter((piece) => piece.batchId === batch.id).length,
    asked: Math.max(1, ...checksOf(room, batch).map((check) => (check.kind === 'probe-count' ? check.pieces : 1))),
  }));
  const short = counts.filter(({ has, asked }) => has < asked);
  if (short.length === 0) return isReady('probes', `${counts.map(({ batch, has, asked }) => `${batch.shortName}: ${pieces(has)}, ${asked} asked`).join('; ')}.`);
  return {
    id: 'probes', state: 'missing',
    text: `${short.map(({ batch, has, asked }) => `${batch.shortName}: ${pieces(has)}, its limit set asks for ${asked}`).join('; ')}.`,
    needed: 'Add pieces to measure, each with its own record through the whole hold. It can’t be made up for later.',
  };
}

export function thickestItem({ batches, pieces: all }: LoadPlan): ReadyItem {
  const measured = batches.map((batch) => {
    const own = all.filter((piece) => piece.batchId === batch.id);
    const known = own.flatMap((piece) => piece.thicknessMm ?? []);
    return { batch, isKnown: own.length > 0 && known.length === own.length, mostMm: known.length === 0 ? null : Math.max(...known) };
  });
  const thin = measured.filter(({ batch, mostMm, isKnown }) => isKnown && mostMm !== null && mostMm < batch.thickestMm);
  if (thin.length > 0) {
    return {
      id: 'thickest', state: 'missing',
      text: `${thin.map(({ batch, mostMm }) => `${batch.shortName}: the thickest measured is ${mostMm} mm, its thickest fillet is ${batch.thickestMm} mm`).join('; ')}.`,
      needed: 'Put a thermometer into the thickest fillet, at its thickest part.',
    };
  }
  const unknown = measured.filter(({ batch, mostMm }) => mostMm === null || mostMm < batch.thickestMm);
  if (unknown.length > 0) {
    return { id: 'thickest', state: 'unknown', text: `${unknown.map(({ batch }) => batch.shortName).join(', ')}: not all pieces have a thickness.`, needed: 'Measure each piece at its thickest part.' };
  }
  return isReady('thickest', `${measured.map(({ batch, mostMm }) => `${batch.shortName}: ${mostMm} mm measured, thickest fillet ${batch.thickestMm} mm`).join('; ')}.`);
}

/** Heat is proven where it is coldest, cold smoke where it is warmest. */
export function placeItem({ smoker, batches, pieces: all }: LoadPlan): ReadyItem {
  const isCold = batches.some((batch) => batch.process === 'cold');
  const [kind, place] = isCold ? ['warmest', smoker.warmestPlace] : ['coldest', smoker.coldestPlace];
  if (place.trim() === '') {
    return {
      id: 'place', state: 'unknown', text: `The ${kind} place of ${smoker.name} is not on file.`,
      needed: `Find it with thermometers on every rack in an empty run, and write it down in the office. Until then put a thermometer where you think it is ${kind}.`,
    };
  }
  if (all.some((piece) => isAt(piece.rackPlace, place))) return isReady('place', `A piece is in the ${kind} place: ${place}.`);
  return { id: 'place', state: 'missing', text: `No piece is in the ${kind} place of ${smoker.name}: ${place}.`, needed: `Measure a piece there: ${place}.` };
}

/** As people write a place: without regard to capitals, blanks and a full stop. */
function isAt(rackPlace: string, place: string): boolean {
  const [one, other] = [rackPlace, place].map((text) => text.toLowerCase().replace(/[\s.,]+/g, ' ').trim());
  return one !== undefined && one !== '' && one === other;
}

/** Drained after the brine where it was weighed then, else the fillets. */
export function weightItem(room: BookRoom, { smoker, batches }: LoadPlan): ReadyItem {
  const grams = batches.reduce((sum, batch) => sum + loadGrams(batch), 0);
  const unit = kitchenOf(room.book).massUnit;
  const say = (one: number): string => `${massIn(one, unit).toFixed(1)} ${unit}`;
  if (smoker.largestLoadGrams === null) {
    return { id: 'load-weight', state: 'unknown', text: `This load is ${say(grams)}; the largest load ${smoker.name} was proven with is not on file.`, needed: 'Write the largest load down in the office. A fuller smoker heats more slowly.' };
  }
  if (grams <= smoker.largestLoadGrams) return isReady('load-weight', `This load is ${say(grams)}; ${smoker.name} was proven with ${say(smoker.largestLoadGrams)}.`);
  return {
    id: 'load-weight', state: 'missing', text: `This load is ${say(grams)}, more than the ${say(smoker.largestLoadGrams)} that ${smoker.name} was proven with.`,
    needed: 'Smoke it in two loads, or measure more pieces: it heats more slowly, and the cold place may be another.',
  };
}

function loadGrams(batch: StoredBatch): number {
  return weightOf(batch, 'brined')?.mass.grams ?? batch.fillets.grams;
}

function pieces(count: number): string {
  return `${count} ${count === 1 ? 'piece' : 'pieces'} to measure`;
}
