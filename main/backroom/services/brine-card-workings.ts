/** How each figure of a brine card was worked out, and what it rests on. */
import { COLD_BRINE_CELSIUS, type BrineCard, type CardOrder } from '../../../app/brine/card.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { targetWords } from '../../../app/brine/target.ts';
import type { BrineCard as WireCard } from '../../../app/contract/requests/brine-bench.ts';

type Working = WireCard['workings'][number];

export interface Worked {
  readonly card: BrineCard;
  readonly order: CardOrder;
  readonly yieldPercent: number;
}

/** One working a figure, named by its key on the card. */
export function workingsOf({ card, order, yieldPercent }: Worked): Working[] {
  const saltGrams = card.lines.reduce((sum, line) => sum + line.saltGrams, 0);
  const finished = card.finished === undefined ? card.equilibrium : card.finished;
  return [
    {
      figure: 'lines',
      text: `Brine to fish ${plainNumber(order.ratio, 2)} to 1 by weight, salt solved for ${targetWords(order.target)}; every line rounded to ${plainNumber(order.scaleStepGrams ?? 0.1, 1)} g.`,
      source: 'Mass balance (computed)',
    },
    {
      figure: 'percentByWeight',
      text: `${plainNumber(saltGrams, 1)} g of salt in ${plainNumber(card.totalGrams, 1)} g of brine, the sauces’ own salt counted.`,
      source: 'USDA National Nutrient Database for Standard Reference 27, 2014, and the makers’ labels, as each ingredient names them',
    },
    {
      figure: 'salometerDegrees',
      text: `${plainNumber(card.percentByWeight, 2)} % of salt over 26.395 %, which is 100 °SAL.`,
      source: 'Salt Institute, “Chemical and physical properties of salt”: water saturated at 60 °F (read)',
    },
    {
      figure: 'waterPhasePercent',
      text: 'Salt over salt and water of the brine; sugar and spice are in neither.',
      source: 'Ontario Ministry of Agriculture, Fish Plant Guidelines, F.B.14.14 Salting (read)',
    },
    {
      figure: 'litres',
      text: `At ${plainNumber(COLD_BRINE_CELSIUS * 1.8 + 32, 0)} °F, by the density of salt water and the room the sugar takes.`,
      source: 'CRC Handbook of Chemistry and Physics, “Volumetric properties of aqueous sodium chloride solutions” (read); volume of sugar (computed)',
    },
    {
      figure: 'floatShowsDegrees',
      text: 'What a float marked at 60 °F shows in this brine at 38 °F with its sugar.',
      source: 'The same densities; expansion of the glass (from memory)',
    },
    {
      figure: 'finishedEstimate',
      text: `An estimate, if fish and brine come to balance and the fish keeps ${plainNumber(yieldPercent, 0)} % of its brined weight: ${plainNumber(finished.lowPercent, 1)} to ${plainNumber(finished.highPercent, 1)} %. Only a laboratory proves it.`,
      source: 'Equilibrium of water-phase salt after A. Zugarramurdi and H. M. Lupín, 1980 (read in abstract); usual yields (from memory)',
    },
  ];
}
