import { useState, type ReactNode } from 'react';
import type { CheckResultWire } from '../../../app/contract/requests/verdict.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { correctiveInput, startDraft, type CorrectiveDraft } from './corrective-draft.ts';

const text = words.packingTable.corrective;
const DISPOSITIONS = ['go-on-cooking', 'rework', 'release-as-evaluated', 'destroy', 'return-raw'] as const;

interface CorrectiveFormProps {
  readonly batchId: string;
  readonly unmet: readonly CheckResultWire[];
  readonly keptWhere: string;
  onClose(): void;
}

/** Cause, quantity and place, evaluation, what becomes of the fish, and the fix. */
export function CorrectiveForm({ batchId, unmet, keptWhere, onClose }: CorrectiveFormProps): ReactNode {
  const { onDuty } = useKitchen();
  const open = useCommand('corrective.open');
  const [draft, setDraft] = useState<CorrectiveDraft>(() => startDraft(unmet, keptWhere, onDuty === null ? '' : onDuty.name === '' ? onDuty.initials : onDuty.name));
  const [sent, setSent] = useState(false);
  const field = (key: 'cause' | 'quantity' | 'keptWhere' | 'evaluatedBy' | 'evaluation' | 'fix'): ReactNode => (
    <Field label={text[key]} value={draft[key]} fault={faultOf(open.failure, key)} onChange={(value) => setDraft({ ...draft, [key]: value })} />
  );
  const send = async (): Promise<void> => {
    setSent(true);
    const input = correctiveInput(batchId, draft);
    if (input !== null && (await open.send(input)) !== null) onClose();
  };
  return (
    <Leaf title={text.title} wide onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="soft">{text.lead}</p>
        <Pick label={text.check} value={draft.checkId} empty={text.noCheck} choices={unmet.map((check) => ({ id: check.checkId, text: `${check.title}: ${words.verdict.names[check.verdict]}` }))} fault={faultOf(open.failure, 'checkId')} onChange={(checkId) => setDraft({ ...draft, checkId })} />
        {field('cause')}
        <div className="form-grid">{field('quantity')}{field('keptWhere')}</div>
        {field('evaluatedBy')}
        {field('evaluation')}
        <Choices
          label={text.disposition} value={draft.disposition} choices={DISPOSITIONS.map((id) => ({ id, text: text.dispositions[id] }))}
          fault={faultOf(open.failure, 'disposition') ?? (sent && draft.disposition === null ? text.dispositionFault : null)}
          onChange={(disposition) => setDraft({ ...draft, disposition })}
        />
        {field('fix')}
        <ProblemNote failure={open.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={open.busy}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
