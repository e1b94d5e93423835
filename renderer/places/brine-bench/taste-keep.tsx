import { useState, type ReactNode } from 'react';
import { useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import type { TastingView } from './taste-bench.tsx';
import { readHours, usualRatio } from './taste-weights.ts';

const text = words.taste;
const PROCESSES = ['hot', 'cold', 'either'] as const;

/** The tasting becomes a recipe: its name, what it is for, how long it soaks. */
export function TasteKeep({ view, onClose }: { readonly view: TastingView; onClose(): void }): ReactNode {
  const { tasting, figures } = view;
  const keep = useCommand('taste.keep');
  const [name, setName] = useState(tasting.name);
  const [process, setProcess] = useState<(typeof PROCESSES)[number]>('either');
  const [ratio, setRatio] = useState(() => usualRatio(tasting));
  const [soak, setSoak] = useState('');
  const [turns, setTurns] = useState('');
  const [note, setNote] = useState('');
  const [badHours, setBadHours] = useState(false);
  const send = async (): Promise<void> => {
    const [turnHours, soakHours] = [readHours(turns), Number(soak)];
    const readable = turnHours !== null && soak.trim() !== '' && Number.isFinite(soakHours) && Number.isFinite(Number(ratio));
    setBadHours(!readable);
    if (!readable) return;
    const answer = await keep.send({ tastingId: tasting.id, name, process, ratio: Number(ratio), soakHours, turnHours, note });
    if (answer !== null) go(addressOf('brine-bench', 'recipes', answer.recipe.id));
  };
  return (
    <Leaf title={text.keepTitle} onClose={onClose}>
      <p>{text.keepLead(`${figures.percentByWeight.toFixed(2)} %, ${figures.salometerDegrees.toFixed(1)} ${words.brineBench.salometer}`)}</p>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <Field label={text.recipeName} value={name} fault={faultOf(keep.failure, 'name')} onChange={setName} />
        <Choices label={text.process} value={process} choices={PROCESSES.map((id) => ({ id, text: text.processes[id] }))} onChange={setProcess} />
        <div className="form-grid">
          <Field label={text.ratio} kind="figure" value={ratio} fault={faultOf(keep.failure, 'ratio')} onChange={setRatio} />
          <Field label={text.soakHours} kind="figure" unit={text.hours} value={soak} fault={faultOf(keep.failure, 'soakHours')} onChange={setSoak} />
        </div>
        <Field label={text.turnHours} value={turns} fault={faultOf(keep.failure, 'turnHours')} onChange={setTurns} />
        <Field label={text.note} value={note} onChange={setNote} />
        {badHours ? <p className="fault" role="alert">{words.recipes.notANumber}</p> : null}
        <ProblemNote failure={keep.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={keep.busy}>{text.keepIt}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
