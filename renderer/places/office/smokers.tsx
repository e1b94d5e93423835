import { useState, type ReactNode } from 'react';
import type { Instrument, Smoker } from '../../../app/contract/requests/office.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Several } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { AddSection } from './add-section.tsx';

const text = words.office;

interface SmokersProps {
  readonly smokers: readonly Smoker[];
  readonly instruments: readonly Instrument[];
}

export function Smokers({ smokers, instruments }: SmokersProps): ReactNode {
  const add = useCommand('office.addSmoker');
  const [name, setName] = useState('');
  const [chamber, setChamber] = useState('');
  const [probes, setProbes] = useState<readonly string[]>([]);
  const [coldestPlace, setColdestPlace] = useState('');
  const [warmestPlace, setWarmestPlace] = useState('');
  const [largest, setLargest] = useState('');
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const unit = kitchen.massUnit;
  const line = (smoker: Smoker): string => [
    text.smokerLine(smoker.probeIds.length),
    ...(smoker.coldestPlace === '' ? [] : [text.coldest(smoker.coldestPlace)]),
    ...(smoker.warmestPlace === '' ? [] : [text.warmest(smoker.warmestPlace)]),
    ...(smoker.largestLoadGrams === null ? [] : [text.loadAtMost(formats.mass(smoker.largestLoadGrams))]),
  ].join('; ');
  const choices = instruments.map((each) => ({ id: each.id, text: each.name }));
  return (
    <AddSection
      title={text.smokers}
      addText={text.addSmoker}
      list={<ul>{smokers.map((smoker) => <li key={smoker.id}><b>{smoker.name}</b> <span className="soft">{line(smoker)}</span></li>)}</ul>}
      form={(
        <>
          <Field label={text.name} value={name} fault={faultOf(add.failure, 'name')} onChange={setName} />
          <Pick label={text.chamber} value={chamber} empty={text.none} choices={choices} onChange={setChamber} />
          <Several label={text.probes} values={probes} choices={choices} onChange={setProbes} />
          <div className="form-grid">
            <Field label={text.coldestPlace} value={coldestPlace} fault={faultOf(add.failure, 'coldestPlace')} onChange={setColdestPlace} />
            <Field label={text.warmestPlace} value={warmestPlace} fault={faultOf(add.failure, 'warmestPlace')} onChange={setWarmestPlace} />
            <Field label={text.largestLoad} kind="figure" unit={unit} value={largest} fault={faultOf(add.failure, 'largestLoad.text')} onChange={setLargest} />
          </div>
        </>
      )}
      failure={add.failure}
      busy={add.busy}
      onSend={async () => (await add.send({ name, chamberInstrumentId: chamber === '' ? null : chamber, probeIds: [...probes], coldestPlace, warmestPlace, largestLoad: largest.trim() === '' ? null : { text: largest, unit } })) !== null}
    />
  );
}
