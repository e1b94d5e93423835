/**
 * The fifteen elements of a pack's label, each looked at: met, missing, or not needed on this pack and
 * why. Every rule with its primary source and how that was had.
 */
import { LABEL_EDGE_MM, type LabelContent } from './label-content.ts';
import type { LabelGap, NutritionGround } from './label-types.ts';
import { frontLines } from './owner-words.ts';
import { INFORMATION_TYPE_MM, MOST_TIMES_AS_HIGH_AS_WIDE } from './type-height.ts';

export interface LabelCheck {
  readonly element: string;
  readonly title: string;
  readonly state: 'met' | 'missing' | 'not-needed';
  /** What is printed, what is missing, or why nothing is needed. */
  readonly words: string;
  readonly source: string;
}

export interface LabelFacts extends Pick<LabelContent, 'kind' | 'blocks' | 'missing' | 'stock' | 'netQuantityFootShare'> {
  readonly nutritionGround: NutritionGround | undefined;
  readonly fishHidden: boolean;
  /** Whether somebody said how large the side of the pouch is. */
  readonly isPouchKnown: boolean;
}

interface ElementRule {
  readonly element: string;
  readonly title: string;
  readonly source: string;
  /** Why nothing is needed where nothing is printed. */
  readonly otherwise: string;
}

const RULES: readonly ElementRule[] = [
  { element: 'L01', title: 'Statement of identity', source: '21 CFR 101.3(a), (b), (d) (from memory); Ill. Adm. Code 77:720.40(b), the same words (read)', otherwise: '' },
  { element: 'L02', title: 'Form of the food', source: '21 CFR 101.3(c) (from memory)', otherwise: 'The fish can be seen through the pouch.' },
  { element: 'L03', title: 'Net quantity', source: '21 CFR 101.7 (placement read, heights from memory); 15 U.S.C. 1453 (from memory)', otherwise: '' },
  { element: 'L04', title: 'Ingredients', source: '21 CFR 101.4 (read)', otherwise: '' },
  { element: 'L05', title: 'Allergens', source: '21 U.S.C. 343(w) (read)', otherwise: '' },
  { element: 'L06', title: 'Firm and place of business', source: '21 CFR 101.5 (read)', otherwise: '' },
  { element: 'L07', title: 'Nutrition Facts', source: '21 CFR 101.9(j)(1), (j)(18): FDA small business exemption guide, 2007 (read)', otherwise: 'A guest’s own fish is not for sale.' },
  { element: 'L08', title: 'Keeping and thawing', source: 'FDA, 62 FR 8248, 24 Feb 1997 (second-hand); the State’s own rule on the words themselves', otherwise: '' },
  { element: 'L09', title: 'Lot and days', source: '1 NYCRR 262.8(d) (read); Mich. Admin. Code R 285.569.7(4) (read)', otherwise: '' },
  { element: 'L10', title: 'Additives with their function', source: '21 CFR 101.22(j), (k) (from memory); 21 CFR 172.175 (read)', otherwise: 'The list has no preservative.' },
  { element: 'L11', title: 'Country of origin', source: '7 CFR 60.119 (read)', otherwise: 'Smoked fish is a processed food item, which this rule leaves out.' },
  { element: 'L12', title: 'Legible letters', source: '21 CFR 101.2(c), 101.7(h), (i) (from memory); 9 CFR 317.16 (read)', otherwise: '' },
  { element: 'L13', title: 'English words', source: '21 CFR 101.15(c) (from memory); Michigan State Univ. Extension, Labels for commercial smoked fish (read)', otherwise: '' },
  { element: 'L14', title: 'Nothing between list, allergens and firm', source: '21 CFR 101.2(e) (from memory)', otherwise: 'A guest’s own fish is not for sale.' },
  { element: 'L15', title: 'Not for sale, and whose it is', source: 'California Fish and Game Code 7230 (read); WAC 220-305-110 (read)', otherwise: 'The fish was bought from a licensed source.' },
];

/** Elements whose words must be English: names of firms and people may be in any script. */
const ENGLISH: readonly string[] = ['L01', 'L02', 'L04', 'L05'];
const OTHER_SCRIPT = /[^\p{Script=Latin}\p{Script=Common}\p{Script=Inherited}]/u;
const PRESERVATIVE = /\(preservative\)/;

