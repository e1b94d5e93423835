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
import { emptyBrine, gapWords, goalsOf, MOST_MM, readBrine, type BrineDraft } from './brine-draft.ts';
import { CardLines } from './card-lines.tsx';
import { CardFacts, Cautions, SoakFacts } from './card-facts.tsx';
import { MoreChoices } from './more-choices.tsx';
import { Strength } from './strength.tsx';

const text = words.brineBench;

/** From fish in the crate to a batch with its brine card. */
export function NewBrine(): ReactNode {
  const { kitchen } = useKitchen();
  const recipes = useAsk('recipe.list', {});
  const make = useCommand('batch.make');
  const [draft, setDraft] = useState<BrineDraft>(emptyBrine);
  const fitting = (recipes.data?.recipes ?? []).filter((recipe) => recipe.process === 'either' || recipe.process === draft.process);
  const recipe = fitting.find((one) => one.id === draft.recipeId) ?? null;
  const { input, gaps } = readBrine(draft, recipe, kitchen.massUnit);
  const card = useAsk('brine.card', input);
  const failure = input === null ? null : failureOf(card.error);
  const change = (part: Partial<BrineDraft>): void => setDraft({ ...draft, ...part });
  /** A goal that another cure can't have goes back to the recipe's own. */
  const chooseRecipe = (recipeId: string): void => {
    const next = fitting.find((one) => one.id === recipeId);
    const keeps = next !== undefined && goalsOf(next).some((goal) => goal === draft.goal);
    change({ recipeId, ...(keeps ? {} : { goal: 'recipe' }) });
  };
  const send = async (): Promise<void> => {
    const thickestMm = readThicknessMm(draft.thickest, MOST_MM);
    if (input === null || thickestMm === null) return;
    const { skin, process, pack, store } = draft;
    const answer = await make.send({ ...input, thickestMm, skin, process, pack, store });
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
          <TubLots draft={draft} onChange={change} />
          <div className="form-grid">
            <Field label={text.fillets} kind="figure" unit={kitchen.massUnit} value={draft.weight} fault={faultOf(failure, 'fillets.text') ?? faultOf(failure, 'fillets')} onChange={(weight) => change({ weight })} />
            <Field label={text.thickest} kind="figure" unit="mm" value={draft.thickest} fault={gaps.includes('thickest') ? gapWords('thickest') : faultOf(failure, 'thickestMm') ?? faultOf(make.failure, 'thickestMm')} onChange={(thickest) => change({ thickest })} />
          </div>
          <Choices label={text.skin} value={draft.skin} choices={[{ id: 'on', text: text.skinOn }, { id: 'off', text: text.skinOff }]} onChange={(skin) => change({ skin })} />
          <Choices label={text.process} value={draft.process} choices={[{ id: 'hot', text: text.hot }, { id: 'cold', text: text.cold }]} onChange={(process) => change({ process })} />
          <div className="row">
            <Choices label={text.pack} value={draft.pack} choices={(['vacuum', 'air', 'unpacked'] as const).map((id) => ({ id, text: text.packs[id] }))} onChange={(pack) => change({ pack })} />
            <Choices label={text.store} value={draft.store} choices={(['frozen', 'refrigerated'] as const).map((id) => ({ id, text: text.stores[id] }))} onChange={(store) => change({ store })} />
          </div>
          <Choices label={text.recipe} value={draft.recipeId} choices={fitting.map((one) => ({ id: one.id, text: one.cure === 'dry' ? text.dryRecipe(one.name) : one.name }))} onChange={chooseRecipe} />
          <MoreChoices draft={draft} recipe={recipe} gaps={gaps} failure={failure ?? make.failure} onChange={change} />
        </section>
        <div className="stack">
          {input === null ? <p className="sheet soft">{recipe === null || draft.lotIds.length === 0 || draft.weight.trim() === '' ? text.showCard : text.showCardFigures}</p> : null}
          <ProblemNote failure={failure} />
          {input === null || failure !== null || card.data === undefined ? null : (
            <>
              <section className="sheet stack">
                <CardLines card={card.data.card} />
                <CardFacts card={card.data.card} />
                <SoakFacts card={card.data.card} />
              </section>
              <Strength card={card.data.card} />
              <Cautions card={card.data.card} />
              <ProblemNote failure={make.failure} />
              <div className="row">
                <PressButton look="next" isDisabled={make.busy || gaps.length > 0 || draft.thickest.trim() === ''} onPress={() => { void send(); }}>{text.make}</PressButton>
              </div>
            </>
          )}
        </div>
      </div>
    </>
  );
}

/** The fish that waits, and which of it goes into this tub. */
function TubLots({ draft, onChange }: { readonly draft: BrineDraft; onChange(change: Partial<BrineDraft>): void }): ReactNode {
  const formats = useFormats();
  const list = useAsk('fishLot.list', {});
  const lots = list.data?.lots ?? [];
  const waiting = lots.filter((lot) => lot.batchIds.length === 0).toSorted((a, b) => b.receivedAtMs - a.receivedAtMs);
  // Said before the fillets are weighed together; the back room refuses it besides, naming the lots.
  const isMixed = new Set(lots.filter((lot) => draft.lotIds.includes(lot.id)).map((lot) => `${lot.source.kind} ${lot.species.id}`)).size > 1;
  return (
    <>
      <h2>{text.lots}</h2>
      {waiting.length === 0 ? <p>{text.noLots} <a href={addressOf('fish-in')}>{text.toFishIn}</a></p> : (
        <Several label={text.lots} values={draft.lotIds} choices={waiting.map((lot) => ({ id: lot.id, text: lotText(lot, formats.mass(lot.mass.grams)) }))} onChange={(lotIds) => onChange({ lotIds })} />
      )}
      {isMixed ? <p className="fault" role="alert">{text.mixed}</p> : <p className="help">{text.oneKind}</p>}
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
