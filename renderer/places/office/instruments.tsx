import { useState, type ReactNode } from 'react';
import type { Instrument } from '../../../app/contract/requests/office.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { AddSection } from './add-section.tsx';
import { InstrumentList } from './instrument-list.tsx';

const text = words.office;
const KINDS = ['wired-probe', 'hand-thermometer', 'logger', 'maximum-minimum'] as const;

/** The thermometers with their checks, and the form for one more. */
export function Instruments(): ReactNode {
  const { kitchen } = useKitchen();
  const add = useCommand('office.addInstrument');
  const [name, setName] = useState('');
  const [kind, setKind] = useState<Instrument['kind']>('wired-probe');
  const [error, setError] = useState('');
  const [resolution, setResolution] = useState('');
  const [accuracyClass, setAccuracyClass] = useState('');
  const unit = kitchen.temperatureUnit;
  const difference = (value: string) => (value.trim() === '' ? null : { value: value.trim(), unit });
  return (
    <AddSection
      title={text.instruments}
      addText={text.addInstrument}
      list={<InstrumentList />}
      form={(
        <>
          <Field label={text.name} value={name} fault={faultOf(add.failure, 'name')} onChange={setName} />
          <Choices label={text.kind} value={kind} choices={KINDS.map((id) => ({ id, text: text.kinds[id] }))} onChange={setKind} />
          <Field label={text.error} kind="figure" unit={`°${unit}`} value={error} fault={faultOf(add.failure, 'error.text') ?? faultOf(add.failure, 'error')} onChange={setError} />
          <Field label={words.instruments.resolution} kind="figure" unit={`°${unit}`} value={resolution} fault={faultOf(add.failure, 'resolution.value')} onChange={setResolution} />
          <Field label={words.instruments.accuracyClass} kind="figure" unit={`°${unit}`} value={accuracyClass} fault={faultOf(add.failure, 'accuracyClass.value')} onChange={setAccuracyClass} />
        </>
      )}
      failure={add.failure}
      busy={add.busy}
      onSend={async () => (await add.send({ name, kind, error: error.trim() === '' ? null : { text: error, unit }, resolution: difference(resolution), accuracyClass: difference(accuracyClass) })) !== null}
    />
  );
}
