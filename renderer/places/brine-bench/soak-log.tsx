import { useState, type ReactNode } from 'react';
import { exactTicks } from '../../../app/measures/temperature.ts';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats, type Formats } from '../../parts/format.ts';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.brineBench;
/** New York 1 NYCRR 262.5(a) and Michigan R 285.569.5: brine at or below 60 °F at the start; over 4 h a room at or below 38 °F. */
const START_LIMIT_TICKS = exactTicks(60, 'F');
const ROOM_LIMIT_TICKS = exactTicks(38, 'F');

type Event = Batch['soak'][number];

/** Start, turn and end of the soak, one tap each with the brine's temperature. */
export function SoakLog({ batch }: { readonly batch: Batch }): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const log = useCommand('soak.log');
  const [brine, setBrine] = useState('');
  const [room, setRoom] = useState('');
  const [atMs, setAtMs] = useState<number | null>(null);
  const started = batch.soak.some((event) => event.what === 'start');
  const ended = batch.soak.some((event) => event.what === 'end');
  const send = async (what: Event['what']): Promise<void> => {
    const typed = (value: string) => (value.trim() === '' ? null : { text: value, unit: kitchen.temperatureUnit });
    const answer = await log.send({ batchId: batch.id, what, atMs: atMs ?? Date.now(), brine: typed(brine), room: typed(room) });
    if (answer === null) return;
    setBrine('');
    setRoom('');
    setAtMs(null);
  };
  const { card } = batch;
  return (
    <section className="sheet stack">
      <div>
        <h2>{text.soak}</h2>
        <p className="soft">{[text.soakPlan(String(card.soakHours)), ...card.turnHours.map((hours) => text.turnAt(String(hours)))].join(', ')}</p>
      </div>
      {batch.soak.length === 0 ? null : <ul>{batch.soak.map((event) => <li key={event.what + event.atMs}>{sayEvent(event, formats)}</li>)}</ul>}
      {ended ? <a className="button next link" href={addressOf('smokehouse')}>{text.toSmokehouse}</a> : (
        <>
          <p className="strong">{started ? text.rule4h(formats.temperature(ROOM_LIMIT_TICKS, 0)) : text.startLimit(formats.temperature(START_LIMIT_TICKS, 0))}</p>
          <Field label={text.brineTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={brine} fault={faultOf(log.failure, 'brine.text') ?? faultOf(log.failure, 'brine')} onChange={setBrine} />
          <Field label={text.roomTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={room} fault={faultOf(log.failure, 'room.text') ?? faultOf(log.failure, 'room')} onChange={setRoom} />
          <MomentField key={batch.soak.length} label={text.at} value={null} fault={faultOf(log.failure, 'atMs')} onChange={setAtMs} />
          <ProblemNote failure={log.failure} />
          <div className="row">
            {started ? (
              <>
                <PressButton isDisabled={log.busy} onPress={() => { void send('turn'); }}>{text.turn}</PressButton>
                <PressButton look="next" isDisabled={log.busy} onPress={() => { void send('end'); }}>{text.end}</PressButton>
              </>
            ) : (
              <PressButton look="next" isDisabled={log.busy} onPress={() => { void send('start'); }}>{text.start}</PressButton>
            )}
          </div>
        </>
      )}
    </section>
  );
}

function sayEvent(event: Event, formats: Formats): string {
  const moment = formats.moment(event.atMs);
  const brine = event.brineTicks === null ? text.noTemperature : formats.temperature(event.brineTicks);
  if (event.what === 'turn') return text.turned(moment, event.initials);
  return event.what === 'start' ? text.begun(moment, event.initials, brine) : text.ended(moment, event.initials, brine);
}
