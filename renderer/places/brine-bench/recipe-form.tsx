import { useState, type ReactNode } from 'react';
import type { Recipe, RecipeDraft } from '../../../app/contract/requests/recipes.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { DRY_TARGETS, numberOf, targetFields, targetOf, WET_TARGETS, type TargetForm } from './recipe-target.ts';
import { readHours } from './taste-weights.ts';

const text = words.recipes;
const PROCESSES = ['hot', 'cold', 'either'] as const;

interface Line {
  readonly id: string;
  readonly parts: string;
}

/** A new recipe, or the next version of one. What was typed stays until it is kept. */
export function RecipeForm({ recipe, onClose }: { readonly recipe: Recipe | null; onClose(): void }): ReactNode {
  const save = useCommand('recipe.save');
  const list = useAsk('ingredient.list', {});
  const first = recipe === null ? { form: 'brineSalometer' as TargetForm, figure: '', yieldPercent: '' } : targetFields(recipe.target);
  const [name, setName] = useState(recipe?.name ?? '');
  const [cure, setCure] = useState<'wet' | 'dry'>(recipe?.cure ?? 'wet');
  const [process, setProcess] = useState<(typeof PROCESSES)[number]>(recipe?.process ?? 'either');
  const [lines, setLines] = useState<readonly Line[]>(recipe?.ingredients.map((line) => ({ id: line.id, parts: String(line.parts) })) ?? [{ id: 'water', parts: '100' }, { id: 'salt', parts: '8' }]);
  const [saltId, setSaltId] = useState(recipe?.saltIngredientId ?? 'salt');
  const [form, setForm] = useState<TargetForm>(first.form);
  const [figure, setFigure] = useState(first.figure);
  const [yieldText, setYieldText] = useState(first.yieldPercent);
  const [ratio, setRatio] = useState(String(recipe?.ratio ?? 1));
  const [soak, setSoak] = useState(recipe === null ? '' : String(recipe.soakHours));
  const [turns, setTurns] = useState(recipe?.turnHours.join(', ') ?? '');
  const [note, setNote] = useState(recipe?.note ?? '');
  const [why, setWhy] = useState('');
  const [unread, setUnread] = useState(false);
  const names = new Map((list.data?.ingredients ?? []).map((one) => [one.id, one.name]));
  const nameOf = (id: string): string => names.get(id) ?? id;
  const targets: readonly TargetForm[] = cure === 'wet' ? WET_TARGETS : DRY_TARGETS;
  const fault = (path: string): string | null => faultOf(save.failure, `draft.${path}`);
  const chooseCure = (next: 'wet' | 'dry'): void => {
    setCure(next);
    if (!(next === 'wet' ? WET_TARGETS : DRY_TARGETS).some((one) => one === form)) setForm(next === 'wet' ? 'brineSalometer' : 'curePerFishPercent');
  };
  const draft = (): RecipeDraft | null => {
    const target = targetOf(form, figure, yieldText);
    const [turnHours, soakHours, ratioFigure] = [readHours(turns), numberOf(soak), numberOf(ratio)];
    const parts = lines.map((line) => ({ id: line.id, parts: numberOf(line.parts) }));
    if (target === null || turnHours === null || soakHours === null || ratioFigure === null || parts.some((line) => line.parts === null)) return null;
    return { name, cure, process, target, turnHours, soakHours, ratio: ratioFigure, saltIngredientId: saltId, note, ingredients: parts.map((line) => ({ id: line.id, parts: line.parts ?? 0 })) };
  };
  const send = async (): Promise<void> => {
    const read = draft();
    setUnread(read === null);
    if (read === null) return;
    const answer = await save.send({ recipeId: recipe?.id ?? null, draft: read, why });
    if (answer === null) return;
    onClose();
    go(addressOf('brine-bench', 'recipes', answer.recipe.id));
  };
  const change = (index: number, parts: string): void => setLines(lines.map((line, at) => (at === index ? { ...line, parts } : line)));
  return (
    <Leaf title={recipe === null ? text.fresh : text.change} wide onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <Field label={text.name} value={name} fault={fault('name')} onChange={setName} />
        <div className="row">
          <Choices label={text.cure} value={cure} choices={[{ id: 'wet', text: text.cures.wet }, { id: 'dry', text: text.cures.dry }]} onChange={chooseCure} />
          <Choices label={text.process} value={process} choices={PROCESSES.map((id) => ({ id, text: text.processChoices[id] }))} onChange={setProcess} />
        </div>
        <h2>{text.ingredients}</h2>
        {lines.map((line, index) => (
          <div className="recipe-line" key={line.id}>
            <Field label={text.partsOf(nameOf(line.id))} kind="figure" value={line.parts} fault={fault(`ingredients.${index}.parts`) ?? fault(`ingredients.${index}.id`)} onChange={(parts) => change(index, parts)} />
            <PressButton look="quiet" label={text.takeOut(nameOf(line.id))} onPress={() => setLines(lines.filter((_, at) => at !== index))}>{words.parts.remove}</PressButton>
          </div>
        ))}
        <Pick
          label={text.addIngredient} value="" empty={words.taste.choose} fault={fault('ingredients')}
          choices={[...names].filter(([id]) => !lines.some((line) => line.id === id)).map(([id, each]) => ({ id, text: each }))}
          onChange={(id) => { if (id !== '') setLines([...lines, { id, parts: '' }]); }}
        />
        <div className="form-grid">
          <Pick label={text.salt} value={saltId} choices={lines.map((line) => ({ id: line.id, text: nameOf(line.id) }))} fault={fault('saltIngredientId')} onChange={setSaltId} />
          <Pick label={text.target} value={form} choices={targets.map((id) => ({ id, text: text.targetKinds[id] }))} onChange={(id) => { const next = targets.find((one) => one === id); if (next !== undefined) setForm(next); }} />
          <Field label={text.figure} kind="figure" value={figure} fault={fault(`target.${form}`) ?? fault('target')} onChange={setFigure} />
          {form === 'finishedWaterPhasePercent' ? <Field label={text.yieldPercent} kind="figure" unit="%" value={yieldText} fault={fault('target.yieldPercent')} onChange={setYieldText} /> : null}
          {cure === 'wet' ? <Field label={text.ratio} kind="figure" value={ratio} fault={fault('ratio')} onChange={setRatio} /> : null}
          <Field label={text.soakHours} kind="figure" unit={text.hours} value={soak} fault={fault('soakHours')} onChange={setSoak} />
        </div>
        <Field label={text.turnHours} value={turns} fault={fault('turnHours')} onChange={setTurns} />
        <Field label={text.note} value={note} fault={fault('note')} onChange={setNote} />
        {recipe === null ? null : <Field label={text.why} value={why} fault={faultOf(save.failure, 'why')} onChange={setWhy} />}
        {unread ? <p className="fault" role="alert">{text.notANumber}</p> : null}
        <ProblemNote failure={save.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={save.busy}>{recipe === null ? text.save : text.saveVersion(recipe.version + 1)}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
