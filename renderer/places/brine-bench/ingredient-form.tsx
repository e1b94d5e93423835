import { useState, type ReactNode } from 'react';
import type { Ingredient, IngredientDraft } from '../../../app/contract/requests/recipes.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices, Several } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { numberOf } from './recipe-target.ts';

const text = words.ingredients;
const FIELDS = ['servingGrams', 'sodiumMilligrams', 'fatGrams', 'carbohydrateGrams', 'sugarsGrams', 'proteinGrams', 'alcoholByVolumePercent', 'densityGramsPerMl'] as const;
type Facts = Readonly<Record<(typeof FIELDS)[number], string>>;
const NO_FACTS: Facts = { servingGrams: '', sodiumMilligrams: '', fatGrams: '', carbohydrateGrams: '', sugarsGrams: '', proteinGrams: '', alcoholByVolumePercent: '', densityGramsPerMl: '' };

interface FormProps {
  /** Null: a new one. */
  readonly ingredient: Ingredient | null;
  readonly all: readonly Ingredient[];
  onClose(): void;
}

/** An ingredient of the kitchen's own, from its package or as a mix of others. */
export function IngredientForm({ ingredient, all, onClose }: FormProps): ReactNode {
  const save = useCommand('ingredient.save');
  const [name, setName] = useState(ingredient?.name ?? '');
  const [labelName, setLabelName] = useState(ingredient?.labelName ?? '');
  const [parts, setParts] = useState(ingredient?.subIngredients.join(', ') ?? '');
  const [allergens, setAllergens] = useState<readonly string[]>(ingredient?.allergens ?? []);
  const [ground, setGround] = useState<'package' | 'mix'>(ingredient?.ground === 'mix' ? 'mix' : 'package');
  const [facts, setFacts] = useState<Facts>(NO_FACTS);
  const [mix, setMix] = useState<readonly { readonly id: string; readonly parts: string }[]>([]);
  const fault = (path: string): string | null => faultOf(save.failure, `draft.${path}`);
  const nameOf = (id: string): string => all.find((one) => one.id === id)?.name ?? id;
  const composition = (): IngredientDraft['composition'] =>
    ground === 'package' ? { ground, facts } : { ground, parts: mix.map((line) => ({ ingredientId: line.id, parts: numberOf(line.parts) ?? 0 })) };
  const send = async (): Promise<void> => {
    const draft: IngredientDraft = {
      name, labelName: labelName.trim() === '' ? name : labelName, allergens: [...allergens], mayContain: ingredient?.mayContain ?? [],
      subIngredients: parts.split(',').map((part) => part.trim()).filter((part) => part !== ''), composition: composition(),
    };
    if ((await save.send({ ingredientId: ingredient?.id ?? null, draft })) !== null) onClose();
  };
  return (
    <Leaf title={ingredient === null ? text.fresh : text.change(ingredient.name)} wide onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <div className="form-grid">
          <Field label={text.name} value={name} fault={fault('name')} onChange={setName} />
          <Field label={text.labelName} value={labelName} fault={fault('labelName')} onChange={setLabelName} />
        </div>
        <Choices label={text.ground} value={ground} choices={[{ id: 'package', text: text.grounds.package }, { id: 'mix', text: text.grounds.mix }]} onChange={setGround} />
        {ground === 'package' ? (
          <>
            <p className="soft">{text.packageLead}</p>
            <div className="form-grid">
              {FIELDS.map((field) => (
                <Field key={field} label={text.fields[field]} kind="figure" unit={text.units[field]} value={facts[field]} fault={fault(`composition.facts.${field}`)} onChange={(value) => setFacts({ ...facts, [field]: value })} />
              ))}
            </div>
            <Field label={text.subIngredients} value={parts} fault={fault('subIngredients')} onChange={setParts} />
            <p className="soft small">{text.allergens}</p>
            <Several label={text.allergens} values={allergens} choices={text.allergenChoices.map((id) => ({ id, text: id }))} onChange={setAllergens} />
          </>
        ) : (
          <>
            {mix.map((line, index) => (
              <div className="recipe-line" key={line.id}>
                <Field label={words.recipes.partsOf(nameOf(line.id))} kind="figure" value={line.parts} fault={fault(`composition.parts.${index}.parts`) ?? fault(`composition.parts.${index}.ingredientId`)} onChange={(value) => setMix(mix.map((each, at) => (at === index ? { ...each, parts: value } : each)))} />
                <PressButton look="quiet" label={words.recipes.takeOut(nameOf(line.id))} onPress={() => setMix(mix.filter((_, at) => at !== index))}>{words.parts.remove}</PressButton>
              </div>
            ))}
            <Pick
              label={words.recipes.addIngredient} value="" empty={words.taste.choose} fault={fault('composition.parts')}
              choices={all.filter((one) => one.id !== ingredient?.id && !mix.some((line) => line.id === one.id)).map((one) => ({ id: one.id, text: one.name }))}
              onChange={(id) => { if (id !== '') setMix([...mix, { id, parts: '' }]); }}
            />
          </>
        )}
        <ProblemNote failure={save.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={save.busy}>{text.save}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
