import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { TasteAdd } from './taste-add.tsx';
import { TasteFigures } from './taste-figures.tsx';
import { TasteKeep } from './taste-keep.tsx';
import './taste.css';

const text = words.taste;

/** A tasting, as the book answers it. */
export type TastingView = Output<'taste.get'>;

/** Taste capture: what is being mixed now, or one tasting. */
export function TasteBench({ rest }: { readonly rest: readonly string[] }): ReactNode {
  const [tastingId] = rest;
  return tastingId === undefined ? <Tastings /> : <OneTasting tastingId={tastingId} key={tastingId} />;
}

function Tastings(): ReactNode {
  const formats = useFormats();
  const { kitchen } = useKitchen();
  const list = useAsk('taste.list', {});
  const species = useAsk('fish.species', {});
  const start = useCommand('taste.start');
  const [name, setName] = useState('');
  const [speciesId, setSpeciesId] = useState('');
  const [fillets, setFillets] = useState('');
  const open = list.data?.tastings ?? [];
  const send = async (): Promise<void> => {
    const weighed = fillets.trim() === '' ? null : { text: fillets, unit: kitchen.massUnit };
    const answer = await start.send({ name, speciesId: speciesId === '' ? null : speciesId, fillets: weighed });
    if (answer !== null) go(addressOf('brine-bench', 'taste', answer.tasting.id));
  };
  return (
    <>
      <div>
        <h1>{text.title}</h1>
        <p className="soft">{text.lead}</p>
      </div>
      <div className="halves">
        <form className="sheet stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
          <h2>{text.start}</h2>
          <Field label={text.name} value={name} fault={faultOf(start.failure, 'name')} onChange={setName} />
          <Pick
            label={text.species} value={speciesId} empty={text.anySpecies} fault={faultOf(start.failure, 'speciesId')}
            choices={(species.data?.species ?? []).map((kind) => ({ id: kind.id, text: kind.commonName }))}
            onChange={setSpeciesId}
          />
          <Field label={text.fillets} kind="figure" unit={kitchen.massUnit} value={fillets} fault={faultOf(start.failure, 'fillets.text') ?? faultOf(start.failure, 'fillets')} onChange={setFillets} />
          <ProblemNote failure={start.failure} />
          <div className="row"><PressButton look="next" type="submit" isDisabled={start.busy}>{text.start}</PressButton></div>
        </form>
        <section className="sheet stack">
          <h2>{text.open}</h2>
          {open.length === 0 ? <p>{text.none}</p> : (
            <ul className="plain-list">
              {open.map(({ tasting, figures }) => (
                <li key={tasting.id}>
                  <a className="wide-link" href={addressOf('brine-bench', 'taste', tasting.id)}>
                    <b>{tasting.name}</b>
                    <span className="soft">{text.begun(formats.moment(tasting.startedAtMs), tasting.startedBy)}, {figures.salometerDegrees.toFixed(1)} {words.brineBench.salometer}</span>
                  </a>
                </li>
              ))}
            </ul>
          )}
        </section>
      </div>
    </>
  );
}

function OneTasting({ tastingId }: { readonly tastingId: string }): ReactNode {
  const formats = useFormats();
  const answer = useAsk('taste.get', { tastingId });
  const [keeping, setKeeping] = useState(false);
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  const { tasting, figures } = answer.data;
  return (
    <>
      <div className="spread">
        <div>
          <h1>{tasting.name}</h1>
          <p className="soft">{text.begun(formats.moment(tasting.startedAtMs), tasting.startedBy)}</p>
        </div>
        {tasting.recipeId === null
          ? <PressButton isDisabled={figures.totalGrams === 0} onPress={() => setKeeping(true)}>{text.keep}</PressButton>
          : <p>{text.kept} <a href={addressOf('brine-bench', 'recipes', tasting.recipeId)}>{text.toRecipe}</a></p>}
      </div>
      <div className="columns deed-first">
        <TasteFigures view={answer.data} />
        {tasting.recipeId === null ? <TasteAdd view={answer.data} /> : null}
      </div>
      {keeping ? <TasteKeep view={answer.data} onClose={() => setKeeping(false)} /> : null}
    </>
  );
}
