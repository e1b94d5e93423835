import type { ReactNode } from 'react';
import type { Failure } from '../../../app/contract/envelope.ts';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { aimsAtFinished, gapWords, goalsOf, type BrineDraft, type BrineGap } from './brine-draft.ts';

const text = words.brineBench.more;

interface MoreProps {
  readonly draft: BrineDraft;
  readonly recipe: Recipe | null;
  readonly gaps: readonly BrineGap[];
  readonly failure: Failure | null;
  onChange(change: Partial<BrineDraft>): void;
}

/** What a usual batch doesn't ask for, folded away: how much brine, another goal, the thinnest piece, cups. */
export function MoreChoices({ draft, recipe, gaps, failure, onChange }: MoreProps): ReactNode {
  const fault = (gap: BrineGap, ...paths: readonly string[]): string | null =>
    gaps.includes(gap) ? gapWords(gap) : paths.map((path) => faultOf(failure, path)).find((each) => each !== null) ?? null;
  return (
    <details className="fold">
      <summary className="strong">{text.title}</summary>
      <div className="stack">
        <Field label={words.brineBench.thinnest} kind="figure" unit="mm" value={draft.thinnest} fault={fault('thinnest', 'thinnestMm')} onChange={(thinnest) => onChange({ thinnest })} />
        {recipe?.cure === 'dry' ? null : (
          <>
            <Choices label={text.size} value={draft.sizeBy} choices={(['recipe', 'ratio', 'tub'] as const).map((id) => ({ id, text: text.sizes[id] }))} onChange={(sizeBy) => onChange({ sizeBy })} />
            {draft.sizeBy === 'ratio' ? <Field label={text.ratio} kind="figure" value={draft.ratio} fault={fault('ratio', 'size.ratio')} onChange={(ratio) => onChange({ ratio })} /> : null}
            {draft.sizeBy === 'tub' ? (
              <div className="form-grid">
                <Field label={text.litres} kind="figure" unit={text.litresUnit} value={draft.litres} fault={fault('litres', 'size.litres')} onChange={(litres) => onChange({ litres })} />
                <Field label={text.headroom} kind="figure" unit="%" value={draft.headroom} fault={fault('headroom', 'size.headroomPercent')} onChange={(headroom) => onChange({ headroom })} />
              </div>
            ) : null}
          </>
        )}
        <GoalChoices draft={draft} recipe={recipe} fault={fault} onChange={onChange} />
        {recipe === null ? null : <SaltForms draft={draft} recipe={recipe} failure={failure} onChange={onChange} />}
      </div>
    </details>
  );
}

interface GoalProps extends Readonly<Omit<MoreProps, 'gaps' | 'failure'>> {
  fault(gap: BrineGap, ...paths: readonly string[]): string | null;
}

function GoalChoices({ draft, recipe, fault, onChange }: GoalProps): ReactNode {
  const { goal } = draft;
  const choices = (['recipe', ...goalsOf(recipe ?? { cure: 'wet' })] as const).map((id) => ({ id, text: text.goals[id] }));
  return (
    <>
      <Choices label={text.goal} value={goal} choices={choices} onChange={(next) => onChange({ goal: next })} />
      <div className="form-grid">
        {goal === 'recipe' ? null : <Field label={text.figures[goal]} kind="figure" value={draft.goalFigure} fault={fault('goalFigure', `target.${goal}`, 'target')} onChange={(goalFigure) => onChange({ goalFigure })} />}
        <Field label={text.yieldPercent} kind="figure" unit="%" help={text.yieldHelp} value={draft.yieldText} fault={fault('yieldText', 'target.yieldPercent', 'yieldPercent')} onChange={(yieldText) => onChange({ yieldText })} />
      </div>
      {recipe !== null && aimsAtFinished(draft, recipe) ? (
        <>
          <Choices label={text.aim} value={draft.aim} choices={[{ id: 'likely', text: text.aims.likely }, { id: 'low', text: text.aims.low }]} onChange={(aim) => onChange({ aim })} />
          {draft.aim === 'low' && draft.thickest.trim() === '' ? <p className="fault">{text.aimNeeds}</p> : null}
        </>
      ) : null}
    </>
  );
}

interface SaltProps extends Omit<MoreProps, 'gaps' | 'recipe'> {
  readonly recipe: Recipe;
}

/** Cups only of a crystal that the cook names: the same cup of another weighs up to twice as much. */
function SaltForms({ draft, recipe, failure, onChange }: SaltProps): ReactNode {
  const list = useAsk('ingredient.list', {});
  const forms = list.data?.ingredients.find((one) => one.id === recipe.saltIngredientId)?.forms ?? [];
  if (forms.length === 0) return null;
  return (
    <>
      <Pick label={text.salt} value={draft.saltFormId} empty={text.saltNone} choices={forms.map((form) => ({ id: form.id, text: form.name }))} fault={faultOf(failure, 'saltFormId')} onChange={(saltFormId) => onChange({ saltFormId })} />
      <p className="help">{text.saltWarning}</p>
    </>
  );
}
