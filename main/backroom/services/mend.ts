/** “Mend it now”: the plan for a batch's brine that went wrong, and the record that it was mended so. */
import { COLD_BRINE_CELSIUS } from '../../../app/brine/card.ts';
import { mendBrine } from '../../../app/brine/mend.ts';
import type { MendPlan, TubNow } from '../../../app/brine/mend-plan.ts';
import { hoursToApproach } from '../../../app/brine/uptake.ts';
import { coefficientAt } from '../../../app/brine/uptake-coefficient.ts';
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Mend } from '../../../app/contract/requests/brine-bench.ts';
import type { MendPlan as WirePlan } from '../../../app/contract/requests/tub.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { ingredientsOfBatch, weighedLines } from './brine-card-ingredients.ts';
import { scaleStepFor } from './brine-card-order.ts';
import { ownIngredientsAmong } from './kitchen-ingredients.ts';
import { kitchenOf } from './kitchen.ts';
import { mendedCard } from './mend-card.ts';
import { readTrouble, unwrapMend } from './mend-trouble.ts';
import { refuseWrongMoment } from './mend-when.ts';
import { mendCautions, voidSentences, wireState, wireSteps } from './mend-words.ts';
import { refuseForbiddenNitrite, refuseUngroundedNitrite } from './nitrite-rule.ts';
import { soakMarkMs } from './soak-bath.ts';
import { coefficientFor } from './soak-coefficient.ts';
import { fishOf, speciesOf } from './species.ts';
import { sayInstant } from './when.ts';

type Mending = Parsed<'brine.mend'>;

const KINDS: Readonly<Record<Mend['kind'], string>> = {
  'too-strong': 'too strong', 'too-weak': 'too weak', spilled: 'spilled', 'ran-out': 'an ingredient ran out', 'wrong-salt': 'the wrong salt went in', 'too-salty': 'the fish was too salty',
};
/** Freshening is of fish; where a cure without water stands in for the brine, plain water does. */
const ANY_WATER_GRAMS = 1000;
const COLDEST_CELSIUS = 0;
const WARMEST_CELSIUS = 30;

/** What to do now; changes nothing. Refuses like `recordMend`, but for the time. */
export function planMend(room: BookRoom, input: Mending): WirePlan {
  const batch = room.book.shelf('batches').need(input.batchId);
  const nowMs = room.clock.nowMs();
  refuseWrongMoment(room, batch, input.trouble.kind, nowMs);
  return wirePlan(room, batch, input.trouble, workOut(room, batch, input.trouble, nowMs));
}

/**
 * Keeps that the brine was mended as the plan for that moment says: the batch gets the mend and, where
 * the brine itself changed, the card of what is in the tub now.
 * @throws Refusal: what the plan refuses, a moment that can't be, a trouble that asks for nothing to be done
 */
export function recordMend(room: BookRoom, input: Parsed<'brine.mended'>): { readonly batch: StoredBatch; readonly mend: Mend } {
  const batch = room.book.shelf('batches').need(input.batchId);
  refuseWrongMoment(room, batch, input.trouble.kind, input.atMs, ['atMs']);
  const plan = workOut(room, batch, input.trouble, input.atMs);
  if (plan.steps.every((step) => step.what === 'nothing')) {
    throw new Refusal('RULE_BLOCKS', `There is nothing to mend: ${plan.steps.flatMap((step) => (step.what === 'nothing' ? [step.why] : [])).join(' ')}`, { remedy: 'Go on as the card says.' });
  }
  const wire = wirePlan(room, batch, input.trouble, plan);
  const mend: Mend = {
    id: room.newId(), atMs: input.atMs, enteredAtMs: room.clock.nowMs(), initials: actingPerson(room).initials, kind: input.trouble.kind,
    steps: wire.steps, before: wire.before, after: wire.after, voids: wire.voids,
  };
  const when = sayInstant(room, input.atMs);
  const known = withOwn(room, batch, plan);
  const card = input.trouble.kind === 'too-salty' ? freshenedCard(batch, when) : mendedCard(room, known, plan.after.lines, when);
  const mended: StoredBatch = { ...known, card, mends: [...batch.mends, mend] };
  room.book.shelf('batches').put(mended);
  room.book.record({
    kind: 'brine.mended', subjectId: batch.id, happenedAtMs: input.atMs,
    summary: `Mended the brine of ${batch.shortName} at ${when} (${KINDS[mend.kind]}): ${mend.steps.map((step) => step.text).join(' ')}`,
    before: { card: batch.card, mends: batch.mends }, after: { card: mended.card, mends: mended.mends },
  });
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  return { batch: mended, mend };
}

