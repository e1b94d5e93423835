import type { ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { words } from '../../words/words.ts';
import { BatchAtTable } from './batch-at-table.tsx';
import { Worklist } from './worklist.tsx';

const text = words.packingTable;
const SHOWN_BATCHES = 6;
const WAITING: readonly Batch['stage'][] = ['cooled', 'cooling', 'released', 'on-hold', 'rejected'];

/** The packing table: the batches that come from the smokehouse, to release, weigh and label. */
export function PackingTable(): ReactNode {
  const { rest } = useAddress();
  const list = useAsk('batch.list', {});
  if (list.data === undefined) return null;
  const batches = list.data.batches
    .filter((batch) => WAITING.includes(batch.stage))
    .toSorted((a, b) => WAITING.indexOf(a.stage) - WAITING.indexOf(b.stage) || b.madeAtMs - a.madeAtMs)
    .slice(0, SHOWN_BATCHES);
  const shown = list.data.batches.find((batch) => batch.id === rest[0]) ?? batches[0];
  return (
    <>
      <Worklist />
      {batches.length === 0 ? null : (
        <nav className="row" aria-label={text.batches}>
          {batches.map((batch) => (
            <a key={batch.id} className="chip" href={addressOf('packing-table', batch.id)} aria-current={batch.id === shown?.id ? 'true' : undefined}>
              <b>{batch.shortName}</b> {words.brineBench.stages[batch.stage]}
            </a>
          ))}
        </nav>
      )}
      {shown === undefined ? (
        <>
          <h1>{text.title}</h1>
          <p>{text.none}</p>
        </>
      ) : <BatchAtTable key={shown.id} batch={shown} />}
    </>
  );
}
