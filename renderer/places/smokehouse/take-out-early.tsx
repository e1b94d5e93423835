import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { Leaf } from '../../parts/leaf.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { outChoices, type OutChoice } from './taken-out.ts';

const text = words.paper.early;

type Shown = Pick<Output<'load.get'>, 'load' | 'batches'>;

/** Racks that leave the smoker before the rest: which and when; and what has left it, to be taken back where that was wrong. */
export function TakeOutEarly({ shown }: { readonly shown: Shown }): ReactNode {
  const formats = useFormats();
  const [leaf, setLeaf] = useState<'out' | OutChoice | null>(null);
  const { load } = shown;
  const choices = outChoices(shown, text.all);
  const out = choices.filter((choice) => choice.atMs !== null);
  const isOpen = load.inAtMs !== null && load.cooledAtMs === null;
  const inside = choices.filter((choice) => choice.atMs === null && !out.some((one) => one.batchId === choice.batchId && one.pointId === null));
  if (out.length === 0 && (!isOpen || inside.length === 0)) return null;
  return (
    <section className="taken-out" aria-label={text.title}>
      {out.length === 0 ? null : (
        <ul>
          {out.map((choice) => (
            <li key={choice.id}>
              {text.cameOut(choice.name, formats.moment(choice.atMs ?? 0))}{' '}
              {isOpen ? <PressButton look="quiet" label={text.backLabel(choice.name)} onPress={() => setLeaf(choice)}>{text.back}</PressButton> : null}
            </li>
          ))}
        </ul>
      )}
      {isOpen && inside.length > 0 ? <PressButton look="quiet" onPress={() => setLeaf('out')}>{text.open}</PressButton> : null}
      {leaf === null ? null : <OutLeaf loadId={load.id} choices={leaf === 'out' ? inside : [leaf]} isBack={leaf !== 'out'} onClose={() => setLeaf(null)} />}
    </section>
  );
}

interface OutLeafProps {
  readonly loadId: string;
  readonly choices: readonly OutChoice[];
  readonly isBack: boolean;
  onClose(): void;
}

/** Says what came out and when, or that it did not; either way with the reason. */
function OutLeaf({ loadId, choices, isBack, onClose }: OutLeafProps): ReactNode {
  const take = useCommand('load.takeOut');
  const [chosenId, setChosenId] = useState(choices[0]?.id ?? '');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [why, setWhy] = useState('');
  const [whyFault, setWhyFault] = useState(false);
  const chosen = choices.find((choice) => choice.id === chosenId);
  const send = async (): Promise<void> => {
    setWhyFault(why.trim() === '');
    if (chosen === undefined || why.trim() === '') return;
    const answer = await take.send({ loadId, batchId: chosen.batchId, pointId: chosen.pointId, atMs: isBack ? null : (atMs ?? Date.now()), why });
    if (answer !== null) onClose();
  };
  return (
    <Leaf title={isBack ? text.backTitle : text.title} onClose={onClose}>
      {isBack ? <p>{text.backLead(chosen?.name ?? '')}</p> : (
        <>
          <p className="soft">{text.lead}</p>
          <Pick label={text.what} value={chosenId} choices={choices.map((choice) => ({ id: choice.id, text: choice.name }))} fault={faultOf(take.failure, 'batchId') ?? faultOf(take.failure, 'pointId')} onChange={setChosenId} />
          <p className="note caution">{words.smokehouse.missesStay}</p>
          <MomentField label={words.smokehouse.markAt} value={null} fault={faultOf(take.failure, 'atMs')} onChange={setAtMs} />
        </>
      )}
      <Field label={words.paper.swap.why} value={why} fault={whyFault ? words.smokehouse.whyEarlyFault : faultOf(take.failure, 'why')} onChange={setWhy} />
      <ProblemNote failure={take.failure} />
      <div className="row">
        <PressButton look="next" isDisabled={take.busy} onPress={() => { void send(); }}>{isBack ? text.back : text.keep}</PressButton>
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}
