import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';

/** The fish lots of a batch, its brine and its soak. */
export function FishAndBrine({ record }: { readonly record: Output<'record.batch'> }): ReactNode {
  const formats = useFormats();
  const { batch, lots } = record;
  const { card } = batch;
  return (
    <section className="sheet stack">
      <h2>{words.recordShelf.fish}</h2>
      <ul>
        {lots.map((lot) => (
          <li key={lot.id}>
            <span className="number">{lot.code}</span> {lot.species.commonName}, {formats.mass(lot.mass.grams)}, {formats.longMoment(lot.receivedAtMs)}, {lot.receivedBy};{' '}
            {lot.source.kind === 'guest' ? words.fishIn.guestFish(lot.source.ownerName) : words.fishIn.boughtFish(lot.source.supplierName, lot.source.supplierLot)}
          </li>
        ))}
      </ul>
      <h2>{words.recordShelf.brine}</h2>
      <p>
        {card.recipeName}, {card.salometerDegrees.toFixed(1)} {words.brineBench.salometer}, {card.percentByWeight.toFixed(2)} % {words.brineBench.byWeight};{' '}
        {words.recordShelf.brineFor(formats.mass(card.totalGrams), formats.mass(card.filletGrams))}
      </p>
      <ul>
        {batch.soak.map((event) => (
          <li key={event.what + event.atMs}>
            {formats.longMoment(event.atMs)}: {words.print.card[event.what === 'start' ? 'started' : event.what === 'end' ? 'ended' : 'turns']}, {event.initials}
            {event.brineTicks === null ? '' : `, ${words.print.card.brine} ${formats.temperature(event.brineTicks)}`}
          </li>
        ))}
      </ul>
    </section>
  );
}
