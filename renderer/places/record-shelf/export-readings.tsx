import { useState, type ReactNode } from 'react';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { saveFile } from '../../parts/save-file.ts';
import { words } from '../../words/words.ts';

const text = words.trace.exports;

/** Readings of a load or a place as a CSV file, at any time. */
export function ExportReadings(): ReactNode {
  const formats = useFormats();
  const loads = useAsk('load.list', {});
  const office = useAsk('office.get', {});
  const [of, setOf] = useState('');
  const [span, setSpan] = useState<'all' | 'days'>('all');
  const [days, setDays] = useState({ fromDay: '', toDay: '' });
  const { send, failure, busy } = useCommand('export.readings');
  const [made, setMade] = useState<{ readonly name: string; readonly rows: number } | null>(null);
  const choices = [
    ...(loads.data?.loads ?? []).map((load) => ({ id: `load ${load.id}`, text: text.load(load.number, formats.day(load.openedAtMs)) })),
    ...(office.data?.places ?? []).map((place) => ({ id: `place ${place.id}`, text: place.name })),
  ];
  const make = async (): Promise<void> => {
    const [kind = '', id = ''] = of.split(' ');
    const day = (typed: string): string | null => (span === 'all' || typed === '' ? null : typed);
    const file = await send({ of: kind === 'load' ? 'load' : 'place', id, fromDay: day(days.fromDay), toDay: day(days.toDay) });
    if (file === null) return;
    saveFile(file.fileName, file.text, 'text/csv');
    setMade({ name: file.fileName, rows: file.rows });
  };
  return (
    <section className="sheet stack">
      <h2>{text.readings}</h2>
      <p className="soft">{text.readingsLead}</p>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void make(); }}>
        <Pick label={text.of} value={of} empty={text.choose} choices={choices} onChange={setOf} />
        <Choices label={text.span} value={span} choices={[{ id: 'all', text: text.everything }, { id: 'days', text: text.days }]} onChange={setSpan} />
        {span === 'all' ? null : (
          <div className="row">
            <Field label={text.from} kind="date" value={days.fromDay} fault={faultOf(failure, 'fromDay')} onChange={(fromDay) => setDays({ ...days, fromDay })} />
            <Field label={text.to} kind="date" value={days.toDay} fault={faultOf(failure, 'toDay')} onChange={(toDay) => setDays({ ...days, toDay })} />
          </div>
        )}
        <ProblemNote failure={failure} />
        <div className="row"><PressButton type="submit" isDisabled={busy || of === ''}>{text.makeReadings}</PressButton></div>
      </form>
      {made === null ? null : <p role="status">{text.saved(made.name, made.rows)}</p>}
    </section>
  );
}
