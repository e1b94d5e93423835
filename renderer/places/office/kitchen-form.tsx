import { useState, type ReactNode } from 'react';
import type { Kitchen, KitchenDraft } from '../../../app/contract/requests/office.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { FormLeaf } from '../../parts/form-leaf.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.office;
const first = words.firstScreen;
/** How far weights may be off before it is asked why, in per cent. */
const TOLERANCES = [0.5, 1, 2, 3, 5, 10] as const;
const GROUNDS = ['retailer-total-sales', 'retailer-food-sales', 'low-volume', 'very-small', 'small-pack'] as const;

/** Mends what the kitchen is called, where it is, when it closes, its paper on nitrite and why packs carry no Nutrition Facts. */
export function KitchenForm({ onClose }: { onClose(): void }): ReactNode {
  const { kitchen, onDuty } = useKitchen();
  const save = useCommand('office.saveKitchen');
  const [draft, setDraft] = useState<KitchenDraft>(() => draftOf(kitchen));
  const set = (change: Partial<KitchenDraft>): void => setDraft({ ...draft, ...change });
  const setAddress = (change: Partial<KitchenDraft['address']>): void => set({ address: { ...draft.address, ...change } });
  const fault = (path: string): string | null => faultOf(save.failure, path);
  return (
    <FormLeaf
      title={text.editKitchen} hindrance={onDuty?.role === 'manager' ? null : text.needManagerHere} saveText={text.save} busy={save.busy} failure={save.failure}
      onSave={async () => (await save.send(draft)) !== null} onClose={onClose}
    >
      <div className="form-grid">
        <Field label={first.kitchenName} value={draft.name} fault={fault('name')} onChange={(name) => set({ name })} />
        <Field label={first.street} value={draft.address.street} fault={fault('address.street')} onChange={(street) => setAddress({ street })} />
        <Field label={first.city} value={draft.address.city} fault={fault('address.city')} onChange={(city) => setAddress({ city })} />
        <Field label={first.region} value={draft.address.region} fault={fault('address.region')} onChange={(region) => setAddress({ region })} />
        <Field label={first.postalCode} value={draft.address.postalCode} fault={fault('address.postalCode')} onChange={(postalCode) => setAddress({ postalCode })} />
        <Field label={first.phone} value={draft.phone ?? ''} fault={fault('phone')} onChange={(phone) => set({ phone })} />
        <Field label={text.closesAt} kind="time" value={draft.closesAt ?? ''} fault={fault('closesAt')} onChange={(closesAt) => set({ closesAt: closesAt === '' ? undefined : closesAt })} />
        <Field label={text.nitriteGround} help={text.nitriteHelp} value={draft.nitriteGround ?? ''} fault={fault('nitriteGround')} onChange={(nitriteGround) => set({ nitriteGround })} />
      </div>
      <Pick
        label={first.nutrition}
        value={draft.nutritionGround ?? ''}
        empty={first.nutritionNone}
        choices={GROUNDS.map((id) => ({ id, text: first.nutritionGrounds[id] }))}
        onChange={(ground) => set({ nutritionGround: GROUNDS.find((id) => id === ground) })}
      />
      <Pick
        label={text.tolerance}
        value={String(draft.weightTolerancePercent ?? 2)}
        choices={TOLERANCES.map((percent) => ({ id: String(percent), text: text.tolerancePercent(percent) }))}
        onChange={(percent) => set({ weightTolerancePercent: Number(percent) })}
      />
    </FormLeaf>
  );
}

function draftOf(kitchen: Kitchen): KitchenDraft {
  const { demo: _demo, labels: _labels, ...draft } = kitchen;
  return draft;
}
