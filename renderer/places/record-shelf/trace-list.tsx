import type { ReactNode } from 'react';
import type { TraceNode, TraceStartKind } from '../../../app/contract/requests/trace.ts';
import { addressOf } from '../../frame/address.ts';
import { words } from '../../words/words.ts';
import { traceAddress } from './find-anything.tsx';

const text = words.trace;
type Kind = TraceNode['kind'];

const PARTS: readonly (readonly [keyof typeof text.parts, readonly Kind[]])[] = [
  ['source', ['supplier', 'owner', 'fish-lot', 'ingredient-lot']], ['batch', ['batch']], ['how', ['load', 'recipe', 'thermometer']], ['pack', ['pack']],
  ['where', ['recipient', 'place', 'fate']], ['complaint', ['complaint']],
];
/** What another trace can start from; a place and a fate are only where one ends. */
const STARTS: Readonly<Partial<Record<Kind, TraceStartKind>>> = {
  supplier: 'supplier', owner: 'owner', 'fish-lot': 'fish-lot', 'ingredient-lot': 'ingredient-lot', batch: 'batch', load: 'load', recipe: 'recipe',
  thermometer: 'thermometer', pack: 'pack', recipient: 'guest', complaint: 'complaint',
};
const CODED: readonly Kind[] = ['fish-lot', 'batch', 'pack'];
const SHOWN_AT_ONCE = 60;

/** Everything in the trace with all its facts, from source to hand; each is a way on to its own trace. */
export function TraceList({ nodes }: { readonly nodes: readonly TraceNode[] }): ReactNode {
  return PARTS.map(([part, kinds]) => {
    const found = nodes.filter((node) => kinds.includes(node.kind));
    if (found.length === 0) return null;
    const [shown, more] = [found.slice(0, SHOWN_AT_ONCE), found.slice(SHOWN_AT_ONCE)];
    return (
      <section key={part} className="sheet stack">
        <h2>{text.parts[part]}</h2>
        <ul className="trace-list">{shown.map((node) => <TraceLine key={node.key} node={node} />)}</ul>
        {more.length === 0 ? null : (
          <details>
            <summary>{text.showAll(found.length)}</summary>
            <ul className="trace-list">{more.map((node) => <TraceLine key={node.key} node={node} />)}</ul>
          </details>
        )}
      </section>
    );
  });
}

function TraceLine({ node }: { readonly node: TraceNode }): ReactNode {
  const start = STARTS[node.kind];
  return (
    <li>
      {start === undefined ? <b>{node.title}</b> : <a className={CODED.includes(node.kind) ? 'number' : undefined} href={traceAddress({ kind: start, id: node.id })}>{node.title}</a>}
      {node.side === 'start' ? ` (${text.asked})` : ''}
      {node.kind === 'batch' ? <> <a href={addressOf('record-shelf', node.id)} aria-label={`${text.record}: ${node.title}`}>{text.record}</a></> : null}
      {node.facts.length === 0 ? null : <span className="soft"> {node.facts.join('; ')}</span>}
    </li>
  );
}
