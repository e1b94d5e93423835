/** A forecast arranged for the page. Pure. */
import type { Forecast, PieceForecast } from '../../../app/contract/requests/tub.ts';
import { words } from '../../words/words.ts';

const text = words.brineBench.forecast;

/** The pieces to show, the thickest first; one where both are as thick. */
export function piecesOf({ thickest, thinnest }: Pick<Forecast, 'thickest' | 'thinnest'>): { title: string; piece: PieceForecast }[] {
  if (thickest.thicknessMm === thinnest.thicknessMm) return [{ title: text.both(String(thickest.thicknessMm)), piece: thickest }];
  return [{ title: text.thickest(String(thickest.thicknessMm)), piece: thickest }, { title: text.thinnest(String(thinnest.thicknessMm)), piece: thinnest }];
}

/** The right end of all bars in per cent, the same for all so that they compare: the next whole per cent above the highest. */
export function scaleOf({ thickest, thinnest }: Pick<Forecast, 'thickest' | 'thinnest'>): number {
  const highs = [thickest, thinnest].flatMap(({ planned, long }) => [planned.brined.high, planned.finished?.high ?? 0, long.brined.high, long.finished?.high ?? 0]);
  return Math.max(1, Math.ceil(Math.max(...highs)));
}
