import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { readThicknessMm } from '../../parts/thickness.ts';
import { FromPaper, NO_PAPER, paperInput } from '../../readings/from-paper.tsx';
import { words } from '../../words/words.ts';
import { MOST_MM } from './brine-draft.ts';

const text = words.brineBench.forecast;

/** A piece out of this brine that was analysed: the forecast learns from it. */
export function SampleForm({ batch, onClose }: { readonly batch: Batch; onClose(): void }): ReactNode {
  const sample = useCommand('soak.sample');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [paper, setPaper] = useState(NO_PAPER);
  const [thickness, setThickness] = useState('');
  const [isUnread, setUnread] = useState(false);
  const [salt, setSalt] = useState('');
  const [moisture, setMoisture] = useState('');
  const [how, setHow] = useState<'laboratory' | 'titration'>('titration');
  const send = async (): Promise<void> => {
    const thicknessMm = readThicknessMm(thickness, MOST_MM);
    setUnread(thicknessMm === null);
    if (thicknessMm === null) return;
    const answer = await sample.send({ batchId: batch.id, takenAtMs: atMs ?? Date.now(), thicknessMm, saltPercent: salt, moisturePercent: moisture, how, ...paperInput(paper) });
    if (answer !== null) onClose();
  };
  return (
    <Leaf title={text.add} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="soft">{text.addLead}</p>
        <MomentField label={text.takenAt} value={null} fault={faultOf(sample.failure, 'takenAtMs')} onChange={setAtMs} />
        <div className="form-grid">
          <Field label={text.thickness} kind="figure" unit="mm" value={thickness} fault={isUnread ? words.parts.thicknessFault(MOST_MM) : faultOf(sample.failure, 'thicknessMm')} onChange={setThickness} />
          <Field label={text.salt} kind="figure" unit="%" value={salt} fault={faultOf(sample.failure, 'saltPercent')} onChange={setSalt} />
          <Field label={text.moisture} kind="figure" unit="%" value={moisture} fault={faultOf(sample.failure, 'moisturePercent')} onChange={setMoisture} />
        </div>
        <Choices label={text.how} value={how} choices={[{ id: 'titration', text: text.hows.titration }, { id: 'laboratory', text: text.hows.laboratory }]} onChange={setHow} />
        <FromPaper answer={paper} fault={faultOf(sample.failure, 'sheet')} onChange={setPaper} />
        <ProblemNote failure={sample.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={sample.busy}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
