import { useState, type ReactNode } from 'react';
import type { Input } from '../../app/contract/contract.ts';
import { useAsk, useCommand } from '../bridge/use-ask.ts';
import { PressButton } from '../parts/button.tsx';
import { Choices } from '../parts/choices.tsx';
import { Field, Pick } from '../parts/field.tsx';
import { faultOf, ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';

type Kitchen = Input<'book.start'>['kitchen'];
type Person = Input<'book.start'>['people'][number];

const HERE = Intl.DateTimeFormat().resolvedOptions().timeZone;
/** This computer's own zone first, which some lists leave out (UTC). */
const ZONES = [...new Set([HERE, ...Intl.supportedValuesOf('timeZone')])].map((id) => ({ id, text: id.replaceAll('_', ' ') }));
const GROUNDS = ['retailer-total-sales', 'retailer-food-sales', 'low-volume', 'very-small', 'small-pack'] as const;
const text = words.firstScreen;

function emptyKitchen(): Kitchen {
  return {
    name: '',
    address: { street: '', city: '', region: '', postalCode: '' },
    phone: '',
    timeZone: HERE,
    temperatureUnit: 'F',
    massUnit: 'lb',
    kind: 'custom-processor',
    decidingSetId: '',
    nutritionGround: undefined,
  };
}

/** Asks once for what every later screen knows. */
export function OwnBookForm({ onBack }: { onBack(): void }): ReactNode {
  const [kitchen, setKitchen] = useState(emptyKitchen);
  const [people, setPeople] = useState<readonly Person[]>([{ initials: '', name: '', role: 'manager' }]);
  const proposal = useAsk('book.propose', { kind: kitchen.kind, region: kitchen.address.region });
  const start = useCommand('book.start');
  const set = (change: Partial<Kitchen>): void => setKitchen({ ...kitchen, ...change });
  const setAddress = (change: Partial<Kitchen['address']>): void => set({ address: { ...kitchen.address, ...change } });
  const setPerson = (index: number, change: Partial<Person>): void => setPeople(people.map((person, at) => (at === index ? { ...person, ...change } : person)));
  const setId = kitchen.decidingSetId === '' ? (proposal.data?.setId ?? '') : kitchen.decidingSetId;
  const fault = (path: string): string | null => faultOf(start.failure, path);
  const hasManager = people.some((person) => person.role === 'manager');
  return (
    <form
      className="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void start.send({ kitchen: { ...kitchen, decidingSetId: setId }, people: [...people] });
      }}
    >
      <section className="sheet stack">
        <h2>{text.kitchenTitle}</h2>
        <div className="form-grid">
          <Field label={text.kitchenName} value={kitchen.name} fault={fault('kitchen.name')} onChange={(name) => set({ name })} />
          <Field label={text.street} value={kitchen.address.street} fault={fault('kitchen.address.street')} onChange={(street) => setAddress({ street })} />
          <Field label={text.city} value={kitchen.address.city} fault={fault('kitchen.address.city')} onChange={(city) => setAddress({ city })} />
          <Field label={text.region} value={kitchen.address.region} fault={fault('kitchen.address.region')} onChange={(region) => setAddress({ region })} />
          <Field label={text.postalCode} value={kitchen.address.postalCode} fault={fault('kitchen.address.postalCode')} onChange={(postalCode) => setAddress({ postalCode })} />
          <Field label={text.phone} value={kitchen.phone ?? ''} fault={fault('kitchen.phone')} onChange={(phone) => set({ phone })} />
          <Pick label={text.timeZone} value={kitchen.timeZone} choices={ZONES} fault={fault('kitchen.timeZone')} onChange={(timeZone) => set({ timeZone })} />
        </div>
        <div className="row">
          <Choices label={text.temperature} value={kitchen.temperatureUnit} choices={[{ id: 'F', text: '°F' }, { id: 'C', text: '°C' }]} onChange={(temperatureUnit) => set({ temperatureUnit })} />
          <Choices label={text.mass} value={kitchen.massUnit} choices={[{ id: 'lb', text: 'lb' }, { id: 'kg', text: 'kg' }]} onChange={(massUnit) => set({ massUnit })} />
        </div>
        <Choices
          label={text.kind}
          value={kitchen.kind}
          choices={(['food-service', 'seller', 'custom-processor', 'home'] as const).map((id) => ({ id, text: text.kinds[id] }))}
          onChange={(kind) => set({ kind, decidingSetId: '' })}
        />
        {kitchen.kind === 'home' ? null : (
          <Pick
            label={text.nutrition}
            value={kitchen.nutritionGround ?? ''}
            empty={text.nutritionNone}
            choices={GROUNDS.map((id) => ({ id, text: text.nutritionGrounds[id] }))}
            onChange={(ground) => set({ nutritionGround: GROUNDS.find((id) => id === ground) })}
          />
        )}
        {proposal.data === undefined ? null : (
          <div className="stack">
            <Pick
              label={text.setTitle}
              value={setId}
              choices={proposal.data.choices.map((choice) => ({ id: choice.setId, text: choice.name + (choice.mayDecide ? '' : text.mayNotDecide) }))}
              fault={fault('kitchen.decidingSetId')}
              onChange={(decidingSetId) => set({ decidingSetId })}
            />
            <p className="help">{proposal.data.why}</p>
          </div>
        )}
      </section>
      <section className="sheet stack">
        <h2>{text.peopleTitle}</h2>
        <p className="help">{hasManager ? text.peopleNote : text.needManager}</p>
        {people.map((person, index) => (
          <div className="form-grid" key={index}>
            <Field label={text.initials} value={person.initials} fault={fault(`people.${index}.initials`)} onChange={(initials) => setPerson(index, { initials })} />
            <Field label={text.personName} value={person.name} onChange={(name) => setPerson(index, { name })} />
            <Choices
              label={text.role}
              value={person.role}
              choices={(['hand', 'chef', 'manager'] as const).map((id) => ({ id, text: words.frame.roles[id] }))}
              onChange={(role) => setPerson(index, { role })}
            />
          </div>
        ))}
        <div className="row">
          <PressButton onPress={() => setPeople([...people, { initials: '', name: '', role: 'hand' }])}>{text.addPerson}</PressButton>
        </div>
      </section>
      <ProblemNote failure={start.failure} />
      <div className="row">
        <PressButton look="next" type="submit" isDisabled={start.busy}>{text.start}</PressButton>
        <PressButton onPress={onBack}>{words.parts.back}</PressButton>
      </div>
    </form>
  );
}
