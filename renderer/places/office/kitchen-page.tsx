import { useState, type ReactNode } from 'react';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { words } from '../../words/words.ts';
import { KitchenForm } from './kitchen-form.tsx';

const text = words.office;

/** What the kitchen is called, where it is and what it measures in. */
export function KitchenPage(): ReactNode {
  const { kitchen } = useKitchen();
  const [editing, setEditing] = useState(false);
  const { address } = kitchen;
  return (
    <section className="sheet stack">
      <h2>{text.kitchen}</h2>
      <p><b>{kitchen.name}</b>, {[address.street, address.city, address.region, address.postalCode].filter((part) => part !== '').join(', ')}</p>
      <p className="soft">{text.units(kitchen.temperatureUnit, kitchen.massUnit, kitchen.timeZone)}</p>
      <div><PressButton onPress={() => setEditing(true)}>{text.editKitchen}</PressButton></div>
      {editing ? <KitchenForm onClose={() => setEditing(false)} /> : null}
    </section>
  );
}
