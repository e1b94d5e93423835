import type { ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { words } from '../../words/words.ts';
import type { FormState } from './receive-draft.ts';

const text = words.fishIn;
/** Those who came last; others are typed by name. */
const SHOWN = 5;
const NEW = '';

interface GuestChoiceProps {
  readonly form: FormState;
  onChange(change: Partial<FormState>): void;
}

/** Whose catch it is: one tap for somebody on file; of somebody new how to reach them, their room and checkout. */
export function GuestChoice({ form, onChange }: GuestChoiceProps): ReactNode {
  const list = useAsk('guest.list', {});
  const guests = (list.data?.guests ?? []).filter(({ kind }) => kind !== 'buyer').slice(0, SHOWN);
  return (
    <>
      {guests.length === 0 ? null : (
        <Choices
          label={text.known}
          value={form.guestId}
          choices={[...guests.map(({ id, name, room }) => ({ id, text: room === '' ? name : `${name}, ${words.handOver.room4(room)}` })), { id: NEW, text: text.newcomer }]}
          onChange={(guestId) => onChange({ guestId, ownerName: guests.find(({ id }) => id === guestId)?.name ?? '' })}
        />
      )}
      {form.guestId !== NEW ? null : (
        <details>
          <summary>{text.guestMore}</summary>
          <div className="stack">
            <Choices label={text.party} value={form.isParty ? 'party' : 'guest'} choices={[{ id: 'guest', text: text.alone }, { id: 'party', text: text.together }]} onChange={(kind) => onChange({ isParty: kind === 'party' })} />
            <div className="form-grid">
              <Field label={text.contact} value={form.contact} onChange={(contact) => onChange({ contact })} />
              <Field label={text.room} value={form.room} onChange={(room) => onChange({ room })} />
              <Field label={text.checkout} kind="date" value={form.checkoutDay} onChange={(checkoutDay) => onChange({ checkoutDay })} />
            </div>
          </div>
        </details>
      )}
    </>
  );
}
