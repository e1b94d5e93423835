/** Which of a card's workings explains a figure that was tapped. Pure. */
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { words } from '../../words/words.ts';

const { names } = words.brineBench.explain;

/** A figure of the card by its key there; a line's weight is `line.<ingredientId>`. */
export type CardFigure = Exclude<keyof typeof names, 'line'> | `line.${string}`;
export type Working = BrineCard['workings'][number];

/** Where a figure has no working of its own, the one that it comes out of; cards made before have one for all their lines. */
const COMES_OUT_OF: Readonly<Partial<Record<string, readonly string[]>>> = {
  line: ['lines'],
  totalGrams: ['lines'],
  ratio: ['lines'],
  target: ['lines'],
  curePerFishPercent: ['lines'],
};

/** The working of a figure, or undefined where the card has none: then there is nothing to tap. */
export function workingOf(card: Pick<BrineCard, 'workings'>, figure: CardFigure): Working | undefined {
  const kind = figure.startsWith('line.') ? 'line' : figure;
  for (const key of [figure, ...(COMES_OUT_OF[kind] ?? [])]) {
    const found = card.workings.find((working) => working.figure === key);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** What the figure is called in the leaf that explains it; a line by its ingredient. */
export function nameOfFigure(card: Pick<BrineCard, 'lines'>, figure: CardFigure): string {
  if (!isLine(figure)) return names[figure];
  return card.lines.find((line) => `line.${line.ingredientId}` === figure)?.name ?? names.line;
}

function isLine(figure: CardFigure): figure is `line.${string}` {
  return figure.startsWith('line.');
}
