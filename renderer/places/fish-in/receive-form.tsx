import { useState, type ReactNode } from 'react';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { GuestChoice } from './guest-choice.tsx';
import { draftOf, emptyForm, knownGuestId, newGuest, type FormState, type Gap } from './receive-draft.ts';

const text = words.fishIn;

/** The form of one fish lot: what came in, from whom, how cold. */
export function ReceiveForm(): ReactNode {
  const { kitchen } = useKitchen();
  const species = useAsk('fish.species', {});
  const receive = useCommand('fishLot.receive');
  const save = useCommand('guest.save');
  const guests = useAsk('guest.list', {});
  const [form, setForm] = useState<FormState>(emptyForm);
  const [kept, setKept] = useState<string | null>(null);
  const [gaps, setGaps] = useState<readonly Gap[]>([]);
  const set = (change: Partial<FormState>): void => {
    setKept(null);
    setForm({ ...form, ...change });
  };
  const fault = (path: string): string | null => faultOf(receive.failure, path);
  const gap = (key: Gap): string | null => (gaps.includes(key) ? text.gaps[key] : null);
  const send = async (): Promise<void> => {
    const draft = draftOf(form, kitchen, Date.now());
    setGaps(draft.gaps);
    if (draft.input === null) return;
    const { source } = draft.input;
    const guestId = source.kind === 'guest' ? (knownGuestId(form, guests.data?.guests ?? []) ?? (await save.send(newGuest(form)))?.guest.id) : null;
    if (guestId === undefined) return;
    const answer = await receive.send(source.kind === 'guest' && guestId !== null ? { ...draft.input, source: { ...source, guestId } } : draft.input);
    if (answer === null) {
      // The guest is on file now; the form goes on with them.
      if (guestId !== null) setForm({ ...form, guestId });
      return;
    }
    setKept(answer.lot.code);
    setForm({ ...emptyForm(), source: form.source });
  };
  return (
    <form className="sheet stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
      <Choices
        label={text.source}
        value={form.source}
        choices={[{ id: 'guest', text: text.guest }, { id: 'supplier', text: text.supplier }]}
        onChange={(source) => set({ source })}
      />
      {form.source === null ? null : (
        <>
          {form.source === 'guest' ? <GuestChoice form={form} onChange={set} /> : null}
          <div className="form-grid">
            {form.source === 'guest' ? (
              <>
                <Field label={text.ownerName} value={form.ownerName} fault={gap('ownerName') ?? fault('source.ownerName') ?? faultOf(save.failure, 'draft.name')} onChange={(ownerName) => set({ ownerName, guestId: '' })} />
                <Field label={text.licence} value={form.licence} onChange={(licence) => set({ licence })} />
                <Field label={text.caughtArea} value={form.caughtArea} onChange={(caughtArea) => set({ caughtArea })} />
              </>
            ) : (
              <>
                <Field label={text.supplierName} value={form.supplierName} fault={gap('supplierName') ?? fault('source.supplierName')} onChange={(supplierName) => set({ supplierName })} />
                <Field label={text.supplierLot} value={form.supplierLot} fault={gap('supplierLot') ?? fault('source.supplierLot')} onChange={(supplierLot) => set({ supplierLot })} />
              </>
            )}
            <Pick
              label={text.species}
              value={form.speciesId}
              empty={text.chooseSpecies}
              choices={(species.data?.species ?? []).map((each) => ({ id: each.id, text: each.commonName }))}
              fault={gap('speciesId') ?? fault('speciesId')}
              onChange={(speciesId) => set({ speciesId })}
            />
          </div>
          <Choices
            label={text.form}
            value={form.form}
            choices={(['whole', 'dressed', 'fillet-skin-on', 'fillet-skin-off', 'steak'] as const).map((id) => ({ id, text: text.forms[id] }))}
            onChange={(shape) => set({ form: shape })}
          />
          <div className="form-grid">
            <Field label={text.weight} kind="figure" unit={kitchen.massUnit} value={form.weight} fault={fault('mass.text') ?? fault('mass')} onChange={(weight) => set({ weight })} />
            <Field label={text.pieces} kind="figure" value={form.pieces} fault={gap('pieces') ?? fault('pieces')} onChange={(pieces) => set({ pieces })} />
            <Field label={text.temperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={form.temperature} fault={fault('temperature.text') ?? fault('temperature')} onChange={(temperature) => set({ temperature })} />
          </div>
          <MomentField label={text.received} value={form.receivedAtMs} fault={fault('receivedAtMs')} onChange={(receivedAtMs) => set({ receivedAtMs })} />
          {form.withTimes ? (
            <div className="row">
              <MomentField label={text.caught} value={form.caughtAtMs} fault={fault('caughtAtMs')} onChange={(caughtAtMs) => set({ caughtAtMs })} />
              <MomentField label={text.iced} value={form.icedAtMs} fault={fault('icedAtMs')} onChange={(icedAtMs) => set({ icedAtMs })} />
            </div>
          ) : (
            <div><PressButton look="quiet" onPress={() => set({ withTimes: true })}>{text.addTimes}</PressButton></div>
          )}
          <ProblemNote failure={save.failure ?? receive.failure} />
          <div className="row">
            <PressButton look="next" type="submit" isDisabled={receive.busy || save.busy}>{text.receive}</PressButton>
          </div>
        </>
      )}
      {kept === null ? null : <p className="strong" role="status">{text.kept(kept)}</p>}
    </form>
  );
}
