import type { ReactNode } from 'react';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { plainRatio } from '../../parts/brine-words.ts';
import { words } from '../../words/words.ts';
import { FigureButton } from './figure-button.tsx';

const text = words.brineBench;

/** What the card was solved for and how much brine there is to the fish. */
export function CardFacts({ card }: { readonly card: BrineCard }): ReactNode {
  const ratio = plainRatio(card.ratio);
  return (
    <p className="row facts">
      {card.cure === 'dry' ? null : <FigureButton card={card} figure="ratio" shown={text.ratioLine(ratio)}>{text.ratioLine(ratio)}</FigureButton>}
      {card.target === '' ? null : <FigureButton card={card} figure="target" shown={card.target}>{text.goalLine(card.target)}</FigureButton>}
    </p>
  );
}

/** How long it soaks and when it is turned, as the recipe has it. */
export function SoakFacts({ card }: { readonly card: BrineCard }): ReactNode {
  const [plan, turns] = [text.soakPlan(String(card.soakHours)), text.turnAt(card.turnHours.join(', '))];
  return (
    <p className="row facts">
      <FigureButton card={card} figure="soakHours" shown={plan}>{plan}</FigureButton>
      {card.turnHours.length === 0 ? null : <FigureButton card={card} figure="turnHours" shown={turns}>{turns}</FigureButton>}
    </p>
  );
}

/** What to look out for; nothing where there is nothing. */
export function Cautions({ card }: { readonly card: BrineCard }): ReactNode {
  if (card.cautions.length === 0) return null;
  return (
    <section className="note caution stack" aria-label={text.cautionsTitle}>
      {card.cautions.map((caution) => <p key={caution}>{caution}</p>)}
    </section>
  );
}
