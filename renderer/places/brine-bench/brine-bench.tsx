import type { ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { words } from '../../words/words.ts';
import { BatchCard } from './batch-card.tsx';
import { NewBrine } from './new-brine.tsx';
import './brine-bench.css';

const text = words.brineBench;

/** The brine bench: a new brine, or the card and soak of a batch. */
export function BrineBench(): ReactNode {
  const { rest } = useAddress();
  const list = useAsk('batch.list', {});
  const near = (list.data?.batches ?? []).filter((batch) => batch.stage === 'ready' || batch.stage === 'soaking' || batch.stage === 'drying');
  const shown = rest[0] === undefined ? undefined : list.data?.batches.find((batch) => batch.id === rest[0]);
  return (
    <>
      {near.length === 0 ? null : (
        <nav className="row" aria-label={text.inBrine}>
          {near.map((batch) => (
            <a key={batch.id} className="chip" href={addressOf('brine-bench', batch.id)} aria-current={batch.id === rest[0] ? 'true' : undefined}>
              <b>{batch.shortName}</b> {batch.marketName}, {text.stages[batch.stage]}
            </a>
          ))}
          <a className="chip" href={addressOf('brine-bench')} aria-current={rest[0] === undefined ? 'true' : undefined}>{text.newBrine}</a>
        </nav>
      )}
      {shown === undefined ? <NewBrine /> : <BatchCard batch={shown} key={shown.id} />}
    </>
  );
}
