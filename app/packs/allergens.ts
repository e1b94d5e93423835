/** The allergen statement: which major allergens a pack holds, and how they are named. */
import {
  DOUBTFUL_PRODUCTS, EXEMPT_OIL, MAJOR_ALLERGENS, PLAIN_INGREDIENT_WORDS, PLAIN_WORDS, PRODUCT_WORDS,
  meaningOfAllergen, type MajorAllergen, type WordRule,
} from './allergen-words.ts';
import { byWeight } from './ingredient-list.ts';
import type { LabelBlock, LabelGap, LabelIngredient, LabelPart } from './label-types.ts';

/** An allergen to be named: its text, and which of the nine it is (undefined for one the law does not list). */
interface NamedAllergen {
  readonly text: string;
  readonly kind: MajorAllergen | undefined;
}

const SOURCE = '21 U.S.C. 343(w) (read); fish by its species (from memory)';
const KINDS_NAMED_BY_SPECIES: readonly MajorAllergen[] = ['fish', 'crustacean shellfish', 'tree nuts'];
const ENTER = 'Enter it with the ingredient, from the label of the bought product.';

/**
 * The allergen block, always printed, and what could not be named.
 * @param ingredients cleaned, in the order given
 * @param marketName the pack's own fish
 */
export function allergenPart(ingredients: readonly LabelIngredient[], marketName: string): LabelPart {
  const named: NamedAllergen[] = [];
  const missing: LabelGap[] = [];
  const declared = byWeight(ingredients).flatMap((ingredient, place) => allergensOf(ingredient, place === 0, marketName));
  const ownSpelling = declared.find((allergen) => allergen.kind === 'fish' && isSame(allergen.text, marketName));
  for (const allergen of [ownSpelling ?? { text: marketName, kind: 'fish' as const }, ...declared]) {
    if (!named.some((earlier) => isSame(earlier.text, allergen.text))) named.push(allergen);
  }
  for (const { text, kind } of named) {
    if (kind === undefined || text !== kind || !KINDS_NAMED_BY_SPECIES.includes(kind)) continue;
    missing.push({ element: 'L05', why: `“${text}” must be named by its kind, such as anchovies, crab or walnuts. ${ENTER}` });
  }
  for (const ingredient of ingredients.filter((one) => isUnknown(one, marketName))) {
    missing.push({ element: 'L05', why: `Nothing says which allergens “${ingredient.name}” holds. ${ENTER} An empty list says none.` });
  }
  return { blocks: [allergenBlock(named)], missing };
}

/** What is wrong with an allergen line that someone wrote. */
export type AllergenLineFault = 'does-not-begin-with-contains' | 'fish-without-species' | 'allergen-left-out';

/**
 * Tests a written allergen line against what the pack holds (21 U.S.C. 343(w); FDA allergen questions and answers, from memory).
 * @param line such as `Contains: Coho salmon, wheat, soybeans.`
 * @param held every major allergen in the pack, fish by its market name
 * @returns the faults, none when the line is right
 */
export function checkAllergenLine(line: string, held: readonly string[]): readonly AllergenLineFault[] {
  const match = /^Contains:? (.+?)\.?$/.exec(line.trim());
  if (match === null) return ['does-not-begin-with-contains'];
  const written = (match[1] ?? '').split(',').map((part) => part.trim().replace(/^and /, ''));
  const faults = new Set<AllergenLineFault>();
  const saysFish = written.some((part) => isSame(part, 'fish'));
  for (const allergen of held) {
    if (written.some((part) => isSame(part, allergen))) continue;
    faults.add(saysFish && meaningOfAllergen(allergen) === undefined ? 'fish-without-species' : 'allergen-left-out');
  }
  return [...faults];
}

function allergenBlock(named: readonly NamedAllergen[]): LabelBlock {
  const rank = ({ kind }: NamedAllergen): number => (kind === undefined ? MAJOR_ALLERGENS.length : MAJOR_ALLERGENS.indexOf(kind));
  const sorted = named.toSorted((left, right) => rank(left) - rank(right));
  return { element: 'L05', text: `Contains: ${sorted.map(({ text }) => text).join(', ')}.`, source: SOURCE };
}

function allergensOf(ingredient: LabelIngredient, isHeaviest: boolean, marketName: string): readonly NamedAllergen[] {
  const names = [ingredient.name, ...(ingredient.subIngredients ?? [])].filter((name) => !EXEMPT_OIL.test(name));
  const plain = names.flatMap((name) => matching(PLAIN_WORDS, name));
  const guessed = ingredient.allergens === undefined ? names.flatMap((name) => matching(PRODUCT_WORDS, name)) : [];
  const isOwnFish = isHeaviest || isSame(ingredient.name, marketName);
  return [...(ingredient.allergens ?? []), ...plain, ...guessed].map((entered) => {
    const allergen = nameAllergen(entered);
    return isOwnFish && allergen.text === 'fish' ? { text: marketName, kind: 'fish' as const } : allergen;
  });
}

function matching(rules: readonly WordRule[], name: string): readonly string[] {
  return rules.filter((rule) => rule.pattern.test(name)).flatMap((rule) => rule.gives);
}

/** Reads `fish: Market Name`, `tree nuts: walnuts`, one of the nine in any spelling, or another word as it stands. */
function nameAllergen(entered: string): NamedAllergen {
  const [head = '', ...rest] = entered.split(':');
  const meaning = meaningOfAllergen(head);
  if (meaning === undefined) return { text: entered, kind: undefined };
  const detail = rest.join(':').trim();
  if (detail !== '' && KINDS_NAMED_BY_SPECIES.includes(meaning.allergen)) return { text: detail, kind: meaning.allergen };
  return { text: meaning.isOneKind ? head.trim() : meaning.allergen, kind: meaning.allergen };
}

function isUnknown(ingredient: LabelIngredient, marketName: string): boolean {
  if (ingredient.allergens !== undefined || (ingredient.subIngredients ?? []).length > 0) return false;
  if (ingredient.name.toLowerCase().includes(marketName.toLowerCase())) return false;
  if (DOUBTFUL_PRODUCTS.test(ingredient.name)) return true;
  if (matching([...PLAIN_WORDS, ...PRODUCT_WORDS], ingredient.name).length > 0) return false;
  const words = ingredient.name.toLowerCase().split(/[^\p{L}]+/u).filter((word) => word !== '');
  return words.length === 0 || words.some((word) => !PLAIN_INGREDIENT_WORDS.has(word));
}

/** Alike but for capitals and the plural: anchovy and anchovies are one. */
function isSame(left: string, right: string): boolean {
  return singular(left) === singular(right);
}

function singular(word: string): string {
  return word.toLowerCase().replace(/ies$/, 'y').replace(/s$/, '');
}
