import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { PaperLinks } from '../../print/paper-links.tsx';
import { FromPaper, NO_PAPER, paperInput } from '../../readings/from-paper.tsx';
import { words } from '../../words/words.ts';
import { nextOfSoak } from '../../parts/soak-times.ts';

const bench = words.brineBench;
const text = bench.soakLog;

/** A soak that runs: turned and ended in one tap each, with the brine's temperature where it was taken. */
export function SoakRunning({ batch }: { readonly batch: Batch }): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const office = useAsk('office.get', {});
  const log = useCommand('soak.log');
  const [brine, setBrine] = useState('');
  const [room, setRoom] = useState('');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [paper, setPaper] = useState(NO_PAPER);
  const place = office.data?.places.find((one) => one.id === batch.brinePlaceId);
  const next = nextOfSoak(batch);
  const typed = (value: string) => (value.trim() === '' ? null : { text: value, unit: kitchen.temperatureUnit });
  const send = async (what: 'turn' | 'end'): Promise<void> => {
    const answer = await log.send({ batchId: batch.id, what, atMs: atMs ?? Date.now(), brine: typed(brine), room: typed(room), ...paperInput(paper) });
    if (answer === null) return;
    setBrine('');
    setRoom('');
    setAtMs(null);
  };
  return (
    <>
      {next === null ? null : <p className="strong">{next.what === 'turn' ? text.nextTurn(formats.moment(next.atMs)) : text.planEnd(formats.moment(next.atMs))}</p>}
      {place !== undefined && place.lastTicks !== null && place.lastAtMs !== null
        ? <p className="help">{text.roomNow(place.name, formats.temperature(place.lastTicks), formats.moment(place.lastAtMs))}</p>
        : <Field label={bench.roomTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={room} fault={faultOf(log.failure, 'room.text') ?? faultOf(log.failure, 'room')} onChange={setRoom} />}
      {batch.card.cure === 'dry' ? null : (
        <Field label={text.anotherTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={brine} fault={faultOf(log.failure, 'brine.text') ?? faultOf(log.failure, 'brine')} onChange={setBrine} />
      )}
      <MomentField key={batch.soak.length} label={bench.at} value={null} fault={faultOf(log.failure, 'atMs')} onChange={setAtMs} />
      <FromPaper answer={paper} fault={faultOf(log.failure, 'sheet')} onChange={setPaper} />
      <PaperLinks kinds={['soak']} subjectId={batch.id} />
      <ProblemNote failure={log.failure} />
      <div className="row">
        <PressButton isDisabled={log.busy} onPress={() => { void send('turn'); }}>{bench.turn}</PressButton>
        <PressButton look="next" isDisabled={log.busy} onPress={() => { void send('end'); }}>{bench.end}</PressButton>
      </div>
    </>
  );
}
