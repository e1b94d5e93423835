import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices, Several } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { SpotField } from './move-packs.tsx';

const text = words.coldStore.trays;
type Probe = keyof typeof text.probes;
const SHOWN_BATCHES = 20;

/** Packs of one batch into a freezer together, or the fish itself before it is packed. */
export function MakeTray({ batchId }: { readonly batchId: string | null }): ReactNode {
  const batches = useAsk('batch.list', {});
  const [chosen, setChosen] = useState(batchId ?? '');
  const choices = (batches.data?.batches ?? []).filter((batch) => isToFreeze(batch) || batch.id === batchId).slice(0, SHOWN_BATCHES);
  const batch = choices.find(({ id }) => id === chosen) ?? choices[0];
  return (
    <section className="sheet stack">
      <h2>{text.make}</h2>
      {batch === undefined ? <p className="soft">{text.noneToPut}</p> : (
        <>
          <Pick label={text.batch} value={batch.id} choices={choices.map((each) => ({ id: each.id, text: `${each.lotCode ?? each.shortName} ${each.marketName}` }))} onChange={setChosen} />
          <TrayForm key={batch.id} batch={batch} />
        </>
      )}
    </section>
  );
}

/** Sealed packs, or cold-smoked fish that is still to be frozen against parasites. */
function isToFreeze({ stage, sealedAtMs, process, intoFreezerAtMs }: Batch): boolean {
  return stage !== 'rejected' && (sealedAtMs !== null || (process === 'cold' && intoFreezerAtMs === null));
}

function TrayForm({ batch }: { readonly batch: Batch }): ReactNode {
  const office = useAsk('office.get', {});
  const stock = useAsk('pack.stock', {});
  const trays = useAsk('tray.list', { batchId: batch.id });
  const make = useCommand('tray.make');
  const [picked, setPicked] = useState<readonly string[] | null>(null);
  const [placeId, setPlaceId] = useState('');
  const [name, setName] = useState('');
  const [spot, setSpot] = useState('');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [probe, setProbe] = useState<Probe>('none');
  const [instrumentId, setInstrumentId] = useState('');
  const freezers = (office.data?.places ?? []).filter(({ kind }) => kind === 'freezer');
  const freezerId = placeId === '' ? (freezers[0]?.id ?? '') : placeId;
  const lying = new Set((trays.data?.trays ?? []).filter(({ outAtMs }) => outAtMs === null).flatMap(({ packIds }) => packIds));
  const packs = (stock.data?.packs ?? []).filter((pack) => pack.batchId === batch.id && pack.state !== 'returned' && !lying.has(pack.packId)).toSorted((one, other) => (one.code < other.code ? -1 : 1));
  const ids = (picked ?? packs.map(({ packId }) => packId)).filter((id) => packs.some(({ packId }) => packId === id));
  const isFish = batch.sealedAtMs === null;
  const send = async (): Promise<void> => {
    const kept = await make.send({
      batchId: batch.id, name, packIds: isFish ? [] : [...ids], placeId: freezerId, spot, atMs: atMs ?? Date.now(), probe: probe === 'none' ? null : { in: probe, instrumentId: instrumentId === '' ? null : instrumentId },
    });
    if (kept === null) return;
    setPicked(null);
    setName('');
    setAtMs(null);
  };
  return (
    <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
      {isFish ? <p>{text.fish}</p> : packs.length === 0 ? <p className="soft">{text.allLying}</p> : (
        <div className="stack">
          <p className="strong" role="status">{text.count(ids.length, packs.length)}</p>
          <Several label={text.packs} values={ids} choices={packs.map(({ packId, code }) => ({ id: packId, text: code.slice(-3) }))} onChange={setPicked} />
        </div>
      )}
      <div className="form-grid">
        <Pick label={words.coldStore.freezer} value={freezerId} choices={freezers.map((each) => ({ id: each.id, text: each.name }))} fault={faultOf(make.failure, 'placeId')} onChange={setPlaceId} />
        <SpotField label={text.spot} value={spot} spots={(stock.data?.spots ?? []).filter((each) => each.placeId === freezerId).map((each) => each.spot)} onChange={setSpot} />
        <Field label={text.name} value={name} onChange={setName} />
      </div>
      <Choices label={text.probe} value={probe} choices={(['none', 'fish', 'dummy'] as const).map((id) => ({ id, text: text.probes[id] }))} onChange={setProbe} />
      {probe === 'none' ? null : <Pick label={text.instrument} value={instrumentId} empty={text.unnamed} choices={(office.data?.instruments ?? []).map((each) => ({ id: each.id, text: each.name }))} onChange={setInstrumentId} />}
      <MomentField label={words.coldStore.when} value={null} fault={faultOf(make.failure, 'atMs')} onChange={setAtMs} />
      <ProblemNote failure={make.failure} />
      <div><PressButton look="next" type="submit" isDisabled={make.busy || freezerId === '' || (!isFish && ids.length === 0)}>{text.put}</PressButton></div>
    </form>
  );
}
