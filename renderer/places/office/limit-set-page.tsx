import { useState, type ReactNode } from 'react';
import type { CheckInfo, SetInfo } from '../../../app/contract/requests/limits.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { CheckSource } from '../../parts/check-list.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.office;

/** One set with every figure, its source and mark, and the kitchen's confirmations. */
export function LimitSetPage({ set }: { readonly set: SetInfo }): ReactNode {
  const [confirming, setConfirming] = useState<CheckInfo | null>(null);
  return (
    <section className="sheet stack">
      <h2>{set.name}</h2>
      <p className="soft">{text.version(set.version)}: {set.decides ? text.decides : set.mayDecide ? text.mayDecide : text.compareOnly}</p>
      <SetChecks set={set} onConfirm={setConfirming} />
      {confirming === null ? null : <ConfirmLeaf check={confirming} onClose={() => setConfirming(null)} />}
    </section>
  );
}

function SetChecks({ set, onConfirm }: { readonly set: SetInfo; onConfirm(check: CheckInfo): void }): ReactNode {
  return (
    <>
      {set.note === '' ? null : <p className="soft">{set.note}</p>}
      {set.checks.map((check) => (
        <div key={check.checkId} className="limit-row">
          <div>
            <p><b>{check.title}</b>{check.figures === '' ? '' : `: ${check.figures}`} <span className="soft small number">{check.checkId}</span></p>
            <CheckSource check={check} />
          </div>
          {check.confirmation === null && (check.mark === 'from memory' || check.mark === 'second-hand')
            ? <PressButton label={`${text.confirm} ${check.checkId}`} onPress={() => onConfirm(check)}>{text.confirm}</PressButton>
            : null}
        </div>
      ))}
      {set.noFigure.length === 0 ? null : <p className="soft small">{text.noFigure(set.noFigure.join(', '))}</p>}
    </>
  );
}

function ConfirmLeaf({ check, onClose }: { readonly check: CheckInfo; onClose(): void }): ReactNode {
  const { onDuty } = useKitchen();
  const confirm = useCommand('limits.confirm');
  const [document, setDocument] = useState('');
  const send = async (): Promise<void> => {
    if ((await confirm.send({ checkId: check.checkId, document })) !== null) onClose();
  };
  return (
    <Leaf title={text.confirmTitle(check.title)} onClose={onClose}>
      <p>{check.figures}</p>
      <CheckSource check={check} />
      <p>{text.confirmLead}</p>
      {onDuty?.role === 'manager' ? null : <p className="help">{text.needManager}</p>}
      <Field label={text.document} value={document} fault={faultOf(confirm.failure, 'document')} onChange={setDocument} />
      <ProblemNote failure={confirm.failure} />
      <div className="row">
        <PressButton look="next" isDisabled={confirm.busy} onPress={() => { void send(); }}>{text.confirmIt}</PressButton>
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}
