import { useState, type ReactNode } from 'react';
import type { Need, Point } from '../../app/contract/requests/smokehouse.ts';
import { useAsk, useCommand } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { PressButton } from '../parts/button.tsx';
import { Choices } from '../parts/choices.tsx';
import { Field, Pick } from '../parts/field.tsx';
import { useFormats } from '../parts/format.ts';
import { Leaf } from '../parts/leaf.tsx';
import { MomentField } from '../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';

const text = words.smokehouse.entry;

interface EnterReadingsProps {
  readonly points: readonly Point[];
  readonly needs: readonly Need[];
  onClose(): void;
}

/** One round of readings, one piece after another; stays open for the next round. */
export function EnterReadings({ points, needs, onClose }: EnterReadingsProps): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const office = useAsk('office.get', {});
  const enter = useCommand('readings.enter');
  const [values, setValues] = useState<Readonly<Record<string, string>>>({});
  const [atMs, setAtMs] = useState<number | null>(null);
  const [instrumentId, setInstrumentId] = useState('');
  const [how, setHow] = useState<'by-hand' | 'copied-from-paper'>('by-hand');
  const [kept, setKept] = useState<number | null>(null);
  const [nothing, setNothing] = useState(false);
  const typed = points.filter((point) => (values[point.id] ?? '').trim() !== '');
  const send = async (): Promise<void> => {
    setNothing(typed.length === 0);
    if (typed.length === 0) return;
    const moment = atMs ?? Date.now();
    const answer = await enter.send({
      how,
      readings: typed.map((point) => ({
        pointId: point.id,
        atMs: moment,
        value: { text: values[point.id] ?? '', unit: kitchen.temperatureUnit },
        instrumentId: instrumentId === '' ? point.instrumentId : instrumentId,
      })),
    });
    if (answer === null) return;
    setKept(answer.kept);
    setValues({});
  };
  return (
    <Leaf title={text.title} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="soft">{text.lead}</p>
        <div className="form-grid">
          {points.map((point, index) => {
            const need = needs.find((each) => each.pointId === point.id);
            const at = typed.indexOf(point);
            return (
              <Field
                key={point.id}
                label={point.name}
                kind="figure"
                unit={formats.degreeSign}
                autoFocus={index === 0}
                value={values[point.id] ?? ''}
                {...(need === undefined || need.lastTicks === null || need.lastAtMs === null ? {} : { help: text.last(formats.temperature(need.lastTicks), formats.clock(need.lastAtMs)) })}
                fault={at < 0 ? null : (faultOf(enter.failure, `readings.${at}.value.text`) ?? faultOf(enter.failure, `readings.${at}.value`))}
                onChange={(value) => setValues({ ...values, [point.id]: value })}
              />
            );
          })}
        </div>
        <MomentField key={kept ?? 'first'} label={text.when} value={null} fault={faultOf(enter.failure, 'readings.0.atMs')} onChange={setAtMs} />
        <div className="row">
          <Pick label={text.instrument} value={instrumentId} empty={text.own} choices={(office.data?.instruments ?? []).map((each) => ({ id: each.id, text: each.name }))} onChange={setInstrumentId} />
          <Choices label={text.how} value={how} choices={[{ id: 'by-hand', text: text.byHand }, { id: 'copied-from-paper', text: text.fromPaper }]} onChange={setHow} />
        </div>
        {nothing ? <p className="fault" role="alert">{text.nothing}</p> : null}
        {kept === null ? null : <p className="strong" role="status">{text.kept(kept)}</p>}
        <ProblemNote failure={enter.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={enter.busy}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.close}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
