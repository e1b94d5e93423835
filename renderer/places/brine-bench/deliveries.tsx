import { useState, type ReactNode } from 'react';
import type { IngredientLot } from '../../../app/contract/requests/trace-shapes.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Several } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { DeliveryCorrect } from './delivery-correct.tsx';
import './taste.css';

const text = words.trace.deliveries;

/** Deliveries of ingredients with their lots, and which of them brines are made of now. */
export function Deliveries(): ReactNode {
  const list = useAsk('ingredientLot.list', {});
  if (list.data === undefined) return <ProblemNote failure={failureOf(list.error)} />;
  return (
    <>
      <div>
        <h1>{text.title}</h1>
        <p className="soft">{text.lead}</p>
      </div>
      <DeliveryForm />
      <section className="sheet stack">
        {list.data.lots.length === 0 ? <p>{text.none}</p> : list.data.lots.map((lot) => <DeliveryLine key={lot.id} lot={lot} />)}
      </section>
    </>
  );
}

const EMPTY = { ingredientId: '', lotCode: '', supplierName: '' };

function DeliveryForm(): ReactNode {
  const ingredients = useAsk('ingredient.list', {});
  const receive = useCommand('ingredientLot.receive');
  const [draft, setDraft] = useState(EMPTY);
  const [atMs, setAtMs] = useState<number | null>(null);
  const [use, setUse] = useState<readonly string[]>(['use']);
  const send = async (): Promise<void> => {
    const kept = await receive.send({ ...draft, receivedAtMs: atMs ?? Date.now(), inUse: use.length > 0 });
    if (kept !== null) setDraft({ ...EMPTY, supplierName: draft.supplierName });
  };
  return (
    <form className="sheet stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
      <Pick
        label={text.ingredient} value={draft.ingredientId} empty={text.choose} fault={faultOf(receive.failure, 'ingredientId')}
        choices={(ingredients.data?.ingredients ?? []).map(({ id, name }) => ({ id, text: name }))} onChange={(ingredientId) => setDraft({ ...draft, ingredientId })}
      />
      <Field label={text.lot} value={draft.lotCode} fault={faultOf(receive.failure, 'lotCode')} onChange={(lotCode) => setDraft({ ...draft, lotCode })} />
      <Field label={text.supplier} value={draft.supplierName} fault={faultOf(receive.failure, 'supplierName')} onChange={(supplierName) => setDraft({ ...draft, supplierName })} />
      <MomentField label={text.when} value={atMs} fault={faultOf(receive.failure, 'receivedAtMs')} onChange={setAtMs} />
      <Several label={text.inUse} values={use} choices={[{ id: 'use', text: text.inUse }]} onChange={setUse} />
      <ProblemNote failure={receive.failure} />
      <div className="row"><PressButton look="next" type="submit" isDisabled={receive.busy || draft.ingredientId === '' || draft.lotCode.trim() === ''}>{text.keep}</PressButton></div>
    </form>
  );
}

function DeliveryLine({ lot }: { readonly lot: IngredientLot }): ReactNode {
  const formats = useFormats();
  const use = useCommand('ingredientLot.use');
  const [isCorrecting, setCorrecting] = useState(false);
  const inUse = lot.inUseSinceMs !== null;
  const name = `${lot.ingredientName} ${lot.lotCode}`;
  return (
    <div className="limit-row">
      <div>
        <p><b>{lot.ingredientName}</b> <span className="number">{lot.lotCode}</span>{lot.supplierName === '' ? '' : `, ${lot.supplierName}`}, {formats.day(lot.receivedAtMs)}</p>
        <p className="soft">
          {lot.inUseSinceMs === null ? '' : `${text.since(formats.longMoment(lot.inUseSinceMs))}; `}{text.used(lot.usedIn.length)}{' '}
          <a className="link" href={addressOf('record-shelf', 'trace', 'ingredient-lot', lot.id)} aria-label={`${text.trace}: ${name}`}>{text.trace}</a>
        </p>
        <ProblemNote failure={use.failure} />
      </div>
      <div className="row">
        <PressButton look="quiet" label={text.correctOf(name)} onPress={() => setCorrecting(true)}>{text.correct}</PressButton>
        <PressButton label={inUse ? text.stopOf(name) : text.takeOf(name)} isDisabled={use.busy} onPress={() => { void use.send({ lotId: lot.id, inUse: !inUse }); }}>{inUse ? text.stop : text.use}</PressButton>
      </div>
      {isCorrecting ? <DeliveryCorrect lot={lot} onClose={() => setCorrecting(false)} /> : null}
    </div>
  );
}
