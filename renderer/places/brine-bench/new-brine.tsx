import { useState, type ReactNode } from 'react';
import type { FishLot } from '../../../app/contract/requests/fish.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices, Several } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { readThicknessMm } from '../../parts/thickness.ts';
import { words } from '../../words/words.ts';
import { CardLines } from './card-lines.tsx';
import { Strength } from './strength.tsx';

const text = words.brineBench;
/** The thickest piece that a batch takes. */
const MOST_MM = 200;

/** From fish in the crate to a batch with its brine card. */
export function NewBrine(): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const lots = useAsk('fishLot.list', {});
  const recipes = useAsk('recipe.list', {});
  const make = useCommand('batch.make');
  const [lotIds, setLotIds] = useState<readonly string[]>([]);
  const [weight, setWeight] = useState('');
  const [thickest, setThickest] = useState('');
  const [thicknessFault, setThicknessFault] = useState<string | null>(null);
  const [skin, setSkin] = useState<'on' | 'off'>('on');
  const [process, setProcess] = useState<'hot' | 'cold'>('hot');
  const [pack, setPack] = useState<'vacuum' | 'air' | 'unpacked'>('vacuum');
  const [store, setStore] = useState<'frozen' | 'refrigerated'>('frozen');
  const [recipeId, setRecipeId] = useState<string | null>(null);
  const fitting = (recipes.data?.recipes ?? []).filter((recipe) => recipe.process === 'either' || recipe.process === process);
  const chosenRecipe = fitting.find((recipe) => recipe.id === recipeId) ?? null;
  const cardInput = chosenRecipe === null || lotIds.length === 0 || weight.trim() === ''
    ? null
    : { recipeId: chosenRecipe.id, lotIds: [...lotIds], fillets: { text: weight, unit: kitchen.massUnit } };
  const card = useAsk('brine.card', cardInput);
  const cardFailure = failureOf(card.error);
  const waiting = (lots.data?.lots ?? []).filter((lot) => lot.batchIds.length === 0).toSorted((a, b) => b.receivedAtMs - a.receivedAtMs);
  // Said before the fillets are weighed together; the back room refuses it besides, naming the lots.
  const mixed = new Set((lots.data?.lots ?? []).filter((lot) => lotIds.includes(lot.id)).map((lot) => `${lot.source.kind} ${lot.species.id}`)).size > 1;
  const send = async (): Promise<void> => {
    const thickestMm = readThicknessMm(thickest, MOST_MM);
    setThicknessFault(thickestMm === null ? words.parts.thicknessFault(MOST_MM) : null);
    if (cardInput === null || thickestMm === null) return;
    const answer = await make.send({ ...cardInput, thickestMm, skin, process, pack, store });
    if (answer !== null) go(addressOf('brine-bench', answer.batch.id));
  };
  return (
    <>
      <div>
        <h1>{text.newBrine}</h1>
        <p className="soft">{text.lead}</p>
      </div>
      <div className="halves">
        <section className="sheet stack">
          <h2>{text.lots}</h2>
          {waiting.length === 0 ? <p>{text.noLots} <a href={addressOf('fish-in')}>{text.toFishIn}</a></p> : (
            <Several label={text.lots} values={lotIds} choices={waiting.map((lot) => ({ id: lot.id, text: lotText(lot, formats.mass(lot.mass.grams)) }))} onChange={setLotIds} />
          )}
          {mixed ? <p className="fault" role="alert">{text.mixed}</p> : <p className="help">{text.oneKind}</p>}
          <div className="form-grid">
            <Field label={text.fillets} kind="figure" unit={kitchen.massUnit} value={weight} fault={faultOf(cardFailure, 'fillets.text') ?? faultOf(cardFailure, 'fillets')} onChange={setWeight} />
            <Field label={text.thickest} kind="figure" unit="mm" value={thickest} fault={thicknessFault ?? faultOf(make.failure, 'thickestMm')} onChange={setThickest} />
          </div>
          <Choices label={text.skin} value={skin} choices={[{ id: 'on', text: text.skinOn }, { id: 'off', text: text.skinOff }]} onChange={setSkin} />
          <Choices label={text.process} value={process} choices={[{ id: 'hot', text: text.hot }, { id: 'cold', text: text.cold }]} onChange={setProcess} />
          <div className="row">
            <Choices label={text.pack} value={pack} choices={(['vacuum', 'air', 'unpacked'] as const).map((id) => ({ id, text: text.packs[id] }))} onChange={setPack} />
            <Choices label={text.store} value={store} choices={(['frozen', 'refrigerated'] as const).map((id) => ({ id, text: text.stores[id] }))} onChange={setStore} />
          </div>
          <Choices label={text.recipe} value={recipeId} choices={fitting.map((recipe) => ({ id: recipe.id, text: recipe.name }))} onChange={setRecipeId} />
        </section>
        <div className="stack">
          {cardInput === null ? <p className="sheet soft">{text.showCard}</p> : null}
          <ProblemNote failure={cardInput === null ? null : cardFailure} />
          {cardInput === null || cardFailure !== null || card.data === undefined ? null : (
            <>
              <section className="sheet"><CardLines card={card.data.card} ticks={false} /></section>
              <Strength card={card.data.card} />
              <ProblemNote failure={make.failure} />
              <div className="row">
                <PressButton look="next" isDisabled={make.busy || thickest.trim() === ''} onPress={() => { void send(); }}>{text.make}</PressButton>
              </div>
            </>
          )}
        </div>
      </div>
    </>
  );
}

function lotText(lot: FishLot, mass: string): ReactNode {
  return (
    <span>
      <span className="number">{lot.code}</span> {lot.species.commonName}, {mass}
      {lot.source.kind === 'guest' ? `, ${lot.source.ownerName}` : `, ${lot.source.supplierName}`}
    </span>
  );
}
