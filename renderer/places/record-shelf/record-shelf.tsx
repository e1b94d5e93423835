import { useDeferredValue, useState, type ReactNode } from 'react';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { BatchRecord } from './batch-record.tsx';
import { ExportPage } from './export-page.tsx';
import { FindAnything } from './find-anything.tsx';
import { RecallList } from './recall-list.tsx';
import { RecallPage } from './recall-page.tsx';
import { ShelfHead } from './shelf-head.tsx';
import { TracePage } from './trace-page.tsx';
import './record-shelf.css';

const text = words.recordShelf;

/** The record shelf: find a batch or anything else, open everything that was recorded, trace, recall, take tables out. */
export function RecordShelf(): ReactNode {
  const { rest } = useAddress();
  const [first, second, third] = rest;
  switch (first) {
    case undefined: return <Shelf />;
    case 'trace': return <TracePage kind={second ?? ''} id={third ?? ''} key={`${second} ${third}`} />;
    case 'recalls': return <RecallList />;
    case 'recall': return <RecallPage recallId={second ?? ''} />;
    case 'export': return <ExportPage />;
    default: return <BatchRecord batchId={first} />;
  }
}

function Shelf(): ReactNode {
  const formats = useFormats();
  const [typed, setTyped] = useState('');
  const found = useAsk('record.find', { text: useDeferredValue(typed.slice(0, 100)) });
  const batches = found.data?.batches ?? [];
  return (
    <>
      <ShelfHead title={text.title} lead={text.lead} here="batches" />
      <FindAnything typed={typed} onType={setTyped} />
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
