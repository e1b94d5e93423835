/** Why a pack for sale may leave off Nutrition Facts: 21 CFR 101.9(j) (FDA small business exemption guide, 2007, read). */
import type { LabelBlock, LabelGap, NutritionGround } from './label-types.ts';

/** Words that make a nutrient or health claim and so end the exemption. */
const CLAIM = /omega-?3|low (fat|sodium)|high protein|heart healthy|good source/i;

/** What is missing on Nutrition Facts: a ground for leaving them off, or a label free of claims. */
export function nutritionGaps(ground: NutritionGround | undefined, blocks: readonly LabelBlock[]): readonly LabelGap[] {
  const claim = blocks.map(({ text }) => CLAIM.exec(text)?.[0]).find((found) => found !== undefined);
  if (claim !== undefined) {
    return [{ element: 'L07', why: `“${claim}” is a claim, and with a claim Nutrition Facts are needed. Take it out of the form or the names.` }];
  }
  if (ground !== undefined) return [];
  return [{ element: 'L07', why: 'Nothing says on which ground Nutrition Facts are left off (21 CFR 101.9(j)). Enter the ground in the office, with the kitchen’s name and address.' }];
}
