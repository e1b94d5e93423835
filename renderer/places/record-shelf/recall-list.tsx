import type { ReactNode } from 'react';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { ShelfHead } from './shelf-head.tsx';

const text = words.recall;

/** Every recall and drill that was kept, the latest first. */
export function RecallList(): ReactNode {
  const formats = useFormats();
  const answer = useAsk('recall.list', {});
  const recalls = answer.data?.recalls ?? [];
  return (
    <>
      <ShelfHead title={text.title} lead={text.lead} here="recalls" />
      <ProblemNote failure={failureOf(answer.error)} />
      {answer.data !== undefined && recalls.length === 0 ? <p>{text.none}</p> : null}
      <div className="stack">
        {recalls.map((each) => (
          <a key={each.id} className="row-button shelf-row" href={addressOf('record-shelf', 'recall', each.id)}>
            <span className="strong">{text.row(each.isDrill ? text.drill : text.real, each.label)}, {formats.longMoment(each.startedAtMs)}</span>
            <span className="soft small">{text.rowState(each.packs, each.percent, each.finishedAtMs === null ? text.running : text.ended(formats.longMoment(each.finishedAtMs)))}</span>
          </a>
        ))}
      </div>
    </>
  );
}
