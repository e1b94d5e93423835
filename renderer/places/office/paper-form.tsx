import { useState, type ReactNode } from 'react';
import type { Failure } from '../../../app/contract/envelope.ts';
import { AskFailure, chooseFile } from '../../bridge/bridge.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { EMPTY_PAPER, PAPER_KINDS, paperInput, SUBJECTS_OF, withKind, type PaperForm as PaperFormDraft } from './paper-draft.ts';
import { StatementFields } from './statement-fields.tsx';

const text = words.office.papersPages;
const ACCEPTED = '.pdf,.png,.jpg,.jpeg,.txt';

/** Puts a paper on file: only what its kind has is asked. */
export function PaperForm({ onClose }: { onClose(): void }): ReactNode {
  const { kitchen, onDuty } = useKitchen();
  const add = useCommand('paper.add');
  const [form, setForm] = useState<PaperFormDraft>(EMPTY_PAPER);
  const set = (change: Partial<PaperFormDraft>): void => setForm({ ...form, ...change });
  const fault = (path: string): string | null => faultOf(add.failure, path);
  const subjects = SUBJECTS_OF[form.kind];
  const send = async (): Promise<void> => {
    if ((await add.send(paperInput(form, kitchen.temperatureUnit))) !== null) onClose();
  };
  return (
    <Leaf title={text.addTitle} wide onClose={onClose}>
      {onDuty?.role === 'manager' ? null : <p className="help">{text.needManager}</p>}
      <div className="form-grid">
        <Pick label={text.kind} value={form.kind} choices={PAPER_KINDS.map((id) => ({ id, text: text.kinds[id] }))} onChange={(id) => setForm(withKind(form, PAPER_KINDS.find((kind) => kind === id) ?? form.kind))} />
        <Pick label={text.subject} value={form.subject} fault={fault('subject')} choices={subjects.map((id) => ({ id, text: text.subjects[id] }))} onChange={(id) => set({ subject: subjects.find((subject) => subject === id) ?? form.subject })} />
        <Field label={text.what} value={form.what} fault={fault('what')} onChange={(what) => set({ what })} />
        <Field label={text.number} value={form.number} fault={fault('number')} onChange={(number) => set({ number })} />
        <Field label={text.issuedBy} value={form.issuedBy} fault={fault('issuedBy')} onChange={(issuedBy) => set({ issuedBy })} />
        <Field label={holderLabel(form.kind)} value={form.holder} fault={fault('holder')} onChange={(holder) => set({ holder })} />
        <Field label={text.validFrom} kind="date" value={form.validFrom} fault={fault('validFrom')} onChange={(validFrom) => set({ validFrom })} />
        <Field label={text.validUntil} kind="date" value={form.validUntil} fault={fault('validUntil')} onChange={(validUntil) => set({ validUntil })} />
      </div>
      <StatementFields form={form} failure={add.failure} onChange={set} />
      <PaperFile form={form} fault={fault('fileId')} onChange={(file) => set({ file })} />
      <ProblemNote failure={add.failure} />
      <div className="row">
        <PressButton look="next" isDisabled={add.busy} onPress={() => { void send(); }}>{text.save}</PressButton>
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}

function holderLabel(kind: PaperFormDraft['kind']): string {
  return kind === 'training' || kind === 'supplier-statement' ? text.holders[kind] : text.holders.other;
}

interface PaperFileProps {
  readonly form: PaperFormDraft;
  readonly fault: string | null;
  onChange(file: PaperFormDraft['file']): void;
}

/** The paper itself, taken into the book. */
function PaperFile({ form, fault, onChange }: PaperFileProps): ReactNode {
  const [failure, setFailure] = useState<Failure | null>(null);
  const choose = async (): Promise<void> => {
    setFailure(null);
    try {
      const taken = await chooseFile(ACCEPTED);
      if (taken !== null) onChange(taken);
    } catch (thrown) {
      if (!(thrown instanceof AskFailure)) throw thrown;
      setFailure(thrown.failure);
    }
  };
  const needsFile = form.kind === 'variance' || form.kind === 'process-letter' || form.kind === 'limit-letter';
  return (
    <div className="field">
      <span className="label">{text.file}</span>
      <div className="row">
        <span className="strong">{form.file?.fileName ?? text.noFile}</span>
        <PressButton onPress={() => { void choose(); }}>{form.file === null ? text.chooseFile : text.otherFile}</PressButton>
      </div>
      {fault !== null ? <p className="fault">{fault}</p> : needsFile && form.file === null ? <p className="help">{text.fileNeeded}</p> : null}
      <ProblemNote failure={failure} />
    </div>
  );
}
