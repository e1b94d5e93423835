import { useState, type ReactNode } from 'react';
import type { Place } from '../../../app/contract/requests/office.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { AddSection } from './add-section.tsx';

const text = words.office;
const KINDS = ['brining-room', 'cooler', 'freezer'] as const;

export function ColdPlaces({ places }: { readonly places: readonly Place[] }): ReactNode {
  const add = useCommand('office.addPlace');
  const [name, setName] = useState('');
  const [kind, setKind] = useState<Place['kind']>('cooler');
  return (
    <AddSection
      title={text.places}
      addText={text.addPlace}
      list={<ul>{places.map((place) => <li key={place.id}><b>{place.name}</b> <span className="soft">{text.placeKinds[place.kind]}</span></li>)}</ul>}
      form={(
        <>
          <Field label={text.name} value={name} fault={faultOf(add.failure, 'name')} onChange={setName} />
          <Choices label={text.kind} value={kind} choices={KINDS.map((id) => ({ id, text: text.placeKinds[id] }))} onChange={setKind} />
        </>
      )}
      failure={add.failure}
      busy={add.busy}
      onSend={async () => (await add.send({ name, kind })) !== null}
    />
  );
}
