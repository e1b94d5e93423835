import { useState, type ReactNode } from 'react';
import { gramsIn } from './taste-weights.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { scaleGrams } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import type { TastingView } from './taste-bench.tsx';

const text = words.taste;
const UNITS = ['g', 'kg', 'oz', 'lb'] as const;
type Unit = (typeof UNITS)[number];
/** What nearly every brine begins with; the rest is in the list. */
const FIRST = ['water', 'salt', 'brown-sugar', 'soy-sauce', 'honey', 'maple-syrup', 'black-pepper', 'lemon-juice'];

/** One thing more into the tub: what, how much, and whether the scale shows it alone or all that is in. */
export function TasteAdd({ view }: { readonly view: TastingView }): ReactNode {
  const { kitchen } = useKitchen();
  const { tasting, figures } = view;
  const list = useAsk('ingredient.list', {});
  const add = useCommand('taste.add');
  const read = useCommand('taste.float');
  const [ingredientId, setIngredientId] = useState('');
  const [weight, setWeight] = useState('');
  const [unit, setUnit] = useState<Unit>('g');
  const [scale, setScale] = useState<'alone' | 'running'>('alone');
  const [shown, setShown] = useState('');
  const [brine, setBrine] = useState('');
  const all = list.data?.ingredients ?? [];
  const near = FIRST.flatMap((id) => all.filter((one) => one.id === id));
  const chosen = all.find((one) => one.id === ingredientId);
  const send = async (): Promise<void> => {
    const answer = await add.send({ tastingId: tasting.id, ingredientId, weighed: { text: weight, unit }, scale });
    if (answer === null) return;
    setWeight('');
    setIngredientId('');
  };
  const sendFloat = async (): Promise<void> => {
    const answer = await read.send({ tastingId: tasting.id, shown, brine: { text: brine, unit: kitchen.temperatureUnit } });
    if (answer !== null) setShown('');
  };
  const before = scaleGrams(gramsIn(tasting));
  return (
    <div className="stack">
      <form className="sheet stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <div className="spread">
          <h2>{text.add}</h2>
          <p className="number strong" aria-hidden="true">{figures.salometerDegrees.toFixed(1)} {words.brineBench.salometer}, {figures.percentByWeight.toFixed(2)} %</p>
        </div>
        <Choices label={text.choose} value={near.some((one) => one.id === ingredientId) ? ingredientId : null} choices={near.map((one) => ({ id: one.id, text: one.name }))} onChange={setIngredientId} />
        <Pick
          label={text.other} value={near.some((one) => one.id === ingredientId) ? '' : ingredientId} empty={text.choose} fault={faultOf(add.failure, 'ingredientId')}
          choices={all.filter((one) => !FIRST.includes(one.id)).map((one) => ({ id: one.id, text: one.name }))}
          onChange={setIngredientId}
        />
        <Choices label={text.how} value={scale} choices={[{ id: 'alone', text: text.alone }, { id: 'running', text: text.running }]} onChange={setScale} />
        <div className="row">
          <Field label={text.weighed} kind="figure" unit={unit} value={weight} fault={faultOf(add.failure, 'weighed.text') ?? faultOf(add.failure, 'weighed')} onChange={setWeight} {...(scale === 'running' ? { help: text.runningHelp(`${before.figure} ${before.unit}`) } : {})} />
          <Choices label={words.parts.unit} value={unit} choices={UNITS.map((id) => ({ id, text: id }))} onChange={setUnit} />
        </div>
        <ProblemNote failure={add.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={add.busy || chosen === undefined || weight.trim() === ''}>{chosen === undefined ? text.addNothing : text.addNow(chosen.name)}</PressButton>
        </div>
      </form>
      <form className="sheet stack" onSubmit={(event) => { event.preventDefault(); void sendFloat(); }}>
        <h2>{text.floatTitle}</h2>
        <div className="row">
          <Field label={text.floatShows} kind="figure" unit={words.brineBench.salometer} value={shown} fault={faultOf(read.failure, 'shown')} onChange={setShown} />
          <Field label={text.brineTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={brine} fault={faultOf(read.failure, 'brine.text') ?? faultOf(read.failure, 'brine')} onChange={setBrine} />
        </div>
        <ProblemNote failure={read.failure} />
        <div className="row"><PressButton type="submit" isDisabled={read.busy || shown.trim() === '' || brine.trim() === ''}>{text.floatKeep}</PressButton></div>
      </form>
    </div>
  );
}
