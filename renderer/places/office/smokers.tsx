import { useState, type ReactNode } from 'react';
import type { Instrument, Smoker } from '../../../app/contract/requests/office.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { Several } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
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
  const choices = instruments.map((each) => ({ id: each.id, text: each.name }));
  return (
    <AddSection
      title={text.smokers}
      addText={text.addSmoker}
      list={<ul>{smokers.map((smoker) => <li key={smoker.id}><b>{smoker.name}</b> <span className="soft">{text.smokerLine(smoker.probeIds.length)}</span></li>)}</ul>}
      form={(
        <>
          <Field label={text.name} value={name} fault={faultOf(add.failure, 'name')} onChange={setName} />
          <Pick label={text.chamber} value={chamber} empty={text.none} choices={choices} onChange={setChamber} />
          <Several label={text.probes} values={probes} choices={choices} onChange={setProbes} />
        </>
      )}
      failure={add.failure}
      busy={add.busy}
      onSend={async () => (await add.send({ name, chamberInstrumentId: chamber === '' ? null : chamber, probeIds: [...probes] })) !== null}
    />
  );
}