/** Every element L01 to L15, in order. */
export function labelChecks(facts: LabelFacts): readonly LabelCheck[] {
  return RULES.map((rule) => {
    const { element, title, source } = rule;
    const gap = [...facts.missing, ...drawnGaps(facts)].find((one) => one.element === element);
    if (gap !== undefined) return { element, title, source, state: 'missing', words: gap.why };
    const words = printedWords(element, facts);
    return words === undefined ? { element, title, source, state: 'not-needed', words: rule.otherwise } : { element, title, source, state: 'met', words };
  });
}

/** What the placed label lacks beside what its texts lack: form, language, letters, order. */
export function drawnGaps(facts: LabelFacts): readonly LabelGap[] {
  const gaps: LabelGap[] = [];
  const hasForm = facts.blocks.some(({ element }) => element === 'L02');
  if (facts.kind === 'sale' && facts.fishHidden && !hasForm) {
    gaps.push({ element: 'L02', why: 'The fish can’t be seen through the pouch, so the label must say its form. Print the form, or say that the fish is seen, in the office under labels.' });
  }
  const foreign = facts.blocks.find(({ element, text }) => ENGLISH.includes(element) && OTHER_SCRIPT.test(text));
  if (foreign !== undefined) {
    gaps.push({ element: 'L13', why: `“${foreign.text}” has words that are not in English letters. Enter the English name where it came from; another language may stand beside it.` });
  }
  const small = facts.blocks.find(({ leastLetterMm }) => leastLetterMm < INFORMATION_TYPE_MM);
  if (small !== undefined) gaps.push({ element: 'L12', why: `The letters of “${small.text}” are lower than 1/16 in.` });
  const squeezed = facts.kind === 'custom' ? squeezedLine(facts) : undefined;
  if (squeezed !== undefined) {
    gaps.push({ element: 'L12', why: `On ${facts.stock.name} the letters of “${squeezed}” would be more than three times as high as wide. Choose a wider label.` });
  }
  if (facts.kind === 'sale' && !standTogether(facts.blocks)) gaps.push({ element: 'L14', why: 'Something stands between the ingredients, the allergens and the firm.' });
  return gaps;
}

/** A large line of a guest's front words whose letters, made to fill the label's width, would be narrower than allowed. */
function squeezedLine({ blocks: [front], stock }: LabelFacts): string | undefined {
  const widthMm = stock.widthMm - 2 * LABEL_EDGE_MM;
  return front === undefined ? undefined : frontLines(front.text).find(({ text, isLarge }) => isLarge && text.length * front.leastLetterMm > widthMm * MOST_TIMES_AS_HIGH_AS_WIDE)?.text;
}

/** Whether list, allergens and firm follow each other with nothing between. */
function standTogether(blocks: LabelFacts['blocks']): boolean {
  const places = blocks.flatMap(({ element }, place) => (['L04', 'L05', 'L06'].includes(element) ? [place] : []));
  return places.every((place, index) => index === 0 || place === (places[index - 1] ?? 0) + 1);
}

function printedWords(element: string, { kind, blocks, nutritionGround, netQuantityFootShare, isPouchKnown }: LabelFacts): string | undefined {
  const texts = blocks.filter((block) => block.element === element).map(({ text }) => text);
  switch (element) {
    case 'L03': return [...texts, ...(netQuantityFootShare === null ? [] : [isPouchKnown ? 'in the bottom 30 % of the side that shows it, stuck as the page says' : 'where it must stand isn’t known without the pouch'])].join(', ');
    case 'L07': return kind === 'custom' || nutritionGround === undefined ? undefined : `Left off: ${GROUNDS[nutritionGround]}, and no claim is made.`;
    case 'L10': return blocks.find((block) => block.element === 'L04' && PRESERVATIVE.test(block.text))?.text;
    case 'L12': return `No letter o is lower than 1/16 in (1.6 mm), and ${kind === 'custom' ? 'that it is not for sale stands in capitals of 3/8 in' : `the net quantity is as high as ${isPouchKnown ? 'the pouch’s side asks' : 'a side of up to 100 square inches asks'}`}.`;
    case 'L13': return 'All required words are English, all figures Arabic.';
    case 'L14': return kind === 'custom' ? undefined : 'They follow each other.';
    default: return texts.length === 0 ? undefined : texts.join(' | ');
  }
}

const GROUNDS: Readonly<Record<NutritionGround, string>> = {
  'retailer-total-sales': 'a retailer with US$500,000 a year or less in all sales',
  'retailer-food-sales': 'a retailer with US$50,000 a year or less in food sales',
  'low-volume': 'fewer than 100 full-time workers and 100,000 units of this product a year, with a notice to FDA each year',
  'very-small': 'fewer than 10 full-time workers and 10,000 units of this product a year',
  'small-pack': 'less than 12 square inches to bear a label',
};
