import { useState, type ReactNode } from 'react';
import type { Instrument } from '../../../app/contract/requests/office.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { AddSection } from './add-section.tsx';

const text = words.office;
const KINDS = ['wired-probe', 'hand-thermometer', 'logger', 'maximum-minimum'] as const;

/** The thermometers, each with its error and where that comes from. */
export function Instruments({ instruments }: { readonly instruments: readonly Instrument[] }): ReactNode {
  const { kitchen } = useKitchen();
  const add = useCommand('office.addInstrument');
  const [name, setName] = useState('');
  const [kind, setKind] = useState<Instrument['kind']>('wired-probe');
  const [error, setError] = useState('');
  const unit = kitchen.temperatureUnit;
  return (
    <AddSection
      title={text.instruments}
      addText={text.addInstrument}
      list={<ul>{instruments.map((each) => <li key={each.id}><b>{each.name}</b> <span className="soft">{text.kinds[each.kind]}, {each.errorGround}</span></li>)}</ul>}
      form={(
        <>
          <Field label={text.name} value={name} fault={faultOf(add.failure, 'name')} onChange={setName} />
          <Choices label={text.kind} value={kind} choices={KINDS.map((id) => ({ id, text: text.kinds[id] }))} onChange={setKind} />
          <Field label={text.error} kind="figure" unit={`°${unit}`} value={error} fault={faultOf(add.failure, 'error.text') ?? faultOf(add.failure, 'error')} onChange={setError} />
        </>
      )}
      failure={add.failure}
      busy={add.busy}
      onSend={async () => (await add.send({ name, kind, error: error.trim() === '' ? null : { text: error, unit } })) !== null}
    />
  );
}
