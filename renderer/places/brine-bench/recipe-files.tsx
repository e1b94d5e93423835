import { useId, useState, type ReactNode } from 'react';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.recipes;

/** A recipe as a file to save, with its text to copy. */
export function RecipeExport({ recipe, onClose }: { readonly recipe: Recipe; onClose(): void }): ReactNode {
  const answer = useAsk('recipe.export', { recipeId: recipe.id });
  const written = answer.data?.text;
  const id = useId();
  return (
    <Leaf title={text.giveOutTitle(recipe.name)} wide onClose={onClose}>
      <p>{text.giveOutLead}</p>
      <ProblemNote failure={failureOf(answer.error)} />
      <div className="stack">
        <label className="soft small" htmlFor={id}>{text.text}</label>
        <textarea id={id} className="recipe-text" readOnly value={written ?? ''} />
      </div>
      <div className="row">
        <PressButton isDisabled={answer.data === undefined} onPress={() => { if (answer.data !== undefined) saveText(answer.data.fileName, answer.data.text); }}>{text.saveFile}</PressButton>
        <PressButton onPress={onClose}>{words.parts.close}</PressButton>
      </div>
    </Leaf>
  );
}

/** Hands a text to the browser to save under a name. */
function saveText(fileName: string, written: string): void {
  const address = URL.createObjectURL(new Blob([written], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  // The browser has taken the bytes by the next turn; kept longer they would only lie in memory.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}

/** Takes in a recipe from a file or from pasted text; what was pasted stays until it is kept. */
export function RecipeImport({ onClose }: { onClose(): void }): ReactNode {
  const take = useCommand('recipe.import');
  const id = useId();
  const [pasted, setPasted] = useState('');
  const [added, setAdded] = useState<{ readonly recipeId: string; readonly names: readonly string[] } | null>(null);
  const send = async (): Promise<void> => {
    const answer = await take.send({ text: pasted });
    if (answer === null) return;
    if (answer.addedIngredients.length > 0) {
      setAdded({ recipeId: answer.recipe.id, names: answer.addedIngredients });
      return;
    }
    onClose();
    go(addressOf('brine-bench', 'recipes', answer.recipe.id));
  };
  const read = async (file: File | undefined): Promise<void> => {
    if (file !== undefined) setPasted(await file.text());
  };
  return (
    <Leaf title={text.takeInTitle} wide onClose={onClose}>
      {added === null ? (
        <>
          <p>{text.takeInLead}</p>
          <label className="field">
            <span>{text.chooseFile}</span>
            <input type="file" accept=".json,application/json" onChange={(event) => { void read(event.currentTarget.files?.[0]); }} />
          </label>
          <div className="stack">
            <label className="soft small" htmlFor={id}>{text.pasted}</label>
            <textarea id={id} className="recipe-text" value={pasted} onChange={(event) => setPasted(event.currentTarget.value)} />
          </div>
          <ProblemNote failure={take.failure} />
          <div className="row">
            <PressButton look="next" isDisabled={take.busy || pasted.trim() === ''} onPress={() => { void send(); }}>{text.takeInNow}</PressButton>
            <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
          </div>
        </>
      ) : (
        <>
          <p role="status">{text.added(added.names.join(', '))}</p>
          <div className="row"><a className="button next link" href={addressOf('brine-bench', 'recipes', added.recipeId)} onClick={onClose}>{words.taste.toRecipe}</a></div>
        </>
      )}
    </Leaf>
  );
}
