import { useState, type ReactNode } from 'react';
import { localTime } from '../../../app/measures/zone.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices, Several } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { bytesOfBase64, saveFile } from '../../parts/save-file.ts';
import { words } from '../../words/words.ts';
import { ExportReadings } from './export-readings.tsx';
import { ShelfHead } from './shelf-head.tsx';

const text = words.trace.exports;
const YEAR_MS = 365 * 86_400_000;

/** Tables to carry out of the book: the events of traceability, and readings. */
export function ExportPage(): ReactNode {
  return (
    <>
      <ShelfHead title={text.title} lead={text.lead} here="exports" />
      <TraceTable />
      <ExportReadings />
    </>
  );
}

function TraceTable(): ReactNode {
  const { kitchen } = useKitchen();
  const [days, setDays] = useState(() => ({ fromDay: localTime(Date.now() - YEAR_MS, kitchen.timeZone).day, toDay: localTime(Date.now(), kitchen.timeZone).day }));
  const [form, setForm] = useState<'xlsx' | 'csv'>('xlsx');
  const [guests, setGuests] = useState<readonly string[]>([]);
  const { send, failure, busy } = useCommand('export.traceability');
  const [made, setMade] = useState<{ readonly name: string; readonly rows: number; readonly gaps: readonly string[] } | null>(null);
  const make = async (): Promise<void> => {
    const table = await send({ ...days, form, withGuests: guests.length > 0 });
    if (table === null) return;
    saveFile(table.fileName, bytesOfBase64(table.base64), table.mediaType);
    setMade({ name: table.fileName, rows: table.rows, gaps: table.gaps });
  };
  return (
    <section className="sheet stack">
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void make(); }}>
        <div className="row">
          <Field label={text.from} kind="date" value={days.fromDay} fault={faultOf(failure, 'fromDay')} onChange={(fromDay) => setDays({ ...days, fromDay })} />
          <Field label={text.to} kind="date" value={days.toDay} fault={faultOf(failure, 'toDay')} onChange={(toDay) => setDays({ ...days, toDay })} />
        </div>
        <Choices label={text.form} value={form} choices={(['xlsx', 'csv'] as const).map((id) => ({ id, text: text.forms[id] }))} onChange={setForm} />
        <Several label={text.guests} values={guests} choices={[{ id: 'guests', text: text.guests }]} onChange={setGuests} />
        <ProblemNote failure={failure} />
        <div className="row"><PressButton look="next" type="submit" isDisabled={busy}>{text.make}</PressButton></div>
      </form>
      {made === null ? null : <p role="status">{text.saved(made.name, made.rows)}</p>}
      {made === null || made.gaps.length === 0 ? null : (
        <div className="note caution">
          <p className="strong">{text.gaps}</p>
          <ul>{made.gaps.map((gap) => <li key={gap}>{gap}</li>)}</ul>
        </div>
      )}
    </section>
  );
}
