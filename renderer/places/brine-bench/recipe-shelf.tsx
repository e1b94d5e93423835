import { useState, type ReactNode } from 'react';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { RecipeExport, RecipeImport } from './recipe-files.tsx';
import { RecipeForm } from './recipe-form.tsx';
import { sayTarget } from './recipe-target.ts';
import './taste.css';

const text = words.recipes;

/** The kitchen's recipes, or one of them with its versions. */
export function RecipeShelf({ rest }: { readonly rest: readonly string[] }): ReactNode {
  const [recipeId] = rest;
  const list = useAsk('recipe.list', {});
  if (list.data === undefined) return <ProblemNote failure={failureOf(list.error)} />;
  const { recipes } = list.data;
  const shown = recipes.find((recipe) => recipe.id === recipeId);
  return shown === undefined ? <AllRecipes recipes={recipes} /> : <OneRecipe recipe={shown} key={shown.id} />;
}

function AllRecipes({ recipes }: { readonly recipes: readonly Recipe[] }): ReactNode {
  const [open, setOpen] = useState<'new' | 'import' | null>(null);
  return (
    <>
      <div className="spread">
        <div>
          <h1>{text.title}</h1>
          <p className="soft">{text.lead}</p>
        </div>
        <div className="row">
          <PressButton onPress={() => setOpen('import')}>{text.takeIn}</PressButton>
          <PressButton onPress={() => setOpen('new')}>{text.fresh}</PressButton>
        </div>
      </div>
      <section className="sheet">
        <ul className="plain-list">
          {recipes.map((recipe) => (
            <li key={recipe.id}>
              <a className="wide-link" href={addressOf('brine-bench', 'recipes', recipe.id)}>
                <b>{recipe.name}</b>
                <span className="soft">{text.line(recipe.version, recipe.process, sayTarget(recipe.target))}</span>
              </a>
            </li>
          ))}
        </ul>
      </section>
      {open === 'new' ? <RecipeForm recipe={null} onClose={() => setOpen(null)} /> : null}
      {open === 'import' ? <RecipeImport onClose={() => setOpen(null)} /> : null}
    </>
  );
}

function OneRecipe({ recipe }: { readonly recipe: Recipe }): ReactNode {
  const formats = useFormats();
  const versions = useAsk('recipe.versions', { recipeId: recipe.id });
  const [open, setOpen] = useState<'change' | 'export' | null>(null);
  return (
    <>
      <div className="spread">
        <div>
          <h1>{recipe.name}</h1>
          <p className="soft">{text.line(recipe.version, recipe.process, sayTarget(recipe.target))}</p>
        </div>
        <div className="row">
          <a className="button link" href={addressOf('brine-bench', 'recipes')}>{text.title}</a>
          <PressButton onPress={() => setOpen('export')}>{text.giveOut}</PressButton>
          <PressButton onPress={() => setOpen('change')}>{text.change}</PressButton>
        </div>
      </div>
      <div className="columns">
        <section className="sheet stack"><RecipeParts recipe={recipe} /></section>
        <section className="sheet stack">
          <h2>{text.versions}</h2>
          {(versions.data?.versions ?? []).map((version) => (
            <details key={version.version}>
              <summary>
                {version.savedBy === '' ? text.firstVersion(version.version) : text.versionLine(version.version, formats.longMoment(version.savedAtMs), version.savedBy)}
                {version.why === '' ? '' : `: ${version.why}`}
              </summary>
              <RecipeParts recipe={version.recipe} />
            </details>
          ))}
          <ProblemNote failure={failureOf(versions.error)} />
        </section>
      </div>
      {open === 'change' ? <RecipeForm recipe={recipe} onClose={() => setOpen(null)} /> : null}
      {open === 'export' ? <RecipeExport recipe={recipe} onClose={() => setOpen(null)} /> : null}
    </>
  );
}

function RecipeParts({ recipe }: { readonly recipe: Recipe }): ReactNode {
  return (
    <>
      <p>{text.target}: {sayTarget(recipe.target)}</p>
      <p className="soft">
        {[text.cures[recipe.cure], ...(recipe.cure === 'wet' ? [text.ratioLine(String(recipe.ratio))] : []), text.soakLine(String(recipe.soakHours), recipe.turnHours.join(', '))].join(', ')}
      </p>
      <table>
        <tbody>
          {recipe.ingredients.map((line) => (
            <tr key={line.id}>
              <th scope="row">{line.name}</th>
              <td className="right number">{line.parts}</td>
              <td className="soft small">{line.id === recipe.saltIngredientId && recipe.cure === 'wet' ? text.solved : text.parts}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {recipe.note === '' ? null : <p>{recipe.note}</p>}
    </>
  );
}
