import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { PacksToGive } from './packs-to-give.tsx';
import { SignaturePad } from './signature-pad.tsx';

const text = words.handOver;
type How = keyof typeof text.hows;
type Done = { readonly id: string; readonly count: number; readonly of: number };

/** Which packs, how cold, in what, how far, who signs: one page, one button. */
export function HandOverForm({ guestId }: { readonly guestId: string }): ReactNode {
  const prepared = useAsk('handOver.prepare', { guestId });
  const [done, setDone] = useState<Done | null>(null);
  if (prepared.data === undefined) return <ProblemNote failure={failureOf(prepared.error)} />;
  const { guest } = prepared.data;
  return (
    <>
      <div className="spread middle">
        <h2 className="any-name">{guest.name}</h2>
        <a className="chip" href={addressOf('cold-store', 'hand-over')}>{text.back}</a>
      </div>
      {done === null ? null : (
        <section className="sheet stack">
          <p className="strong any-name" role="status">{text.done(done.count, done.of, guest.name)}</p>
          <div><PressButton look="next" onPress={() => go(addressOf('print', 'guest', done.id))}>{text.printSheet}</PressButton></div>
        </section>
      )}
      {prepared.data.batches.length === 0 ? (done === null ? <p>{text.nothing}</p> : null) : <Giving key={done?.id ?? ''} prepared={prepared.data} onDone={setDone} />}
    </>
  );
}

function Giving({ prepared, onDone }: { readonly prepared: Output<'handOver.prepare'>; onDone(done: Done): void }): ReactNode {
  const { kitchen, onDuty } = useKitchen();
  const make = useCommand('handOver.make');
  const { guest, batches, of } = prepared;
  const [picked, setPicked] = useState<readonly string[] | null>(null);
  // Nothing counts as looked at until somebody says so.
  const [how, setHow] = useState<How>('not-checked');
  const [reading, setReading] = useState('');
  const [box, setBox] = useState('');
  const [hours, setHours] = useState('');
  const [path, setPath] = useState('');
  const [signer, setSigner] = useState(guest.name);
  const [isSheetGiven, setIsSheetGiven] = useState(false);
  const [hasInitialled, setHasInitialled] = useState(false);
  const [why, setWhy] = useState('');
  const mayGo = batches.flatMap((batch) => (batch.refusal === null || (batch.needsInitials && hasInitialled) ? batch.packs.filter((pack) => pack.why === null) : []));
  // Their own catch is chosen to begin with; bought fish is picked.
  const own = mayGo.filter((pack) => pack.ownerName !== null).map(({ packId }) => packId);
  const ids = (picked ?? own).filter((id) => mayGo.some(({ packId }) => packId === id));
  const isFrozen = batches.some((batch) => batch.store === 'frozen' && (ids.length === 0 || batch.packs.some(({ packId }) => ids.includes(packId))));
  const fault = (field: string): string | null => faultOf(make.failure, field);
  const asksInitials = batches.some(({ needsInitials }) => needsInitials) && onDuty?.role === 'manager';
  const send = async (): Promise<void> => {
    const answer = await make.send({
      guestId: guest.id, packIds: [...ids], atMs: Date.now(), frozenHard: { how, reading: how === 'reading' ? { text: reading, unit: kitchen.temperatureUnit } : null }, box, travelHours: hours,
      signature: path === '' ? null : { path, name: signer }, sheetGiven: isSheetGiven, why, ...(hasInitialled ? { initialsForError: true } : {}),
    });
    if (answer !== null) onDone({ id: answer.handOver.id, count: answer.handOver.packIds.length, of: answer.handOver.of });
  };
  return (
    <div className="columns">
      <div className="stack">
        <PacksToGive batches={batches} ids={ids} of={Math.max(of, ids.length)} mayGo={mayGo} onPick={setPicked} />
        {asksInitials ? <Choices label={text.initials} value={hasInitialled ? 'yes' : 'no'} choices={[{ id: 'no', text: words.handOver.sheetNo }, { id: 'yes', text: words.handOver.sheetYes }]} onChange={(value) => setHasInitialled(value === 'yes')} /> : null}
      </div>
      <form className="sheet stack" onSubmit={(event) => { event.preventDefault(); if (ids.length > 0) void send(); }}>
        <Choices label={isFrozen ? text.frozen : text.cold} value={how} choices={(['touch', 'reading', 'not-checked'] as const).map((id) => ({ id, text: text.hows[id] }))} onChange={setHow} />
        {how === 'reading' ? <Field label={text.reading} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={reading} fault={fault('frozenHard.reading.text') ?? fault('frozenHard.reading')} onChange={setReading} /> : null}
        <div className="form-grid">
          <Field label={text.box} value={box} fault={fault('box')} onChange={setBox} />
          <Field label={text.hours} kind="figure" unit="h" value={hours} fault={fault('travelHours')} onChange={setHours} />
        </div>
        <Field label={text.signedBy} value={signer} fault={fault('signature.name')} onChange={setSigner} />
        <SignaturePad path={path} onPath={setPath} />
        {fault('signature.path') === null ? null : <p className="fault">{fault('signature.path')}</p>}
        <Choices label={text.sheet} value={isSheetGiven ? 'yes' : 'no'} choices={[{ id: 'yes', text: text.sheetYes }, { id: 'no', text: text.sheetNo }]} onChange={(value) => setIsSheetGiven(value === 'yes')} />
        {fault('why') === null && why === '' ? null : <Field label={text.why} value={why} onChange={setWhy} />}
        <ProblemNote failure={make.failure} />
        <div><PressButton look="next" type="submit" isDisabled={make.busy || ids.length === 0}>{text.give(ids.length)}</PressButton></div>
      </form>
    </div>
  );
}
