import { useDeferredValue, type ReactNode } from 'react';
import type { Input } from '../../../app/contract/contract.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.smokehouse.ready;

/** What is ready and what is missing before this load is lit. It informs; it keeps nobody from going on. */
export function ReadyPanel({ asked }: { readonly asked: Input<'load.ready'> }): ReactNode {
  const ready = useAsk('load.ready', useDeferredValue(asked));
  if (ready.data === undefined) return <ProblemNote failure={failureOf(ready.error)} />;
  const left = ready.data.items.filter((item) => item.state !== 'ready').length;
  return (
    <section className="sheet stack" aria-label={text.title}>
      <div>
        <h2>{text.title}</h2>
        <p className={left === 0 ? 'soft' : 'strong'}>{left === 0 ? text.allReady : `${text.left(left)} ${text.lead}`}</p>
      </div>
      <ul className="ready-list">
        {ready.data.items.map((item) => (
          <li key={item.id} className={`ready-item ${item.state}`}>
            <span className="strong">{text.names[item.id]}</span>
            <span>
              <b>{text.states[item.state]}</b> {item.text}
              {item.needed === '' ? null : <span className="ready-needed">{item.needed}</span>}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
