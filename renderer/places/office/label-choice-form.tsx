import { useState, type ReactNode } from 'react';
import { OPTIONAL_ELEMENTS, type LabelChoice, type LabelChoiceDraft } from '../../../app/contract/requests/label-choice.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Choices, Several } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { FormLeaf } from '../../parts/form-leaf.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { choiceInput, draftOfChoice } from './label-draft.ts';
import { LabelMarkField } from './label-mark-field.tsx';

const text = words.labels.office;
const UNITS = ['in', 'mm'] as const;
const ROLES = ['maker', 'packed-for', 'distributed-by'] as const;

/** Chooses how labels look; what the rules ask is no choice. */
export function LabelChoiceForm({ choice, onClose }: { readonly choice: LabelChoice; onClose(): void }): ReactNode {
  const { kitchen, onDuty } = useKitchen();
  const save = useCommand('label.choose');
  const [draft, setDraft] = useState<LabelChoiceDraft>(() => draftOfChoice(choice, kitchen.massUnit === 'lb' ? 'in' : 'mm'));
  const set = (change: Partial<LabelChoiceDraft>): void => setDraft({ ...draft, ...change });
  const pouch = draft.pouch ?? { width: '', height: '', unit: 'in' as const };
  const fault = (path: string): string | null => faultOf(save.failure, path);
  return (
    <FormLeaf
      title={text.change} hindrance={onDuty?.role === 'manager' ? null : text.needManager} saveText={text.save} busy={save.busy} failure={save.failure}
      onSave={async () => (await save.send(choiceInput(draft))) !== null} onClose={onClose}
    >
      <fieldset className="stack label-fields">
        <legend className="strong">{text.pouch}</legend>
        <p className="help">{text.pouchHelp}</p>
        <div className="form-grid">
          <Field label={text.width} kind="figure" value={pouch.width} fault={fault('pouch.width')} onChange={(width) => set({ pouch: { ...pouch, width } })} />
          <Field label={text.height} kind="figure" value={pouch.height} fault={fault('pouch.height')} onChange={(height) => set({ pouch: { ...pouch, height } })} />
          <Choices label={text.unit} value={pouch.unit} choices={UNITS.map((id) => ({ id, text: text.units[id] }))} onChange={(unit) => set({ pouch: { ...pouch, unit } })} />
        </div>
      </fieldset>
      <Choices label={text.seen} value={draft.fishHidden ? 'hidden' : 'seen'} choices={(['hidden', 'seen'] as const).map((id) => ({ id, text: text.seenChoices[id] }))} onChange={(id) => set({ fishHidden: id === 'hidden' })} />
      <div className="field">
        <span className="label soft small">{text.optional}</span>
        <Several label={text.optional} values={draft.optional} choices={OPTIONAL_ELEMENTS.map((id) => ({ id, text: text.elements[id] }))} onChange={(ids) => set({ optional: OPTIONAL_ELEMENTS.filter((id) => ids.includes(id)) })} />
        <p className="help">{text.optionalHelp}</p>
      </div>
      <LabelMarkField mark={draft.mark} fault={fault('mark') ?? fault('mark.text')} onChange={(mark) => set({ mark })} />
      <Choices label={text.language} value={draft.secondLanguage ?? 'en'} choices={(['en', 'fr'] as const).map((id) => ({ id, text: text.languages[id] }))} onChange={(id) => set({ secondLanguage: id === 'fr' ? 'fr' : null })} />
      <p className="help">{text.languageHelp}</p>
      <Choices label={text.printer} value={String(draft.dpi)} choices={([203, 300] as const).map((dpi) => ({ id: String(dpi), text: text.dpi[dpi] }))} onChange={(id) => set({ dpi: id === '300' ? 300 : 203 })} />
      <Choices label={text.symbol} value={draft.symbol} choices={(['datamatrix', 'qr'] as const).map((id) => ({ id, text: text.symbols[id] }))} onChange={(symbol) => set({ symbol })} />
      <Field label={text.gtin} help={text.gtinHelp} value={draft.gtin} fault={fault('gtin')} onChange={(gtin) => set({ gtin })} />
      <Choices label={text.role} value={draft.role} choices={ROLES.map((id) => ({ id, text: text.roles[id] }))} onChange={(role) => set({ role })} />
    </FormLeaf>
  );
}
