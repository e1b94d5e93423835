import { useState, type ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { words } from '../../words/words.ts';
import { Backup } from './backup.tsx';
import { ColdPlaces } from './cold-places.tsx';
import { Instruments } from './instruments.tsx';
import { KitchenForm } from './kitchen-form.tsx';
import { Limits } from './limits.tsx';
import { People } from './people.tsx';
import { Smokers } from './smokers.tsx';

const text = words.office;

/** The office: people, thermometers, smokers, cold places, limits, backup. */
export function Office(): ReactNode {
  const { kitchen } = useKitchen();
  const office = useAsk('office.get', {});
  const [editing, setEditing] = useState(false);
  if (office.data === undefined) return null;
  const { people, instruments, smokers, places } = office.data;
  const { address } = kitchen;
  return (
    <>
      <div className="spread">
        <div>
          <h1>{text.title}</h1>
          <p className="soft">
            {kitchen.name}, {[address.street, address.city, address.region, address.postalCode].filter((part) => part !== '').join(', ')};{' '}
            {text.units(kitchen.temperatureUnit, kitchen.massUnit, kitchen.timeZone)}
          </p>
        </div>
        <PressButton onPress={() => setEditing(true)}>{text.editKitchen}</PressButton>
      </div>
      {editing ? <KitchenForm onClose={() => setEditing(false)} /> : null}
      <div className="halves">
        <People people={people} />
        <Instruments instruments={instruments} />
        <Smokers smokers={smokers} instruments={instruments} />
        <div className="stack">
          <ColdPlaces places={places} />
          <Backup />
        </div>
      </div>
      <Limits />
    </>
  );
}
