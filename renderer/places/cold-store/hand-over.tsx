import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { dayInWords, useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { GuestForm } from './guest-form.tsx';
import { HandOverForm } from './hand-over-form.tsx';

const text = words.handOver;
const SHOWN_GUESTS = 12;
const SHOWN_PAST = 8;
type Listed = Output<'guest.list'>['guests'][number];

/** Packs to whom they belong: first whom, then which and what was looked at. */
export function HandOverPage({ guestId }: { readonly guestId: string | null }): ReactNode {
  return guestId === null ? <ChooseGuest /> : <HandOverForm key={guestId} guestId={guestId} />;
}

function ChooseGuest(): ReactNode {
  const formats = useFormats();
  const list = useAsk('guest.list', {});
  const past = useAsk('handOver.list', { batchId: null });
  const [edited, setEdited] = useState<Listed | 'new' | null>(null);
  const guests = (list.data?.guests ?? []).slice(0, SHOWN_GUESTS);
  return (
    <div className="columns">
      <section className="sheet stack">
        <h2>{text.toWhom}</h2>
        {guests.length === 0 ? <p className="soft">{text.none}</p> : guests.map((guest) => (
          <div key={guest.id} className="guest-row">
            <a className="row-button shelf-row any-name" href={addressOf('cold-store', 'hand-over', guest.id)}>
              <b>{guest.name}</b>
              <span className="soft small">{guestLine(guest)}</span>
            </a>
            <PressButton look="quiet" label={`${text.edit} ${guest.name}`} onPress={() => setEdited(guest)}>{text.edit}</PressButton>
          </div>
        ))}
        <div><PressButton onPress={() => setEdited('new')}>{text.add}</PressButton></div>
      </section>
      <section className="sheet stack">
        <h2>{text.past}</h2>
        <ul>
          {(past.data?.handOvers ?? []).slice(0, SHOWN_PAST).map((one) => (
            <li key={one.id} className="any-name">
              <a className="link" href={addressOf('print', 'guest', one.id)}>{text.pastLine(formats.moment(one.atMs), one.packIds.length, one.of, one.guest.name, one.initials)}</a>
              {one.missed.length === 0 ? null : <span className="soft small"> {text.missed(one.missed.join(' '))}</span>}
            </li>
          ))}
        </ul>
      </section>
      {edited === null ? null : (
        <GuestForm
          guest={edited === 'new' ? null : edited}
          onClose={() => setEdited(null)}
          onKept={(id) => { if (edited === 'new') go(addressOf('cold-store', 'hand-over', id)); }}
        />
      )}
    </div>
  );
}

function guestLine({ kind, room, contact, checkoutDay, waiting }: Listed): string {
  return [
    text.kinds[kind], ...(room === '' ? [] : [text.room4(room)]), ...(checkoutDay === null ? [] : [text.leaves(dayInWords(checkoutDay))]), contact === '' ? text.noContact : contact, text.waiting(waiting),
  ].join('; ');
}
