/** The finished salt that a card shows as an estimate. */
import { COLD_BRINE_CELSIUS, type BrineCard as ScaledCard } from '../../../app/brine/card.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { mixtureOf } from '../../../app/brine/ingredients.ts';
import { soakForecast } from '../../../app/brine/soak-forecast.ts';
import type { UptakeCoefficient } from '../../../app/brine/uptake-coefficient.ts';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { unwrapForCard } from './brine-card-faults.ts';
import { yieldFor, type CardWish } from './brine-card-order.ts';

export interface CardEstimate {
  readonly figures: BrineCard['finishedEstimate'];
  /** How it was worked out, and from what. */
  readonly text: string;
  readonly source: string;
}

const EQUILIBRIUM_SOURCE = 'Equilibrium of water-phase salt after A. Zugarramurdi and H. M. Lupín, 1980 (read in abstract); usual yields (from memory)';
const SOAK_SOURCE = 'Fick’s law for a slab in a bath of limited size: J. Crank, The Mathematics of Diffusion, 2nd ed., 1975, chapter 4 (from memory); coefficient from brining times by thickness, Whelan, Smoking Salmon & Trout (computed), or fitted to this kitchen’s own samples (computed); usual yields (from memory)';

/** Of the thickest piece after the planned soak where its thickness is known, else of all the fish at equilibrium. */
export function estimateFor(wish: CardWish, card: ScaledCard, coefficient: UptakeCoefficient): CardEstimate {
  const { choices, recipe, fish, filletGrams } = wish;
  const yieldPercent = yieldFor(wish);
  if (choices.thickestMm === undefined) return atEquilibrium(card, yieldPercent);
  const forecast = unwrapForCard(soakForecast({
    fish: { grams: filletGrams, moistureFraction: fish.moisturePercent / 100, saltFraction: fish.saltPercent / 100 },
    bath: mixtureOf(card.lines), thickestMm: choices.thickestMm, thinnestMm: choices.thinnestMm ?? choices.thickestMm,
    skin: choices.skin ?? 'on', celsius: COLD_BRINE_CELSIUS, soakHours: recipe.soakHours, yieldPercent, coefficient,
  }), recipe, choices);
  const { brined, finished } = forecast.thickest.afterSoak;
  const { percent, lowPercent, highPercent } = finished ?? brined;
  const used = finished === undefined ? 100 : yieldPercent;
  return {
    figures: { percent, low: lowPercent, high: highPercent, yieldPercent: used },
    text: `An estimate for the thickest piece, ${plainNumber(choices.thickestMm, 1)} mm, skin ${choices.skin ?? 'on'}, after ${plainNumber(recipe.soakHours, 1)} h in this brine at 38 °F, at ${plainNumber(used, 0)} % of its brined weight: ${plainNumber(lowPercent, 1)} to ${plainNumber(highPercent, 1)} %. Left for good, fish and brine would come to ${plainNumber(forecast.equilibriumPercent, 1)} % before smoking. Only a laboratory proves it.`,
    source: SOAK_SOURCE,
  };
}

/** Without an estimate of the finished fish the brined fish's stands, which is a yield of 100 %; the card's caution says so. */
function atEquilibrium(card: ScaledCard, yieldPercent: number): CardEstimate {
  const { percent, lowPercent, highPercent } = card.finished ?? card.equilibrium;
  const used = card.finished === undefined ? 100 : yieldPercent;
  return {
    figures: { percent, low: lowPercent, high: highPercent, yieldPercent: used },
    text: `An estimate, if fish and brine come to balance and the fish keeps ${plainNumber(used, 0)} % of its brined weight: ${plainNumber(lowPercent, 1)} to ${plainNumber(highPercent, 1)} %. A thick piece may not come so far in the planned soak: give its thickness. Only a laboratory proves it.`,
    source: EQUILIBRIUM_SOURCE,
  };
}
