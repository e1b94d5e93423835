import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useFormats } from '../../parts/format.ts';
import { handOverLines } from '../../parts/hand-over-lines.ts';
import { SignatureDrawn } from '../../parts/signature-drawn.tsx';
import { words } from '../../words/words.ts';
import { traceAddress } from './find-anything.tsx';

const text = words.trace.where;

/** Where each pack is now, who was given some and signed for them, and the lots of ingredients that went in. */
export function WherePanel({ record }: { readonly record: Output<'record.batch'> }): ReactNode {
  const formats = useFormats();
  const { fates, handOvers, ingredientLots } = record;
  return (
    <section className="sheet stack">
      {fates.length === 0 ? null : (
        <>
          <h2>{text.title}</h2>
          <ul className="trace-list">{fates.map((fate) => <li key={fate.packId}><a className="number" href={traceAddress({ kind: 'pack', id: fate.packId })}>{fate.code}</a> {fate.where}</li>)}</ul>
        </>
      )}
      {handOvers.map(({ handOver, guestName, codes }) => (
        <div key={handOver.id} className="stack">
          <p className="strong">{text.handOver(codes.length, guestName, formats.longMoment(handOver.atMs), handOver.initials)}</p>
          <p>{handOverLines(handOver, formats).join(' ')}</p>
          {handOver.signature === null ? null : <SignatureDrawn path={handOver.signature.path} name={handOver.signature.name} />}
        </div>
      ))}
      {ingredientLots.length === 0 ? null : (
        <>
          <h2>{text.ingredients}</h2>
          <ul className="trace-list">{ingredientLots.map((lot) => <li key={lot.id}><a href={traceAddress({ kind: 'ingredient-lot', id: lot.id })}>{text.ingredient(lot.ingredientName, lot.lotCode, lot.supplierName)}</a></li>)}</ul>
        </>
      )}
    </section>
  );
}
