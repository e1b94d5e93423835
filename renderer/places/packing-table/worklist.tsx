import { useState, type ReactNode } from 'react';
import type { WorkItem } from '../../../app/contract/requests/evidence.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.worklist;

/** What came back because the evidence of a released batch changed; nothing where nothing did. */
export function Worklist(): ReactNode {
  const list = useAsk('worklist.get', {});
  const [itemId, setItemId] = useState<string | null>(null);
  const items = list.data?.items ?? [];
  const open = items.filter(({ done }) => done === null);
  if (open.length === 0) return null;
  const chosen = open.find(({ id }) => id === itemId);
  return (
    <section className="note fault-note stack" aria-label={text.title}>
      <h2>{text.title}</h2>
      <p>{text.lead}</p>
      <ul className="work-items">{open.map((item) => <OpenItem key={item.id} item={item} onDone={() => setItemId(item.id)} />)}</ul>
      <DoneItems items={items.filter(({ done }) => done !== null)} />
      {chosen === undefined ? null : <DoneLeaf item={chosen} onClose={() => setItemId(null)} />}
    </section>
  );
}

function OpenItem({ item, onDone }: { readonly item: WorkItem; onDone(): void }): ReactNode {
  const formats = useFormats();
  return (
    <li>
      <p><b>{item.batchName}</b> <span className="soft">{formats.moment(item.sinceMs)}</span> {item.text}</p>
      <div className="row">
        <a className="chip" href={addressOf('packing-table', item.batchId)}>{text.open}</a>
        {item.what === 'decide-again' ? null : <PressButton label={`${text.done} ${item.text}`} onPress={onDone}>{text.done}</PressButton>}
      </div>
    </li>
  );
}

function DoneItems({ items }: { readonly items: readonly WorkItem[] }): ReactNode {
  const formats = useFormats();
  if (items.length === 0) return null;
  return (
    <details>
      <summary>{text.past(items.length)}</summary>
      <ul>{items.map(({ id, batchName, text: said, done }) => <li key={id}><b>{batchName}</b> {said} {done === null ? '' : text.doneBy(done.initials, formats.moment(done.atMs), done.how)}</li>)}</ul>
    </details>
  );
}

function DoneLeaf({ item, onClose }: { readonly item: WorkItem; onClose(): void }): ReactNode {
  const done = useCommand('worklist.done');
  const [how, setHow] = useState('');
  const send = async (): Promise<void> => {
    if ((await done.send({ itemId: item.id, how })) !== null) onClose();
  };
  return (
    <Leaf title={text.doneTitle(item.batchName)} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p>{item.text}</p>
        <Field label={text.how} value={how} autoFocus fault={faultOf(done.failure, 'how')} onChange={setHow} />
        <ProblemNote failure={done.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={done.busy}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
