import type { ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { CardLines } from './card-lines.tsx';
import { SoakLog } from './soak-log.tsx';
import { Strength } from './strength.tsx';

const text = words.brineBench;

/** The brine card of a batch, propped up: weights large, strength and soak beside them. */
export function BatchCard({ batch }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  const { card } = batch;
  return (
    <>
      <div className="spread">
        <div>
          <h1>{text.cardTitle(card.recipeName, formats.mass(card.filletGrams), batch.marketName)}</h1>
          <p className="soft">{text.cardSub(card.recipeVersion, String(card.ratio), batch.shortName)}</p>
        </div>
        <PressButton onPress={() => go(addressOf('print', 'card', batch.id))}>{text.printCard}</PressButton>
      </div>
      <div className="columns">
        <div className="stack">
          <section className="sheet"><CardLines card={card} ticks /></section>
          <details className="sheet">
            <summary className="strong">{text.workings}</summary>
            <ul>
              {card.workings.map((working) => (
                <li key={working.figure}><span className="strong">{working.figure}</span>: {working.text} <span className="soft small">{working.source}</span></li>
              ))}
            </ul>
          </details>
        </div>
        <div className="stack">
          <SoakLog batch={batch} />
          <Strength card={card} />
          {card.cautions.length === 0 ? null : (
            <section className="note caution stack" aria-label={text.cautionsTitle}>
              {card.cautions.map((caution) => <p key={caution}>{caution}</p>)}
            </section>
          )}
        </div>
      </div>
    </>
  );
}
