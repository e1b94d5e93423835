/** How much brine: the recipe's ratio, another, or what a tub takes beside the fish; and a strength that aims at the low end. */
import { aimAtLowEnd } from '../../../app/brine/aim.ts';
import { brineCard, cardOfScaled, COLD_BRINE_CELSIUS, type BrineCard, type CardOrder } from '../../../app/brine/card.ts';
import type { ScaledBrine } from '../../../app/brine/recipe.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { brineForTub } from '../../../app/brine/tub.ts';
import type { UptakeCoefficient } from '../../../app/brine/uptake-coefficient.ts';
import { orderOf, type CardWish } from './brine-card-order.ts';
import { unwrapForCard } from './brine-card-faults.ts';
import { refuseInput } from './field-refusal.ts';

export interface SizedBrine {
  readonly card: BrineCard;
  readonly order: CardOrder;
  /** How the ratio came about, in a sentence. */
  readonly ratioWords: string;
}

/** A tub's ratio follows the strength, which follows the ratio; each round halves what is left many times over. */
const TUB_ROUNDS = 2;

/**
 * The brine of a wish, scaled and sized.
 * @param coefficient of the salt's uptake, for aiming at the low end
 * @throws Refusal as `unwrapForCard`; no thickness or no finished goal to aim at
 */
export function sizeBrine(wish: CardWish, coefficient: UptakeCoefficient): SizedBrine {
  const { recipe, choices } = wish;
  const size = choices.size ?? { by: 'recipe' };
  if (size.by !== 'tub') {
    const ratio = size.by === 'ratio' ? size.ratio : recipe.ratio;
    const order = orderOf(wish, ratio);
    const ratioWords = `${plainNumber(ratio, 3)} of brine to 1 of fish by weight, as ${size.by === 'ratio' ? 'chosen for this batch' : 'the recipe has it'}.`;
    return { card: cardFor(wish, order, coefficient), order, ratioWords };
  }
  const tub = { tubLitres: size.litres, headroomPercent: size.headroomPercent };
  let order = orderOf(wish, recipe.ratio);
  let filling = unwrapForCard(brineForTub(tub, order, wish.ingredients), recipe, choices);
  order = { ...order, ratio: filling.ratio };
  for (let round = 0; choices.aimLowEnd === true && round < TUB_ROUNDS; round += 1) {
    const { percentByWeight } = aimedBrine(wish, order, coefficient);
    filling = unwrapForCard(brineForTub(tub, { ...order, target: { form: 'brinePercent', percent: percentByWeight } }, wish.ingredients), recipe, choices);
    order = { ...order, ratio: filling.ratio };
  }
  return {
    card: cardFor(wish, order, coefficient), order,
    ratioWords: `A tub of ${plainNumber(size.litres, 1)} litres with ${plainNumber(size.headroomPercent, 0)} % left empty takes ${plainNumber(filling.usableLitres, 1)} litres: the fish ${plainNumber(filling.fishLitres, 1)}, the brine ${plainNumber(filling.brineLitres, 1)}. That is ${plainNumber(filling.ratio, 2)} of brine to 1 of fish by weight.`,
  };
}

function cardFor(wish: CardWish, order: CardOrder, coefficient: UptakeCoefficient): BrineCard {
  const { recipe, choices } = wish;
  if (choices.aimLowEnd !== true) return unwrapForCard(brineCard(order, wish.ingredients), recipe, choices);
  return unwrapForCard(cardOfScaled(order, aimedBrine(wish, order, coefficient)), recipe, choices);
}

function aimedBrine(wish: CardWish, order: CardOrder, coefficient: UptakeCoefficient): ScaledBrine {
  const { recipe, choices } = wish;
  const { thickestMm, skin = 'on' } = choices;
  if (thickestMm === undefined) refuseInput('To aim at the low end of the thickest piece its thickness is needed.', ['thickestMm'], 'Measure the thickest piece at its thickest part and give the millimetres.');
  if (order.target.form !== 'finishedWaterPhasePercent') {
    refuseInput('Only salt in the finished fish can be aimed at with the low end.', ['aimLowEnd'], 'Choose a finished water-phase salt as the goal, or aim at what is likely.');
  }
  return unwrapForCard(aimAtLowEnd({ ...order, thickestMm, skin, celsius: COLD_BRINE_CELSIUS, soakHours: recipe.soakHours, coefficient }, wish.ingredients), recipe, choices);
}
