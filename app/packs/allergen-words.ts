/**
 * Words by which an ingredient shows a major allergen. The nine: 21 U.S.C. 343(w) (read) with the
 * FASTER Act of 2021 for sesame (from memory). Which bought product holds which is from memory and
 * is only a net under the cook: the bottle's own label, entered with the ingredient, goes first.
 */

/** Order of the nine in the statute; fish stands first on our labels because it weighs most. */
export const MAJOR_ALLERGENS = ['fish', 'milk', 'egg', 'crustacean shellfish', 'tree nuts', 'wheat', 'peanuts', 'soybeans', 'sesame'] as const;
export type MajorAllergen = (typeof MAJOR_ALLERGENS)[number];

/** Other ways to write one of the nine. */
const SPELLINGS: ReadonlyMap<string, MajorAllergen> = new Map([
  ['soy', 'soybeans'], ['soya', 'soybeans'], ['soybean', 'soybeans'], ['soy bean', 'soybeans'], ['soy beans', 'soybeans'],
  ['eggs', 'egg'], ['dairy', 'milk'], ['peanut', 'peanuts'], ['tree nut', 'tree nuts'], ['nuts', 'tree nuts'],
  ['sesame seed', 'sesame'], ['sesame seeds', 'sesame'], ['shellfish', 'crustacean shellfish'],
  ['crustacea', 'crustacean shellfish'], ['crustacean', 'crustacean shellfish'], ['crustaceans', 'crustacean shellfish'],
]);
const TREE_NUTS = ['almond', 'brazil nut', 'cashew', 'hazelnut', 'macadamia nut', 'pecan', 'pine nut', 'pistachio', 'walnut'];
const CRUSTACEANS = ['crab', 'crayfish', 'lobster', 'prawn', 'shrimp'];
const FISH = ['anchovy', 'anchovies'];

/** What an allergen word stands for: one of the nine, and whether the word is already one kind of it (`crab`, `walnuts`). */
export interface AllergenMeaning {
  readonly allergen: MajorAllergen;
  readonly isOneKind: boolean;
}

/** Which of the nine a word means, or undefined: `soy` is soybeans, `crab` a kind of crustacean shellfish. */
export function meaningOfAllergen(word: string): AllergenMeaning | undefined {
  const plain = word.trim().toLowerCase();
  const general = MAJOR_ALLERGENS.find((allergen) => allergen === plain) ?? SPELLINGS.get(plain);
  if (general !== undefined) return { allergen: general, isOneKind: false };
  const singular = plain.replace(/s$/, '');
  if (TREE_NUTS.includes(singular)) return { allergen: 'tree nuts', isOneKind: true };
  if (CRUSTACEANS.includes(singular)) return { allergen: 'crustacean shellfish', isOneKind: true };
  return FISH.includes(plain) ? { allergen: 'fish', isOneKind: true } : undefined;
}

/** A word in an ingredient's name, and the allergens it gives away, written as a cook would enter them. */
export interface WordRule {
  readonly pattern: RegExp;
  readonly gives: readonly string[];
}

const NOT_FREE = '(?![- ]free)';
/** Names of the nine inside another name: they count whatever else was entered. */
export const PLAIN_WORDS: readonly WordRule[] = [
  { pattern: new RegExp(`\\bwheat\\b${NOT_FREE}`, 'i'), gives: ['wheat'] },
  { pattern: new RegExp(`\\bsoy(a|beans?| beans?)?\\b${NOT_FREE}`, 'i'), gives: ['soybeans'] },
  { pattern: new RegExp(`(?<!\\b(almond|cashew|coconut|oat|rice|soy) )\\bmilk\\b${NOT_FREE}`, 'i'), gives: ['milk'] },
  { pattern: new RegExp(`\\beggs?\\b${NOT_FREE}`, 'i'), gives: ['egg'] },
  { pattern: new RegExp(`\\bpeanuts?\\b${NOT_FREE}`, 'i'), gives: ['peanuts'] },
  { pattern: new RegExp(`\\bsesame\\b${NOT_FREE}`, 'i'), gives: ['sesame'] },
  ...TREE_NUTS.map((nut) => ({ pattern: new RegExp(`\\b${nut}s?\\b${NOT_FREE}`, 'i'), gives: [`tree nuts: ${nut}s`] })),
  ...CRUSTACEANS.map((kind) => ({ pattern: new RegExp(`\\b${kind}s?\\b`, 'i'), gives: [`crustacean shellfish: ${kind}`] })),
  { pattern: /\banchov(y|ies)\b/i, gives: ['fish: anchovies'] },
];

/** Bought products that hold more than their name says: used where nothing was entered. */
export const PRODUCT_WORDS: readonly WordRule[] = [
  { pattern: /\b(soy sauce|shoyu|teriyaki|hoisin)\b/i, gives: ['soybeans', 'wheat'] },
  { pattern: /\b(tamari|miso)\b/i, gives: ['soybeans'] },
  { pattern: /\bworcestershire\b/i, gives: ['fish: anchovies'] },
  { pattern: /\bfish sauce\b/i, gives: ['fish'] },
  { pattern: /\b(hoisin|tahini)\b/i, gives: ['sesame'] },
  { pattern: /(?<!\b(almond|cashew|cocoa|nut|peanut|shea) )\bbutter\b|\b(buttermilk|cream|cheese|whey|casein|yogh?urt)\b/i, gives: ['milk'] },
  { pattern: /(?<!\b(almond|coconut|corn|rice|tapioca) )\bflour\b/i, gives: ['wheat'] },
];

/** Products whose other parts differ from maker to maker: their label must be entered. */
export const DOUBTFUL_PRODUCTS = /\b(tamari|miso|worcestershire|fish sauce|oyster sauce|beer|ale|stout|malt vinegar|marinade|rub|seasoning)\b/i;
/** Products of several parts: their parts belong in brackets, 21 CFR 101.4(b)(2) (from memory). */
export const MADE_UP_PRODUCTS = /\b(soy sauce|shoyu|tamari|teriyaki|worcestershire|fish sauce|oyster sauce|hoisin|miso|hot sauce|mustard|marinade|rub|seasoning)\b/i;
/** Oil exempt by 21 U.S.C. 321(qq)(2) (from memory). */
export const EXEMPT_OIL = /\bhighly refined soy(bean)? oil\b/i;

/** Words of ingredients that hold none of the nine. A name made of these alone needs no entry. */
export const PLAIN_INGREDIENT_WORDS: ReadonlySet<string> = new Set(
  `salt sea kosher pickling pure fine coarse flake sugar brown white light dark raw cane demerara honey maple syrup molasses birch
  water ice black pink pepper peppercorn peppercorns cayenne chili chilli flakes garlic onion granulated powder powdered dried fresh ground
  whole dill fennel bay leaf leaves thyme rosemary sage tarragon parsley coriander juniper berry berries allspice clove cloves cinnamon
  star anise ginger paprika smoked mustard seed seeds lemon lime orange juice zest peel apple cider vinegar wine distilled rum whisky
  whiskey bourbon brandy gin vodka aquavit aquavite olive oil spice spices natural smoke flavor flavoring flavour liquid sodium potassium
  nitrite nitrate curing cure and turbinado corn celery mace vanilla extract weed spirit red green peppers turmeric onions`.split(/\s+/),
);
