import type { ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { FreezerMarks } from './freezer-marks.tsx';
import { PlaceRecord } from './place-record.tsx';

const text = words.coldStore;

/** The cold store: each place's own record, and when each batch went in. */
export function ColdStore(): ReactNode {
  const { rest } = useAddress();
  const formats = useFormats();
  const office = useAsk('office.get', {});
  const batches = useAsk('batch.list', {});
  if (office.data === undefined) return null;
  const { places } = office.data;
  const shown = places.find((place) => place.id === rest[0]) ?? places[0];
  const waiting = (batches.data?.batches ?? []).filter((batch) => (batch.stage === 'cooling' || batch.stage === 'cooled' || batch.stage === 'released' || batch.process === 'cold') && batch.outOfFreezerAtMs === null && batch.stage !== 'rejected');
  return (
    <>
      <div>
        <h1>{text.title}</h1>
        <p className="soft">{text.lead}</p>
      </div>
      {places.length === 0 ? <p>{text.none} <a href={addressOf('office')}>{words.packingTable.toOffice}</a></p> : (
        <nav className="row" aria-label={text.places}>
          {places.map((place) => (
            <a key={place.id} className="chip" href={addressOf('cold-store', place.id)} aria-current={place.id === shown?.id ? 'true' : undefined}>
              <b>{place.name}</b>{place.name.toLowerCase() === text.kinds[place.kind] ? '' : `, ${text.kinds[place.kind]}`}:{' '}
              {place.lastTicks === null || place.lastAtMs === null ? text.noReading : text.last(formats.temperature(place.lastTicks), formats.moment(place.lastAtMs))}
            </a>
          ))}
        </nav>
      )}
      <div className="columns">
        {shown === undefined ? <span /> : <PlaceRecord key={shown.id} placeId={shown.id} kind={shown.kind} name={shown.name} />}
        <FreezerMarks batches={waiting} freezers={places.filter((place) => place.kind === 'freezer')} />
      </div>
      <p className="foot">{words.frame.caution}</p>
    </>
  );
}
