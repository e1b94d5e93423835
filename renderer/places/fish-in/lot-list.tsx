import type { ReactNode } from 'react';
import type { FishLot } from '../../../app/contract/requests/fish.ts';
import { addressOf } from '../../frame/address.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { CorrectLot } from './correct-lot.tsx';

const text = words.fishIn;

/** Lots that are in a batch already are found on the record shelf. */
const SHOWN_LOTS = 6;

/** The lots received: those that wait first, newest first. */
export function LotList({ lots }: { readonly lots: readonly FishLot[] }): ReactNode {
  const formats = useFormats();
  const shown = lots.toSorted((a, b) => Number(a.batchIds.length > 0) - Number(b.batchIds.length > 0) || b.receivedAtMs - a.receivedAtMs).slice(0, SHOWN_LOTS);
  return (
    <section className="sheet stack" aria-label={text.lots}>
      <div className="spread">
        <h2>{text.lots}</h2>
        {lots.length === 0 ? null : <a href={addressOf('brine-bench')}>{text.toBench}</a>}
      </div>
      {lots.length === 0 ? <p className="soft">{text.none}</p> : null}
      {shown.map((lot) => (
        <article key={lot.id} className="lot">
          <p><span className="number strong">{lot.code}</span> {lot.species.commonName}</p>
          <p className="soft small">
            {lot.source.kind === 'guest' ? text.guestFish(lot.source.ownerName) : text.boughtFish(lot.source.supplierName, lot.source.supplierLot)}
          </p>
          <p className="soft small">
            {formats.mass(lot.mass.grams)}, {text.pieceCount(lot.pieces)}, {text.forms[lot.form].toLowerCase()};{' '}
            {lot.temperatureTicks === null ? text.notMeasured : formats.temperature(lot.temperatureTicks)}; {formats.moment(lot.receivedAtMs)} {lot.receivedBy}
          </p>
          <div className="spread middle"><p className="small">{text.inBatches(lot.batchIds.length)}</p><CorrectLot lot={lot} /></div>
        </article>
      ))}
    </section>
  );
}
