import { useState, type ReactNode } from 'react';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { PressButton } from '../../parts/button.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { words } from '../../words/words.ts';
import { nameOfFigure, workingOf, type CardFigure } from './figure-workings.ts';

const text = words.brineBench.explain;

interface FigureProps {
  readonly card: BrineCard;
  readonly figure: CardFigure;
  /** The figure as it is read out, unit and all. */
  readonly shown: string;
  readonly children: ReactNode;
}

/** A figure of the card that says, when it is tapped, how it was worked out; plain text where the card doesn't tell. */
export function FigureButton({ card, figure, shown, children }: FigureProps): ReactNode {
  const [isOpen, setOpen] = useState(false);
  const working = workingOf(card, figure);
  if (working === undefined) return children;
  const name = nameOfFigure(card, figure);
  return (
    <>
      <button type="button" className="figure-button" onClick={() => setOpen(true)}>
        {children}
        <span className="only-read-aloud">{text.tap(name)}</span>
      </button>
      {isOpen ? (
        <Leaf title={name} onClose={() => setOpen(false)}>
          <p className="explain-figure">{shown}</p>
          <p>{working.text}</p>
          <p className="soft">{text.source}: {working.source}</p>
          <div className="row"><PressButton onPress={() => setOpen(false)}>{words.parts.close}</PressButton></div>
        </Leaf>
      ) : null}
    </>
  );
}
