/** Faults of a card's arithmetic, told at the field that was typed, or of the recipe where nothing typed now is to blame. */
import type { Outcome } from '../../../app/measures/outcome.ts';
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Recipe } from '../../../app/contract/requests/recipes.ts';
import { Refusal } from '../refusal.ts';

/** What a person may choose for one card, beside the recipe, the fish and its weight. */
export type CardChoices = Pick<Parsed<'brine.card'>, 'yieldPercent' | 'size' | 'target' | 'aimLowEnd' | 'thickestMm' | 'thinnestMm' | 'skin' | 'saltFormId'>;

type Path = readonly (string | number)[];

/**
 * The value of an outcome of the card's arithmetic.
 * @throws Refusal INVALID_INPUT at the field that was typed; RULE_BLOCKS on `recipeId` for a fault of the recipe itself
 */
export function unwrapForCard<T>(outcome: Outcome<T>, recipe: Pick<Recipe, 'name'>, choices: CardChoices): T {
  if (outcome.ok) return outcome.value;
  const { field = '', message: said, remedy } = outcome.problem;
  const path = pathTyped(field, choices);
  if (path !== null) throw new Refusal('INVALID_INPUT', said, { remedy, fields: [{ path: [...path], message: said }] });
  const message = `“${recipe.name}” can’t be mixed for these fillets. ${said}`;
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: ['recipeId'], message }] });
}

/** Where a figure at fault was typed; null where it stands in the recipe. */
function pathTyped(field: string, choices: CardChoices): Path | null {
  if (field.endsWith('yieldPercent')) {
    if (choices.yieldPercent !== undefined) return ['yieldPercent'];
    return choices.target === undefined ? null : ['target', 'yieldPercent'];
  }
  if (field.startsWith('target')) {
    if (choices.target !== undefined) return field.split('.');
    if (choices.aimLowEnd === true) return ['aimLowEnd'];
    return sizePath(choices);
  }
  switch (field) {
    case 'thickestMm': case 'thinnestMm': return [field];
    case 'tubLitres': return ['size', 'litres'];
    case 'headroomPercent': return ['size', 'headroomPercent'];
    case 'ratio': return sizePath(choices);
    // A scale too coarse means too little fish for it.
    case 'filletGrams': case 'scaleStepGrams': return ['fillets'];
    default: return null;
  }
}

/** The size that was chosen in place of the recipe's own: it may be what puts a goal out of reach. */
function sizePath({ size }: CardChoices): Path | null {
  if (size === undefined || size.by === 'recipe') return null;
  return size.by === 'ratio' ? ['size', 'ratio'] : ['size', 'litres'];
}
