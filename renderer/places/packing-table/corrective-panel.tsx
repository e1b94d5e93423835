import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import type { Corrective } from '../../../app/contract/requests/corrective.ts';
import type { CheckResultWire } from '../../../app/contract/requests/verdict.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { CorrectiveForm } from './corrective-form.tsx';
import { unmetChecks } from './corrective-draft.ts';

const text = words.packingTable.corrective;

interface CorrectivePanelProps {
  readonly batch: Batch;
  readonly checks: readonly CheckResultWire[];
  /** The marked place of the HOLD tag, where the batch is on HOLD. */
  readonly keptWhere: string;
}

/** The corrective actions of a batch by number, a new one, and their verification. */
export function CorrectivePanel({ batch, checks, keptWhere }: CorrectivePanelProps): ReactNode {
  const list = useAsk('corrective.list', { batchId: batch.id });
  const [open, setOpen] = useState(false);
  const correctives = list.data?.correctives ?? [];
  const unmet = unmetChecks(checks);
  if (correctives.length === 0 && unmet.length === 0) return null;
  const name = batch.lotCode ?? batch.shortName;
  return (
    <section className="sheet stack">
      <h2>{text.title}</h2>
      {correctives.length === 0 ? <p className="soft">{text.none}</p> : correctives.map((each, index) => (
        <CorrectiveShown key={each.id} corrective={each} name={text.number(index + 1, name)} title={checks.find((check) => check.checkId === each.checkId)?.title ?? text.noCheck} />
      ))}
      <div><PressButton onPress={() => setOpen(true)}>{text.add}</PressButton></div>
      {open ? <CorrectiveForm batchId={batch.id} unmet={unmet} keptWhere={keptWhere} onClose={() => setOpen(false)} /> : null}
    </section>
  );
}

interface CorrectiveShownProps {
  readonly corrective: Corrective;
  readonly name: string;
  readonly title: string;
}

function CorrectiveShown({ corrective, name, title }: CorrectiveShownProps): ReactNode {
  const formats = useFormats();
  const { onDuty } = useKitchen();
  const verify = useCommand('corrective.verify');
  const [how, setHow] = useState<string | null>(null);
  const { verified } = corrective;
  const send = async (): Promise<void> => {
    const answer = await verify.send({ correctiveId: corrective.id, how: how ?? '' });
    if (answer !== null) setHow(null);
  };
  return (
    <div className="note">
      <p className="strong">{name}: {text.dispositions[corrective.disposition]}</p>
      <ul>
        <li>{title}</li>
        <li>{text.parts.cause}: {corrective.cause}</li>
        <li>{text.parts.quantity}: {corrective.quantity}</li>
        {corrective.keptWhere === '' ? null : <li>{text.parts.place}: {corrective.keptWhere}</li>}
        <li>{text.parts.evaluation(corrective.evaluatedBy)}{corrective.evaluation === '' ? '' : `: ${corrective.evaluation}`}</li>
        {corrective.fix === '' ? null : <li>{text.parts.fix}: {corrective.fix}</li>}
      </ul>
      <p className="soft small">{text.opened(corrective.openedBy, formats.moment(corrective.openedAtMs))}</p>
      <p>{verified === null ? text.notVerified : text.verified(verified.initials, formats.moment(verified.atMs), verified.how)}</p>
      {verified !== null || onDuty?.role !== 'manager' ? null : how === null ? <PressButton label={`${name}: ${text.verify}`} onPress={() => setHow('')}>{text.verify}</PressButton> : (
        <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
          <Field label={text.how} value={how} fault={faultOf(verify.failure, 'how')} onChange={setHow} />
          <ProblemNote failure={verify.failure} />
          <div className="row"><PressButton type="submit" isDisabled={verify.busy}>{text.keepVerified}</PressButton></div>
        </form>
      )}
    </div>
  );
}
