/** The firm and its place of business, and what it is to the pack: 21 CFR 101.5 (read). */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { FirmRole, LabelBlock, LabelGap, LabelKitchen, LabelPart } from './label-types.ts';

const SOURCE = '21 CFR 101.5 (read)';
const PHRASES: Readonly<Record<FirmRole, string>> = { maker: '', 'packed-for': 'Packed for ', 'distributed-by': 'Distributed by ' };
const CUSTOM_PHRASE = 'Processed by ';
const OTHER_MAKER_PHRASE = /^(Packed for|Distributed by|Manufactured for) \S/;
const ENTER = 'Enter it in the office, under kitchen.';

/** The firm line: phrase, name, street, city, State and ZIP. Parts that are empty are left out. */
export function firmLine(kitchen: LabelKitchen, isCustom: boolean): string {
  const role = kitchen.role ?? 'maker';
  const phrase = isCustom && role === 'maker' ? CUSTOM_PHRASE : PHRASES[role];
  const stateAndZip = [kitchen.region, kitchen.postalCode].filter((part) => part !== '').join(' ');
  return phrase + [kitchen.name, kitchen.address, kitchen.city, stateAndZip].filter((part) => part !== '').join(', ');
}

/**
 * The firm block, and the parts of the address it lacks.
 * @param kitchen cleaned
 * @param isCustom a guest's own catch: the rule speaks of food for sale, so the street may be left out
 */
export function firmPart(kitchen: LabelKitchen, isCustom: boolean): LabelPart {
  const blocks: LabelBlock[] = [{ element: 'L06', text: firmLine(kitchen, isCustom), source: SOURCE }];
  if (kitchen.phone !== undefined && kitchen.phone !== '') {
    blocks.push({ element: 'L06', text: `Phone ${kitchen.phone}`, source: 'common practice' });
  }
  return { blocks: blocks.filter(({ text }) => text !== ''), missing: firmGaps(kitchen, isCustom) };
}

/**
 * Tests a written firm line (21 CFR 101.5(c): a firm that did not make the food says what it did).
 * @param line as it would stand on the label
 * @param isMaker whether the named firm made the food
 * @returns the line, or a sentence: the phrase is missing, or the line does not end with city, State and ZIP
 */
export function checkFirmLine(line: string, isMaker: boolean): Outcome<string> {
  if (!isMaker && !OTHER_MAKER_PHRASE.test(line)) {
    return bad('The named firm did not make this food, and the line does not say so.', 'kitchen.role', 'Begin it with “Packed for” or “Distributed by”.');
  }
  if (!/, [\p{L} .'-]+, [A-Z]{2} \d{5}(-\d{4})?$/u.test(line)) {
    return bad('The firm line does not end with city, State and ZIP code.', 'kitchen', 'End it as in “Anytown, AK 99999”.');
  }
  return good(line);
}

function firmGaps(kitchen: LabelKitchen, isCustom: boolean): readonly LabelGap[] {
  const parts: readonly (readonly [string, string])[] = [
    ['name of the kitchen', kitchen.name],
    ['city', kitchen.city],
    ['State', kitchen.region],
    ['ZIP code', kitchen.postalCode],
  ];
  const gaps = parts.filter(([, text]) => text === '').map(([part]) => ({ element: 'L06', why: `The ${part} is empty. ${ENTER}` }));
  if (kitchen.address === '' && !isCustom) {
    gaps.push({ element: 'L06', why: `The street is empty; it may be left out only if a current city or telephone directory lists it. ${ENTER}` });
  }
  return gaps;
}
