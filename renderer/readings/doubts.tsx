import { useState, type ReactNode } from 'react';
import type { Doubt } from '../../app/contract/requests/evidence.ts';
import { useAsk, useCommand } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { words } from '../words/words.ts';
import { PressButton } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { useFormats } from '../parts/format.ts';
import { Leaf } from '../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../parts/problem-note.tsx';

const text = words.doubts;

interface Deciding {
  readonly doubt: Doubt;
  readonly decision: 'exclude' | 'keep';
}

interface DoubtsProps {
  readonly batchId: string;
  /** The batch by name, where several are on the page. */
  readonly of?: string;
}

/** The readings of a batch that are in doubt, and what was decided about them; nothing where none is. */
export function Doubts({ batchId, of = '' }: DoubtsProps): ReactNode {
  const list = useAsk('doubt.list', { batchId });
  const [deciding, setDeciding] = useState<Deciding | null>(null);
  const doubts = list.data?.doubts ?? [];
  if (doubts.length === 0) return null;
  const title = of === '' ? text.title : `${of}: ${text.title.toLowerCase()}`;
  return (
    <section className="sheet stack" aria-label={title}>
      <h2>{title}</h2>
      {doubts.some(({ decided }) => decided === null) ? <p className="help">{text.lead}</p> : null}
      <ul className="doubts">
        {doubts.map((doubt) => <DoubtRow key={doubt.id} doubt={doubt} onDecide={(decision) => setDeciding({ doubt, decision })} />)}
      </ul>
      {deciding === null ? null : <DecideLeaf batchId={batchId} deciding={deciding} onClose={() => setDeciding(null)} />}
    </section>
  );
}

function DoubtRow({ doubt, onDecide }: { readonly doubt: Doubt; onDecide(decision: 'exclude' | 'keep'): void }): ReactNode {
  const formats = useFormats();
  const about = text.about(doubt.pointName, formats.moment(doubt.fromMs), formats.clock(doubt.toMs), doubt.readings);
  return (
    <li className="stack">
      <p><b>{about}</b> {doubt.reason}</p>
      {doubt.decided === null ? null : <p className="soft">{text.decided(doubt.decided.decision, doubt.decided.initials, formats.moment(doubt.decided.atMs), doubt.decided.why)}</p>}
      <div className="row">
        <PressButton label={`${text.exclude} ${about}`} onPress={() => onDecide('exclude')}>{text.exclude}</PressButton>
        <PressButton label={`${text.keep} ${about}`} onPress={() => onDecide('keep')}>{text.keep}</PressButton>
      </div>
    </li>
  );
}

function DecideLeaf({ batchId, deciding: { doubt, decision }, onClose }: { readonly batchId: string; readonly deciding: Deciding; onClose(): void }): ReactNode {
  const { onDuty } = useKitchen();
  const decide = useCommand('doubt.decide');
  const [why, setWhy] = useState('');
  const send = async (): Promise<void> => {
    const { pointId, kind, fromMs, toMs } = doubt;
    if ((await decide.send({ batchId, pointId, kind, fromMs, toMs, decision, why })) !== null) onClose();
  };
  return (
    <Leaf title={decision === 'exclude' ? text.excludeTitle : text.keepTitle} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p>{doubt.reason}</p>
        {onDuty?.role === 'hand' || onDuty === null ? <p className="help">{text.needChef}</p> : null}
        <div className="row">{text.reasons[decision].map((reason) => <PressButton key={reason} look="quiet" onPress={() => setWhy(reason)}>{reason}</PressButton>)}</div>
        <Field label={text.why} value={why} fault={faultOf(decide.failure, 'why')} onChange={setWhy} />
        <ProblemNote failure={decide.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={decide.busy}>{text.decide[decision]}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
