/** A recipe as a file to carry to another kitchen: JSON text with the own ingredients that it needs. */
import { z } from 'zod';
import { IngredientAsset } from '../../../app/contract/assets.ts';
import { Composition, RecipeDraft, type Recipe } from '../../../app/contract/requests/recipes.ts';
import { refuseInput as refuseShape } from '../input-faults.ts';
import { refuseInput } from './field-refusal.ts';
import type { OwnIngredient } from './ingredient-view.ts';
import { nameIn } from './recipe-names.ts';

const FORMAT = 'alderbook-recipe';
const FORMAT_VERSION = 1;
const TEXT: readonly string[] = ['text'];
const EXPORT_AGAIN = 'Export the recipe again and choose that file.';

const FileIngredient = z.strictObject({ figures: IngredientAsset, composition: Composition });
/** The whole file; whatever else stands in it is refused. */
const RecipeFile = z.strictObject({
  format: z.literal(FORMAT),
  formatVersion: z.literal(FORMAT_VERSION),
  recipe: RecipeDraft.extend({ cure: z.enum(['wet', 'dry']) }),
  ingredients: z.array(FileIngredient).max(60),
});
export type RecipeFile = z.infer<typeof RecipeFile>;
export type FileIngredient = z.infer<typeof FileIngredient>;

/** What tells a file's kind and age before anything else of it is read. */
const FileHead = z.looseObject({ format: z.literal(FORMAT), formatVersion: z.int().min(1) });

/** The text of a file, the same for the same recipe. */
export function textOfRecipe(recipe: Recipe, own: readonly OwnIngredient[]): string {
  const { id: _id, version: _version, ingredients, ...figures } = recipe;
  const file: RecipeFile = {
    format: FORMAT, formatVersion: FORMAT_VERSION,
    recipe: { ...figures, ingredients: ingredients.map(({ id, parts }) => ({ id, parts })) },
    ingredients: own.map((one) => ({ figures: one.figures, composition: one.composition })),
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}

/** A file name from a recipe's name and version, of letters, digits and hyphens alone. */
export function fileNameOf({ name, version }: Pick<Recipe, 'name' | 'version'>): string {
  const plain = name.normalize('NFKD').toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-+/, '').slice(0, 60).replace(/-+$/, '');
  return `${plain === '' ? 'recipe' : plain}-v${version}.alderbook-recipe.json`;
}

/**
 * Reads the text of a file. Nothing of it is more than data.
 * @throws Refusal INVALID_INPUT at `text`: no JSON, another format, a newer one, a shape that is not that of a recipe
 */
export function readRecipeFile(text: string): RecipeFile {
  if (text.trim() === '') refuseInput('The file is empty.', TEXT, EXPORT_AGAIN);
  const json = jsonOf(text);
  const head = FileHead.safeParse(json);
  if (!head.success) refuseInput('This is not a recipe that was exported from Alderbook.', TEXT, 'Choose a file whose name ends in .alderbook-recipe.json.');
  if (head.data.formatVersion > FORMAT_VERSION) {
    refuseInput(`This recipe was exported by a newer Alderbook: its format is ${head.data.formatVersion}, and this one reads ${FORMAT_VERSION}.`, TEXT, 'Bring this Alderbook up to date, or export the recipe there by an older one.');
  }
  const file = RecipeFile.safeParse(json);
  if (file.success) return file.data;
  return refuseInput(`${whatIsWrong(json, file.error)} in the file can’t be read: ${refuseShape(file.error).message}`, TEXT, EXPORT_AGAIN);
}

/** Names the ingredient at fault where it is one: its place in the file tells nobody anything. */
function whatIsWrong(json: unknown, { issues }: z.ZodError): string {
  const [list, index] = issues[0]?.path ?? [];
  if (list !== 'ingredients' || typeof index !== 'number') return 'The recipe';
  const named = z.looseObject({ ingredients: z.array(z.unknown()) }).safeParse(json).data?.ingredients[index];
  const name = z.looseObject({ figures: z.looseObject({ name: z.string() }) }).safeParse(named).data?.figures.name;
  return name === undefined ? `Ingredient ${index + 1}` : `The ingredient ${nameIn(name.slice(0, 200))}`;
}

/** Without a mark at the beginning that some programs write before UTF-8. */
function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return refuseInput('The file is not JSON text.', TEXT, EXPORT_AGAIN);
  }
}
