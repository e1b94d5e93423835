import { useState, type ReactNode } from 'react';
import type { LabResult } from '../../../app/contract/requests/verdict.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { dayInWords } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.packingTable;
const EMPTY = { sampledOn: '', sample: '', laboratory: '', saltPercent: '', moisturePercent: '', nitritePpm: '' };

/** Laboratory results on the batch: only these prove salt. */
export function LabPanel({ batchId, results }: { readonly batchId: string; readonly results: readonly LabResult[] }): ReactNode {
  const record = useCommand('lab.record');
  const [open, setOpen] = useState(false);
  const [form, setForm] = useState(EMPTY);
  const field = (key: keyof typeof EMPTY, label: string, unit?: string): ReactNode => (
    <Field
      label={label}
      kind={key === 'sampledOn' ? 'date' : unit === undefined ? 'text' : 'figure'}
      {...(unit === undefined ? {} : { unit })}
      value={form[key]}
      fault={faultOf(record.failure, key)}
      onChange={(value) => setForm({ ...form, [key]: value })}
    />
  );
  const send = async (): Promise<void> => {
    const answer = await record.send({ batchId, ...form, nitritePpm: form.nitritePpm.trim() === '' ? null : form.nitritePpm });
    if (answer === null) return;
    setForm(EMPTY);
    setOpen(false);
  };
  return (
    <section className="sheet stack">
      <h2>{text.lab}</h2>
      {results.length === 0 ? <p className="soft">{text.noLab}</p> : (
        <ul>
          {results.map((result) => (
            <li key={result.id}>
              {text.labLine(dayInWords(result.sampledOn), result.saltPercent, result.moisturePercent, result.waterPhasePercent.toFixed(2), result.nitritePpm === null ? '' : text.nitriteLine(result.nitritePpm))}
              <span className="soft small"> {result.laboratory}, {result.sample}</span>
            </li>
          ))}
        </ul>
      )}
      {open ? (
        <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
          <div className="form-grid">
            {field('saltPercent', text.salt, '%')}
            {field('moisturePercent', text.moisture, '%')}
            {field('nitritePpm', text.nitrite, 'ppm')}
            {field('sampledOn', text.sampledOn)}
            {field('sample', text.sample)}
            {field('laboratory', text.laboratory)}
          </div>
          <ProblemNote failure={record.failure} />
          <div className="row"><PressButton look="next" type="submit" isDisabled={record.busy}>{text.keepLab}</PressButton></div>
        </form>
      ) : <div><PressButton onPress={() => setOpen(true)}>{text.addLab}</PressButton></div>}
    </section>
  );
}
