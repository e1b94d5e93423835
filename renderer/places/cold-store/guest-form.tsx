import { useState, type ReactNode } from 'react';
import type { Guest } from '../../../app/contract/requests/packs-where.ts';
import type { GuestDraft } from '../../../app/contract/requests/hand-over.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { FormLeaf } from '../../parts/form-leaf.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.handOver;

interface GuestFormProps {
  /** Null for somebody new. */
  readonly guest: Guest | null;
  onClose(): void;
  onKept(guestId: string): void;
}

/** A guest, a party or a buyer: who, and how to reach them. */
export function GuestForm({ guest, onClose, onKept }: GuestFormProps): ReactNode {
  const save = useCommand('guest.save');
  const [draft, setDraft] = useState<GuestDraft>(() => draftOf(guest));
  const set = (change: Partial<GuestDraft>): void => setDraft({ ...draft, ...change });
  const fault = (key: keyof GuestDraft): string | null => faultOf(save.failure, `draft.${key}`);
  const send = async (): Promise<boolean> => {
    const kept = await save.send({ guestId: guest?.id ?? null, draft });
    if (kept !== null) onKept(kept.guest.id);
    return kept !== null;
  };
  return (
    <FormLeaf title={text.addTitle} hindrance={null} saveText={text.save} busy={save.busy} failure={save.failure} onSave={send} onClose={onClose}>
      <Choices label={text.kind} value={draft.kind} choices={(['guest', 'party', 'buyer'] as const).map((id) => ({ id, text: text.kinds[id] }))} onChange={(kind) => set({ kind })} />
      <div className="form-grid">
        <Field label={text.name} value={draft.name} fault={fault('name')} onChange={(name) => set({ name })} />
        <Field label={text.contact} help={text.contactHelp} value={draft.contact} fault={fault('contact')} onChange={(contact) => set({ contact })} />
        <Field label={text.room} value={draft.room} fault={fault('room')} onChange={(room) => set({ room })} />
        <Field label={text.checkout} kind="date" value={draft.checkoutDay ?? ''} fault={fault('checkoutDay')} onChange={(day) => set({ checkoutDay: day === '' ? null : day })} />
        <Field label={text.address} value={draft.address} fault={fault('address')} onChange={(address) => set({ address })} />
      </div>
    </FormLeaf>
  );
}

function draftOf(guest: Guest | null): GuestDraft {
  if (guest === null) return { kind: 'guest', name: '', contact: '', address: '', room: '', checkoutDay: null };
  const { id: _id, ...draft } = guest;
  return draft;
}
