/** What to know of a tub that is mixed by taste, in sentences. */
import { plainNumber } from '../../../app/brine/rounding.ts';
import type { TasteFigures as TubFigures } from '../../../app/brine/taste-figures.ts';
import type { Tasting } from '../../../app/contract/requests/taste.ts';
import type { Outcome } from '../../../app/measures/outcome.ts';
import { additionsOnStruckReadings } from './taste-weighing.ts';

/** Float and scale may differ by this many points of salt before something is amiss (our choice). */
const FLOAT_SLIP_PERCENT = 0.5;
/** A float further off than this misleads, as on the brine card. */
const MISLED_DEGREES = 1;

export interface TasteStand {
  readonly tasting: Tasting;
  readonly figures: TubFigures;
  /** What the last float means; null where none was read. */
  readonly meant: Outcome<number> | null;
  /** Salt by weight when that float was read. */
  readonly weighedThenPercent: number | null;
}

/** What stands out, the gravest first. */
export function tasteCautions(stand: TasteStand): string[] {
  return [...weighingCautions(stand), ...strengthCautions(stand), ...floatCautions(stand), ...estimateCautions(stand)];
}

function weighingCautions({ tasting }: TasteStand): string[] {
  return additionsOnStruckReadings(tasting.additions).map(({ name }) => (
    `${name} was weighed as the difference to a reading that has been struck through since: strike it through too, and weigh it in again.`
  ));
}

function strengthCautions({ figures }: TasteStand): string[] {
  const { totalGrams, hasWater, saltFallsOut, percentByWeight } = figures;
  if (totalGrams === 0) return [];
  if (!hasWater) return ['There is no water in the tub yet, so there is no brine whose strength could be told.'];
  if (saltFallsOut) return ['The water holds less salt than was weighed in: some lies on the bottom, and the strength named here is that of all of it. Add water.'];
  return percentByWeight === 0 ? ['There is no salt in the tub yet.'] : [];
}

function floatCautions({ figures: { float, salometerDegrees }, meant, weighedThenPercent, tasting }: TasteStand): string[] {
  const cautions: string[] = [];
  if (float !== null && float.kind !== 'shows') cautions.push('A salometer float runs off its scale in this brine: go by weight alone.');
  if (float?.kind === 'shows' && Math.abs(float.degrees - salometerDegrees) > MISLED_DEGREES) {
    cautions.push(`A float will not show this brine’s ${plainNumber(salometerDegrees, 1)} °SAL but ${plainNumber(float.degrees, 1)}: sugar and temperature mislead it.`);
  }
  const last = tasting.floats.at(-1);
  if (last === undefined || meant === null) return cautions;
  if (!meant.ok) cautions.push(`The float’s reading fits no such brine. ${meant.problem.message}`);
  else if (weighedThenPercent !== null && Math.abs(meant.value - weighedThenPercent) > FLOAT_SLIP_PERCENT) {
    cautions.push(`The float meant ${plainNumber(meant.value, 1)} % salt where ${plainNumber(weighedThenPercent, 1)} % was weighed: stir until all is dissolved, and think whether something went in unweighed.`);
  }
  if (last.afterAdditions < tasting.additions.length) cautions.push('The float was read before the latest addition: read it again for the brine as it is now.');
  return cautions;
}

function estimateCautions({ figures, tasting }: TasteStand): string[] {
  if (tasting.fillets === null || figures.equilibrium === null || figures.finished !== null) return [];
  return ['The finished salt can’t be estimated for this fish: some of it would lose all its water.'];
}
