import { useState, type ReactNode } from 'react';
import type { Paper } from '../../../app/contract/requests/papers.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.office.papersPages;

/** Strikes a paper out, with a reason. */
export function StrikeLeaf({ paper, onClose }: { readonly paper: Paper; onClose(): void }): ReactNode {
  const { onDuty } = useKitchen();
  const strike = useCommand('paper.strike');
  const [why, setWhy] = useState('');
  const send = async (): Promise<void> => {
    if ((await strike.send({ paperId: paper.id, why })) !== null) onClose();
  };
  return (
    <Leaf title={text.strikeTitle(paper.what)} onClose={onClose}>
      <p>{text.strikeLead}</p>
      {onDuty?.role === 'manager' ? null : <p className="help">{text.needManager}</p>}
      <Field label={text.why} value={why} fault={faultOf(strike.failure, 'why')} onChange={setWhy} />
      <ProblemNote failure={strike.failure} />
      <div className="row">
        <PressButton look="next" isDisabled={strike.busy} onPress={() => { void send(); }}>{text.strikeIt}</PressButton>
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}
