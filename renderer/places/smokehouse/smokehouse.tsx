import type { ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { words } from '../../words/words.ts';
import { LoadPage } from './load-page.tsx';
import { OpenLoad } from './open-load.tsx';
import './smokehouse.css';

const text = words.smokehouse;
/** Loads that are over stay on the strip for as long as their batch may still need a look. */
const SHOWN_LOADS = 5;
/** The address of the form instead of a load's id. */
const NEW = 'new';

/** The smokehouse: the loads that run, and opening a new one. */
export function Smokehouse(): ReactNode {
  const { rest } = useAddress();
  const list = useAsk('load.list', { newest: SHOWN_LOADS });
  const batches = useAsk('batch.list', { withoutLoad: true });
  if (list.data === undefined || batches.data === undefined) return null;
  const loads = list.data.loads.toSorted((a, b) => Number(a.cooledAtMs !== null) - Number(b.cooledAtMs !== null) || b.number - a.number).slice(0, SHOWN_LOADS);
  const running = loads.find((load) => load.cooledAtMs === null);
  const waits = batches.data.batches.some((batch) => batch.stage === 'drying' && batch.loadId === null);
  const shownId = rest[0] ?? running?.id ?? (waits ? NEW : (loads[0]?.id ?? NEW));
  return (
    <>
      {loads.length === 0 ? null : (
        <nav className="row" aria-label={text.loads}>
          {loads.map((load) => (
            <a key={load.id} className="chip" href={addressOf('smokehouse', load.id)} aria-current={load.id === shownId ? 'true' : undefined}>{text.loadTitle(load.smokerName, load.number)}</a>
          ))}
          <a className="chip" href={addressOf('smokehouse', NEW)} aria-current={shownId === NEW ? 'true' : undefined}>{text.openLoad}</a>
        </nav>
      )}
      {shownId === NEW ? <OpenLoad /> : <LoadPage key={shownId} loadId={shownId} />}
    </>
  );
}
