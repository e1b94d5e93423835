import type { ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { CardFacts, Cautions } from './card-facts.tsx';
import { CardLines } from './card-lines.tsx';
import { ForecastPanel } from './forecast-panel.tsx';
import { MendedNote } from './mend-plan-view.tsx';
import { SoakLog } from './soak-log.tsx';
import { Strength } from './strength.tsx';
import { useWeighed } from './use-weighed.ts';

const text = words.brineBench;

/** The brine card of a batch, propped up: weights large, strength and soak beside them. */
export function BatchCard({ batch }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  const weighed = useWeighed(batch);
  const { card } = batch;
  const isAtBench = batch.stage === 'ready' || batch.stage === 'soaking' || batch.stage === 'drying';
  return (
    <>
      <div className="spread">
        <div>
          <h1>{text.cardTitle(card.recipeName, formats.mass(card.filletGrams), batch.marketName)}</h1>
          <p className="soft">{text.cardSub(card.recipeVersion, batch.shortName)}</p>
        </div>
        <div className="row">
          {isAtBench ? <PressButton onPress={() => go(addressOf('brine-bench', batch.id, 'weigh'))}>{text.weigh.open}</PressButton> : null}
          {isAtBench ? <PressButton onPress={() => go(addressOf('brine-bench', batch.id, 'mend'))}>{text.mend.open}</PressButton> : null}
          <PressButton onPress={() => go(addressOf('print', 'card', batch.id))}>{text.printCard}</PressButton>
        </div>
      </div>
      <div className="card-columns">
        <div className="stack">
          <MendedNote mends={batch.mends} />
          <section className="sheet stack">
            <CardLines card={card} weighed={weighed} />
            <CardFacts card={card} />
            <p className="soft small">{text.tapFigure}</p>
          </section>
        </div>
        <div className="stack beside">
          <SoakLog batch={batch} />
          <Strength card={card} />
          <Cautions card={card} />
        </div>
        <ForecastPanel batch={batch} />
      </div>
    </>
  );
}
