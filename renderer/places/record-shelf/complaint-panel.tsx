import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { Complaint } from '../../../app/contract/requests/trace-shapes.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { Leaf } from '../../parts/leaf.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.trace.complaints;

/** What people said of a batch or a pack of it, and what came of that. */
export function ComplaintPanel({ record }: { readonly record: Output<'record.batch'> }): ReactNode {
  const [isAdding, setAdding] = useState(false);
  return (
    <section className="sheet stack">
      <h2>{text.title}</h2>
      {record.complaints.length === 0 ? <p className="soft">{text.none}</p> : record.complaints.map((complaint) => (
        <ComplaintLine key={complaint.id} complaint={complaint} code={record.packs.find(({ id }) => id === complaint.packId)?.code ?? ''} />
      ))}
      <div className="row"><PressButton onPress={() => setAdding(true)}>{text.add}</PressButton></div>
      {isAdding ? <ComplaintForm record={record} onClose={() => setAdding(false)} /> : null}
    </section>
  );
}

function ComplaintLine({ complaint, code }: { readonly complaint: Complaint; readonly code: string }): ReactNode {
  const formats = useFormats();
  const close = useCommand('complaint.close');
  const [outcome, setOutcome] = useState('');
  return (
    <div className="stack">
      <p><b>{text.line(complaint.fromName, code, formats.longMoment(complaint.atMs), complaint.initials)}</b>{complaint.contact === '' ? '' : ` (${complaint.contact})`}: {complaint.what}</p>
      {complaint.outcome === null ? (
        <form className="row weigh-row" onSubmit={(event) => { event.preventDefault(); void close.send({ complaintId: complaint.id, text: outcome }); }}>
          <Field label={text.outcome} value={outcome} onChange={setOutcome} />
          <PressButton type="submit" isDisabled={close.busy || outcome.trim() === ''}>{text.close}</PressButton>
        </form>
      ) : <p>{text.closed(formats.longMoment(complaint.outcome.atMs), complaint.outcome.initials)} {complaint.outcome.text}</p>}
      <ProblemNote failure={close.failure} />
    </div>
  );
}

function ComplaintForm({ record, onClose }: { readonly record: Output<'record.batch'>; onClose(): void }): ReactNode {
  const add = useCommand('complaint.add');
  const [draft, setDraft] = useState({ fromName: '', contact: '', what: '', packId: '' });
  const [atMs, setAtMs] = useState<number | null>(null);
  const change = (part: Partial<typeof draft>): void => setDraft({ ...draft, ...part });
  const send = async (): Promise<void> => {
    const { packId, ...said } = draft;
    const kept = await add.send({ batchId: record.batch.id, packId: packId === '' ? null : packId, atMs: atMs ?? Date.now(), ...said });
    if (kept !== null) onClose();
  };
  return (
    <Leaf title={text.add} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <Pick label={text.pack} value={draft.packId} empty={text.anyPack} choices={record.packs.map(({ id, code }) => ({ id, text: code }))} fault={faultOf(add.failure, 'packId')} onChange={(packId) => change({ packId })} />
        <Field label={text.from} value={draft.fromName} fault={faultOf(add.failure, 'fromName')} onChange={(fromName) => change({ fromName })} />
        <Field label={text.contact} value={draft.contact} fault={faultOf(add.failure, 'contact')} onChange={(contact) => change({ contact })} />
        <Field label={text.what} value={draft.what} fault={faultOf(add.failure, 'what')} onChange={(what) => change({ what })} />
        <MomentField label={text.when} value={atMs} fault={faultOf(add.failure, 'atMs')} onChange={setAtMs} />
        <ProblemNote failure={add.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={add.busy || draft.fromName.trim() === '' || draft.what.trim() === ''}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
