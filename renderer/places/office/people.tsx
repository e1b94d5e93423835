import { useState, type ReactNode } from 'react';
import type { Person } from '../../../app/contract/requests/office.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { AddSection } from './add-section.tsx';

const text = words.office;

export function People({ people }: { readonly people: readonly Person[] }): ReactNode {
  const add = useCommand('office.addPerson');
  const [initials, setInitials] = useState('');
  const [name, setName] = useState('');
  const [role, setRole] = useState<Person['role']>('hand');
  return (
    <AddSection
      title={text.people}
      addText={text.addPerson}
      list={<ul>{people.map((person) => <li key={person.id}><b>{person.initials}</b> {person.name} <span className="soft">{words.frame.roles[person.role]}</span></li>)}</ul>}
      form={(
        <>
          <div className="form-grid">
            <Field label={text.initials} value={initials} fault={faultOf(add.failure, 'initials')} onChange={setInitials} />
            <Field label={text.name} value={name} onChange={setName} />
          </div>
          <Choices label={text.role} value={role} choices={(['hand', 'chef', 'manager'] as const).map((id) => ({ id, text: words.frame.roles[id] }))} onChange={setRole} />
        </>
      )}
      failure={add.failure}
      busy={add.busy}
      onSend={async () => (await add.send({ initials, name, role })) !== null}
    />
  );
}
