import type { ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { useFormats, type Formats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { SoakFacts } from './card-facts.tsx';
import { SoakChecks } from './soak-checks.tsx';
import { SoakRunning } from './soak-running.tsx';
import { SoakStart } from './soak-start.tsx';

const text = words.brineBench;

type Event = Batch['soak'][number];

/** The soak of a batch: what was logged, the next step, and how it stands against the brine's limits. */
export function SoakLog({ batch }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  const office = useAsk('office.get', {});
  const hasStarted = batch.soak.some((event) => event.what === 'start');
  const hasEnded = batch.soak.some((event) => event.what === 'end');
  const place = office.data?.places.find((one) => one.id === batch.brinePlaceId);
  const stands = text.soakLog.stands(place?.name ?? '', batch.tub, batch.basket);
  return (
    <section className="sheet stack">
      <div>
        <h2>{text.soak}</h2>
        <SoakFacts card={batch.card} />
      </div>
      {batch.soak.length === 0 ? null : <ul>{batch.soak.map((event) => <li key={event.what + event.atMs}>{sayEvent(event, formats)}{event.fromPaper === undefined ? '' : ` ${words.paper.entry.said(event.sheet ?? null, formats.moment(event.enteredAtMs))}`}</li>)}</ul>}
      {hasStarted && stands !== '' ? <p>{stands}</p> : null}
      {batch.brineReused === true ? <p className="strong">{text.soakLog.reusedSaid}</p> : null}
      {hasEnded ? <a className="button next link" href={addressOf('smokehouse')}>{text.toSmokehouse}</a> : null}
      {hasStarted && !hasEnded ? <SoakRunning batch={batch} /> : null}
      {hasStarted ? null : <SoakStart batch={batch} />}
      <SoakChecks batch={batch} hasEvidence={hasStarted} />
    </section>
  );
}

function sayEvent(event: Event, formats: Formats): string {
  const moment = formats.moment(event.atMs);
  const brine = event.brineTicks === null ? text.noTemperature : formats.temperature(event.brineTicks);
  if (event.what === 'turn') return text.turned(moment, event.initials);
  return event.what === 'start' ? text.begun(moment, event.initials, brine) : text.ended(moment, event.initials, brine);
}
