import { useDeferredValue, useState, type ReactNode } from 'react';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { BatchRecord } from './batch-record.tsx';

const text = words.recordShelf;

/** The record shelf: find a batch, open everything that was recorded. */
export function RecordShelf(): ReactNode {
  const { rest } = useAddress();
  return rest[0] === undefined ? <Shelf /> : <BatchRecord batchId={rest[0]} />;
}

function Shelf(): ReactNode {
  const formats = useFormats();
  const [typed, setTyped] = useState('');
  const found = useAsk('record.find', { text: useDeferredValue(typed) });
  const batches = found.data?.batches ?? [];
  return (
    <>
      <div>
        <h1>{text.title}</h1>
        <p className="soft">{text.lead}</p>
      </div>
      <Field label={text.find} value={typed} onChange={setTyped} />
      <ProblemNote failure={failureOf(found.error)} />
      {batches.length === 0 && found.data !== undefined ? <p>{typed === '' ? text.empty : text.none}</p> : null}
      <div className="stack">
        {batches.map(({ batch, verdictWords, decision, packCount }) => (
          <a key={batch.id} className="row-button shelf-row" href={addressOf('record-shelf', batch.id)}>
            <span>
              <b className="number">{batch.lotCode ?? batch.shortName}</b> {batch.marketName}, {words.smokehouse.processes[batch.process]}
              {batch.ownerName === null ? '' : `, ${batch.ownerName}`}, {formats.day(batch.madeAtMs)}
            </span>
            <span className="soft small">
              {decision === null ? words.brineBench.stages[batch.stage] : text.decisions[decision.decision]}; {text.packs(packCount)}; {verdictWords}
            </span>
          </a>
        ))}
      </div>
    </>
  );
}
