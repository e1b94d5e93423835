import type { ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { FreezerMarks } from './freezer-marks.tsx';
import { HandOverPage } from './hand-over.tsx';
import { PlaceRecord } from './place-record.tsx';
import { StockPage } from './stock-page.tsx';
import { TraysPage } from './trays-page.tsx';
import './cold-store.css';

const text = words.coldStore;
const PAGES = ['', 'stock', 'trays', 'hand-over'] as const;

/** The cold store: packs in and out, trays, the hand-over, and each place's own record. */
export function ColdStore(): ReactNode {
  const { rest } = useAddress();
  const page = PAGES.find((each) => each === rest[0]) ?? '';
  return (
    <>
      <div>
        <h1>{page === 'hand-over' ? words.handOver.title : text.title}</h1>
        <p className="soft">{page === 'hand-over' ? words.handOver.lead : text.lead}</p>
      </div>
      <nav className="row" aria-label={text.pages}>
        {PAGES.map((each) => (
          <a key={each} className="chip" href={each === '' ? addressOf('cold-store') : addressOf('cold-store', each)} aria-current={each === page ? 'true' : undefined}>{text.page[each]}</a>
        ))}
      </nav>
      {page === 'stock' ? <StockPage /> : page === 'trays' ? <TraysPage key={rest[1] ?? ''} batchId={rest[1] ?? null} /> : page === 'hand-over' ? <HandOverPage guestId={rest[1] ?? null} /> : <Places placeId={rest[0] ?? null} />}
      <p className="foot">{words.frame.caution}</p>
    </>
  );
}

/** Each place's own record, and when each batch went in. */
function Places({ placeId }: { readonly placeId: string | null }): ReactNode {
  const formats = useFormats();
  const office = useAsk('office.get', {});
  const batches = useAsk('batch.list', {});
  const trays = useAsk('tray.list', { batchId: null });
  if (office.data === undefined) return null;
  const { places } = office.data;
  const shown = places.find((place) => place.id === placeId) ?? places[0];
  const waiting = (batches.data?.batches ?? []).filter((batch) => (batch.stage === 'cooling' || batch.stage === 'cooled' || batch.stage === 'released' || batch.process === 'cold') && batch.outOfFreezerAtMs === null && batch.stage !== 'rejected');
  const onTrays = new Set((trays.data?.trays ?? []).filter(({ packIds }) => packIds.length > 0).map(({ batchId }) => batchId));
  return (
    <>
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
        <FreezerMarks batches={waiting} onTrays={onTrays} freezers={places.filter((place) => place.kind === 'freezer')} />
      </div>
    </>
  );
}
