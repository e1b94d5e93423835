import { useState, type ReactNode } from 'react';
import type { Paper, Scheduled } from '../../../app/contract/requests/papers.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { FormLeaf } from '../../parts/form-leaf.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { emptyScheduled, scheduledForm, scheduledInput, type ScheduledForm as Draft } from './scheduled-draft.ts';

const papersText = words.office.papersPages;
const text = papersText.scheduled;

interface ScheduledFormProps {
  /** The one to change; null for a new one. */
  readonly scheduled: Scheduled | null;
  readonly letters: readonly Paper[];
  onClose(): void;
}

/** The window of a process authority's letter, in figures. */
export function ScheduledForm({ scheduled, letters, onClose }: ScheduledFormProps): ReactNode {
  const { kitchen, onDuty } = useKitchen();
  const save = useCommand('scheduled.save');
  const recipes = useAsk('recipe.list', {}).data?.recipes ?? [];
  const unit = kitchen.temperatureUnit;
  const [form, setForm] = useState<Draft>(() => (scheduled === null ? emptyScheduled(letters.map(({ id }) => id), unit) : scheduledForm(scheduled, unit)));
  const set = (change: Partial<Draft>): void => setForm({ ...form, ...change });
  const fault = (path: string): string | null => faultOf(save.failure, `draft.${path}`);
  return (
    <FormLeaf
      title={text.addTitle} hindrance={onDuty?.role === 'manager' ? null : papersText.needManager} saveText={text.save} busy={save.busy} failure={save.failure}
      onSave={async () => (await save.send({ scheduledId: scheduled?.id ?? null, draft: scheduledInput(form) })) !== null} onClose={onClose}
    >
      <div className="form-grid">
        <Field label={text.name} value={form.name} fault={fault('name')} onChange={(name) => set({ name })} />
        <Pick label={text.letter} value={form.paperId} empty={papersText.chooseSpecies} fault={fault('paperId')} choices={letters.map((paper) => ({ id: paper.id, text: `${paper.what}, ${paper.number}` }))} onChange={(paperId) => set({ paperId })} />
        <Pick label={text.recipe} value={form.recipeId} empty={text.anyRecipe} fault={fault('recipeId')} choices={recipes.map((recipe) => ({ id: recipe.id, text: recipe.name }))} onChange={(recipeId) => set({ recipeId })} />
        {form.recipeId === '' ? null : <Field label={text.version} kind="figure" value={form.version} fault={fault('recipeVersion')} onChange={(version) => set({ version })} />}
      </div>
      <p className="soft">{text.emptyLimits}</p>
      <div className="form-grid">
        <Field label={text.ratio} kind="figure" value={form.ratio} fault={fault('ratioAtLeast')} onChange={(ratio) => set({ ratio })} />
        <Field label={text.thickness} kind="figure" unit="mm" value={form.thickness} fault={fault('thicknessMmAtMost')} onChange={(thickness) => set({ thickness })} />
        <Field label={text.soak} kind="figure" unit="h" value={form.soak} fault={fault('soakHoursAtLeast')} onChange={(soak) => set({ soak })} />
        <Field label={text.brine} kind="figure" unit={`°${form.brineUnit}`} value={form.brine} fault={fault('brineAtMost.text')} onChange={(brine) => set({ brine })} />
        <Field label={text.yield} kind="figure" unit="%" value={form.yield} fault={fault('yieldPercentAtMost')} onChange={(share) => set({ yield: share })} />
      </div>
      <div className="form-grid">
        <Field label={text.laboratory} value={form.laboratory} fault={fault('laboratory')} onChange={(laboratory) => set({ laboratory })} />
        <Field label={text.verifiedOn} kind="date" value={form.verifiedOn} fault={fault('verifiedOn')} onChange={(verifiedOn) => set({ verifiedOn })} />
        <Field label={text.verifiedUntil} kind="date" value={form.verifiedUntil} fault={fault('verifiedUntil')} onChange={(verifiedUntil) => set({ verifiedUntil })} />
      </div>
    </FormLeaf>
  );
}
