import { useDeferredValue, type ReactNode } from 'react';
import type { TraceHit } from '../../../app/contract/requests/trace.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { Field } from '../../parts/field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.trace;

interface FindProps {
  readonly typed: string;
  onType(typed: string): void;
}

/** One field for whatever is known; a scanner’s Enter opens the trace of what it read. */
export function FindAnything({ typed, onType }: FindProps): ReactNode {
  const answer = useAsk('trace.find', { text: useDeferredValue(typed.slice(0, 200)) });
  const { hits = [], remark = '' } = answer.data ?? {};
  const find = useCommand('trace.find');
  const open = async (): Promise<void> => {
    // What was typed last, not what was answered last: a scanner is faster than an answer.
    const exact = (await find.send({ text: typed.slice(0, 200) }))?.exact ?? null;
    if (exact !== null) go(traceAddress(exact));
  };
  return (
    <form className="stack" onSubmit={(event) => { event.preventDefault(); void open(); }}>
      <Field label={text.find} value={typed} onChange={onType} />
      <ProblemNote failure={find.failure} />
      {remark === '' ? null : <p className="soft" role="status">{remark}</p>}
      {hits.length === 0 ? null : (
        <nav className="row" aria-label={text.found}>
          <span className="soft">{text.found}</span>
          {hits.map((hit) => (
            <a key={`${hit.kind} ${hit.id}`} className="chip" href={traceAddress(hit)}><b>{hit.title}</b> {hit.detail === text.starts[hit.kind] ? hit.detail : `${text.starts[hit.kind]}; ${hit.detail}`}</a>
          ))}
        </nav>
      )}
    </form>
  );
}

export function traceAddress({ kind, id }: Pick<TraceHit, 'kind' | 'id'>): string {
  return addressOf('record-shelf', 'trace', kind, id);
}
