/**
 * What a pack of a guest's own catch carries: that it is not for sale, and whose it is. Fish taken
 * on a sport licence may be smoked for its owner but not sold.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { daysBetween, daysInWords, readDay, type CalendarDay } from './dates.ts';
import type { Jurisdiction, LabelBlock, LabelOwner, LabelPart } from './label-types.ts';

const DEFAULT_WORDS = 'SPORT-CAUGHT - NOT FOR SALE';
const DEFAULT_SOURCE = 'common practice, after 9 CFR 317.16 for custom-prepared meat (read)';
/** Words that a State wants besides. */
const STATE_WORDS: ReadonlyMap<Jurisdiction, { readonly words: string; readonly source: string }> = new Map([
  ['us-ca', { words: 'NOT TO BE SOLD', source: 'California Fish and Game Code 7230 (read)' }],
  ['us-ak', { words: 'SPORT CAUGHT, NOT FOR RESALE', source: 'Alaska DEC, Seafood permitting FAQ (read)' }],
]);
const OWNER_SOURCE = 'WAC 220-305-110 (read)';

/** The front line of a guest's pack, `SPORT-CAUGHT - NOT FOR SALE` with the State's own words behind it. */
export function notForSaleBlock(jurisdiction: Jurisdiction): LabelBlock {
  const state = STATE_WORDS.get(jurisdiction);
  if (state === undefined) return { element: 'L15', text: DEFAULT_WORDS, source: DEFAULT_SOURCE };
  return { element: 'L15', text: `${DEFAULT_WORDS} - ${state.words}`, source: `${state.source}; ${DEFAULT_SOURCE}` };
}

/** The front words as they are drawn, each line as wide as the label; the large ones say that the fish is not for sale. */
export function frontLines(text: string): readonly { readonly text: string; readonly isLarge: boolean }[] {
  return text.split(' - ').map((line) => ({ text: line, isLarge: line.includes('NOT') }));
}

/**
 * Owner, licence, address, day and water of the catch, each its own block.
 * @param owner cleaned
 * @param packedOn the catch can't be later
 * @returns the blocks and what the custom record still lacks, or a sentence: no such day, caught after packing
 */
export function ownerPart(owner: LabelOwner, packedOn: CalendarDay): Outcome<LabelPart> {
  const caught = owner.caughtOn === undefined || owner.caughtOn === '' ? good('') : caughtWords(owner.caughtOn, packedOn);
  if (!caught.ok) return caught;
  const lines: readonly (readonly [string, string | undefined])[] = [
    ['Owner', owner.name],
    ['Licence', owner.licence],
    ['Address', owner.address],
    ['Caught', caught.value],
    ['Area', owner.caughtArea],
  ];
  const blocks = lines.flatMap(([label, text]) =>
    text === undefined || text === '' ? [] : [{ element: 'L15', text: `${label}: ${text}`, source: OWNER_SOURCE }],
  );
  const hasLicence = owner.licence !== undefined && owner.licence !== '';
  const missing = hasLicence
    ? []
    : [{ element: 'L15', why: 'The licence number of the owner is missing. The pack may go without it, the record of custom fish may not: enter it at fish in.' }];
  return good({ blocks, missing });
}

function caughtWords(caughtOn: string, packedOn: CalendarDay): Outcome<string> {
  const [first = '', last = first, ...more] = caughtOn.split('/');
  if (more.length > 0) return bad(`“${caughtOn}” is not a day or two days.`, 'owner.caughtOn', 'Write 2026-07-11, or 2026-07-11/2026-07-12.');
  const from = readDay(first, 'owner.caughtOn');
  if (!from.ok) return from;
  const to = readDay(last, 'owner.caughtOn');
  if (!to.ok) return to;
  if (daysBetween(from.value, to.value) < 0) return bad('The days of the catch are in the wrong order.', 'owner.caughtOn', 'Write the earlier day first.');
  if (daysBetween(to.value, packedOn) < 0) return bad('The fish can’t have been caught after it was packed.', 'owner.caughtOn', 'Check both dates.');
  return good(daysInWords(from.value, to.value));
}
