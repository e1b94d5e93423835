import { useState, type ReactNode } from 'react';
import type { Ingredient } from '../../../app/contract/requests/recipes.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { IngredientForm } from './ingredient-form.tsx';
import './taste.css';

const text = words.ingredients;

/** Every ingredient with its figures and where they come from; the kitchen's own first. */
export function IngredientShelf(_place: { readonly rest: readonly string[] }): ReactNode {
  const list = useAsk('ingredient.list', {});
  const [find, setFind] = useState('');
  const [open, setOpen] = useState<Ingredient | 'new' | null>(null);
  if (list.data === undefined) return <ProblemNote failure={failureOf(list.error)} />;
  const wanted = find.trim().toLowerCase();
  const found = list.data.ingredients.filter((one) => one.name.toLowerCase().includes(wanted));
  const [own, listed] = [found.filter((one) => one.ground !== 'list'), found.filter((one) => one.ground === 'list')];
  return (
    <>
      <div className="spread">
        <div>
          <h1>{text.title}</h1>
          <p className="soft">{text.lead}</p>
        </div>
        <PressButton onPress={() => setOpen('new')}>{text.fresh}</PressButton>
      </div>
      <Field label={text.find} value={find} onChange={setFind} />
      {own.length === 0 ? null : <IngredientList title={text.own} ingredients={own} onChange={setOpen} />}
      {listed.length === 0 ? null : <IngredientList title={text.list} ingredients={listed} />}
      {open === null ? null : <IngredientForm ingredient={open === 'new' ? null : open} all={list.data.ingredients} onClose={() => setOpen(null)} />}
    </>
  );
}

interface ListProps {
  readonly title: string;
  readonly ingredients: readonly Ingredient[];
  onChange?(ingredient: Ingredient): void;
}

function IngredientList({ title, ingredients, onChange }: ListProps): ReactNode {
  return (
    <section className="sheet stack">
      <h2>{title}</h2>
      {ingredients.map((one) => (
        <div key={one.id} className="limit-row">
          <div>
            <p>
              <b>{one.name}</b>: {text.figures(plain(one.waterPercent), plain(one.saltPercent), plain(one.sugarPercent))}
              {one.alcoholPercent > 0 ? `, ${text.alcohol(plain(one.alcoholPercent))}` : ''}
            </p>
            {one.hasNitrite ? <p className="strong">{text.nitrite}</p> : null}
            {one.allergens.length === 0 ? null : <p>{text.contains(one.allergens.join(', '))}</p>}
            {one.mayContain.length === 0 ? null : <p>{text.mayContain(one.mayContain.join(', '))}</p>}
            <p className="soft small">{one.source}</p>
          </div>
          {onChange === undefined ? null : <PressButton label={`${words.recipes.change}: ${one.name}`} onPress={() => onChange(one)}>{words.recipes.change}</PressButton>}
        </div>
      ))}
    </section>
  );
}

function plain(percent: number): string {
  return String(Math.round(percent * 100) / 100);
}