function workOut(room: BookRoom, batch: StoredBatch, trouble: Mending['trouble'], atMs: number): MendPlan {
  const fish = fishOf(room, batch.speciesId);
  const ingredients = [...ingredientsOfBatch(room, batch), ...ownIngredientsAmong(room, insteadOf(trouble))];
  refuseCuringInstead(room, batch, trouble, ingredients);
  const celsius = brineCelsius(batch);
  const tub: TubNow = {
    lines: batch.card.cure === 'dry' ? plainWater(room) : weighedLines(room, batch),
    saltIngredientId: batch.recipe.saltIngredientId, celsius, scaleStepGrams: scaleStepFor(batch.fillets.grams),
    filletGrams: trouble.kind === 'too-salty' || isInBrine(batch, atMs) ? batch.fillets.grams : 0,
  };
  return unwrapMend(mendBrine(tub, readTrouble(trouble, fish), ingredients, (approach, alpha) => hoursToApproach(approach, alpha, {
    thicknessMm: batch.thickestMm, skin: batch.skin, squareMetresPerSecond: coefficientAt(coefficientFor(room, fish), celsius),
  })));
}

function insteadOf(trouble: Mending['trouble']): string[] {
  return trouble.kind === 'ran-out' && trouble.insteadId !== null ? [trouble.insteadId] : [];
}

/** What stands in for an ingredient brings no nitrite where the recipe itself might not. */
function refuseCuringInstead(room: BookRoom, batch: StoredBatch, trouble: Mending['trouble'], ingredients: Parameters<typeof refuseUngroundedNitrite>[2]): void {
  const used = { ingredients: insteadOf(trouble).map((id) => ({ id, name: ingredients.find((one) => one.id === id)?.name ?? id, parts: 1 })) };
  refuseForbiddenNitrite(room, used, speciesOf(room, batch.speciesId), ingredients, ['trouble', 'insteadId']);
  refuseUngroundedNitrite(kitchenOf(room.book), used, ingredients, ['trouble', 'insteadId']);
}

function plainWater(room: BookRoom): TubNow['lines'] {
  return room.catalogue.ingredients.filter((ingredient) => ingredient.id === 'water').map((ingredient) => ({ ingredient, grams: ANY_WATER_GRAMS }));
}

function isInBrine(batch: StoredBatch, atMs: number): boolean {
  const startMs = soakMarkMs(batch, 'start');
  return startMs !== undefined && startMs <= atMs && (soakMarkMs(batch, 'end') ?? Number.POSITIVE_INFINITY) > atMs;
}

/** As it was last read; 38 °F before that. */
function brineCelsius(batch: StoredBatch): number {
  const ticks = batch.soak.findLast((event) => event.brineTicks !== null)?.brineTicks ?? null;
  return ticks === null ? COLD_BRINE_CELSIUS : Math.min(WARMEST_CELSIUS, Math.max(COLDEST_CELSIUS, ticks / TICKS_PER_CELSIUS));
}

/** What was used in place of another is kept with the batch as it is now, where it is the kitchen's own. */
function withOwn(room: BookRoom, batch: StoredBatch, plan: MendPlan): StoredBatch {
  const had = new Set(batch.ownIngredients.map(({ id }) => id));
  const added = ownIngredientsAmong(room, plan.after.lines.map((line) => line.ingredient.id)).filter(({ id }) => !had.has(id));
  return { ...batch, ownIngredients: [...batch.ownIngredients, ...added] };
}

/** The brine is as it was; what the card says of the fish no longer holds. */
function freshenedCard(batch: StoredBatch, when: string): StoredBatch['card'] {
  return { ...batch.card, cautions: [`The fish was freshened in plain water at ${when}: the estimate of the finished salt no longer holds. Have it analysed.`, ...batch.card.cautions] };
}

function wirePlan(room: BookRoom, batch: StoredBatch, trouble: Mending['trouble'], plan: MendPlan): WirePlan {
  const { totalGrams, percentByWeight, waterPhasePercent } = batch.card;
  const isDry = batch.card.cure === 'dry';
  const cure: WirePlan['before'] = { totalGrams, percentByWeight, salometerDegrees: 0, waterPhasePercent, floatShowsDegrees: null };
  const names = [...plan.after.lines, ...plan.before.lines].map((line) => line.ingredient);
  return {
    steps: wireSteps(plan.steps, names, kitchenOf(room.book).massUnit),
    before: isDry ? cure : wireState(plan.before), after: isDry ? cure : wireState(plan.after),
    voids: voidSentences(plan.voids),
    cautions: [...mendCautions(plan, batch.card.litres), ...(trouble.kind === 'wrong-salt' ? ['Cups of salt differ by a factor of two from crystal to crystal: weigh it.'] : [])],
  };
}
