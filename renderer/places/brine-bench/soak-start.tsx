import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { PaperLinks } from '../../print/paper-links.tsx';
import { FromPaper, NO_PAPER, paperInput } from '../../readings/from-paper.tsx';
import { words } from '../../words/words.ts';
import { brinePlaces, proposedPlace } from './soak-places.ts';

const bench = words.brineBench;
const text = bench.soakLog;

/** The start of a soak: the brine's temperature, where the tub stands, and whose brine it is. */
export function SoakStart({ batch }: { readonly batch: Batch }): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const office = useAsk('office.get', {});
  const list = useAsk('batch.list', {});
  const log = useCommand('soak.log');
  const [brine, setBrine] = useState('');
  const [room, setRoom] = useState('');
  const [chosenPlaceId, setPlaceId] = useState<string | null>(null);
  const [tub, setTub] = useState('');
  const [basket, setBasket] = useState('');
  const [brineIs, setBrineIs] = useState<'fresh' | 'reused'>('fresh');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [paper, setPaper] = useState(NO_PAPER);
  const places = brinePlaces(office.data?.places ?? []);
  const placeId = chosenPlaceId ?? proposedPlace(office.data?.places ?? [], list.data?.batches ?? []);
  const place = places.find((one) => one.id === placeId);
  const isRead = place !== undefined && place.lastTicks !== null && place.lastAtMs !== null;
  const typed = (value: string) => (value.trim() === '' ? null : { text: value, unit: kitchen.temperatureUnit });
  const send = async (): Promise<void> => {
    await log.send({
      batchId: batch.id, what: 'start', atMs: atMs ?? Date.now(), brine: typed(brine), room: isRead ? null : typed(room),
      placeId, tub, basket, ...(batch.card.cure === 'wet' ? { brineReused: brineIs === 'reused' } : {}), ...paperInput(paper),
    });
  };
  return (
    <>
      {batch.card.cure === 'dry' ? null : (
        <Field label={bench.brineTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={brine} fault={faultOf(log.failure, 'brine.text') ?? faultOf(log.failure, 'brine')} onChange={setBrine} />
      )}
      {places.length === 0 ? <p className="help">{text.nowhere}</p> : (
        <Choices label={text.where} value={placeId} choices={places.map((one) => ({ id: one.id, text: one.name }))} fault={faultOf(log.failure, 'placeId')} onChange={setPlaceId} />
      )}
      {place !== undefined && place.lastTicks !== null && place.lastAtMs !== null
        ? <p className="help">{text.roomNow(place.name, formats.temperature(place.lastTicks), formats.moment(place.lastAtMs))}</p>
        : (
          <>
            {place === undefined ? null : <p className="help">{text.roomUnread(place.name)}</p>}
            <Field label={bench.roomTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={room} fault={faultOf(log.failure, 'room.text') ?? faultOf(log.failure, 'room')} onChange={setRoom} />
          </>
        )}
      {batch.card.cure === 'dry' ? null : (
        <Choices label={text.brine} value={brineIs} choices={[{ id: 'fresh', text: text.fresh }, { id: 'reused', text: text.reused }]} fault={faultOf(log.failure, 'brineReused')} onChange={setBrineIs} />
      )}
      <details className="fold">
        <summary>{text.moreStart}</summary>
        <div className="form-grid">
          <Field label={text.tub} value={tub} fault={faultOf(log.failure, 'tub')} onChange={setTub} />
          <Field label={text.basket} value={basket} fault={faultOf(log.failure, 'basket')} onChange={setBasket} />
        </div>
      </details>
      <MomentField label={bench.at} value={null} fault={faultOf(log.failure, 'atMs')} onChange={setAtMs} />
      <FromPaper answer={paper} fault={faultOf(log.failure, 'sheet')} onChange={setPaper} />
      <PaperLinks kinds={['soak']} subjectId={batch.id} />
      <ProblemNote failure={log.failure} />
      <div className="row"><PressButton look="next" isDisabled={log.busy} onPress={() => { void send(); }}>{bench.start}</PressButton></div>
    </>
  );
}
