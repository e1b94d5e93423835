/**
 * How to keep and thaw a pack: the words a jurisdiction fixes, as its text prints them, and our own
 * where none does. The federal words stand wherever nothing else is prescribed.
 */
import { dayInWords, daysBetween, type CalendarDay } from './dates.ts';
import { isUnprovenUseBy, type ReadDates } from './date-lines.ts';
import type { Jurisdiction, LabelBlock, LabelGap, LabelPack, LabelPart, LabelProcess, LabelStore } from './label-types.ts';

export interface Keeping {
  readonly jurisdiction: Jurisdiction;
  readonly process: LabelProcess;
  readonly pack: LabelPack;
  readonly store: LabelStore;
  readonly isCustom: boolean;
  readonly secondLanguage?: 'fr' | undefined;
}

const CHILLED: LabelBlock = {
  element: 'L08',
  text: 'KEEP REFRIGERATED AT 38°F (3.3°C) OR BELOW',
  source: 'limit: Mich. Admin. Code R 285.569.4(1), 10 NYCRR 14-1.35 (read); place and need: FDA, 62 FR 8248, 24 Feb 1997 (second-hand); words: common practice',
};
const THAW = 'THAW UNDER REFRIGERATION AT 38°F (3.3°C) OR BELOW. DO NOT REFREEZE.';
const FROZEN_SOURCE =
  'FDA, Fish and Fishery Products Hazards and Controls Guidance, ch. 13 (from memory); 1 NYCRR 262.8(c) (read); words: common practice';
const FROZEN_VACUUM: LabelBlock = { element: 'L08', text: `KEEP FROZEN AT 0°F (-18°C). OPEN POUCH, ${THAW}`, source: FROZEN_SOURCE };
const FROZEN_OPEN: LabelBlock = { element: 'L08', text: `KEEP FROZEN AT 0°F (-18°C). ${THAW}`, source: FROZEN_SOURCE };

const WISCONSIN_CHILLED: LabelBlock = {
  element: 'L08', text: 'PERISHABLE – KEEP REFRIGERATED AT OR BELOW 38° F', source: 'Wis. Admin. Code ATCP 70.46(1)(d) (read)',
};
const WISCONSIN_FROZEN: LabelBlock = {
  element: 'L08', text: 'PERISHABLE — KEEP FROZEN PRIOR TO USE', source: 'Wis. Admin. Code ATCP 70.46(1)(e) (read)',
};
const NEW_YORK_CHILLED: LabelBlock = {
  element: 'L08', text: 'Keep Refrigerated at 38 degrees Fahrenheit or Below.', source: '1 NYCRR 262.8(c) (read)',
};
const MICHIGAN_CHILLED: LabelBlock = {
  element: 'L08',
  text: 'PERISHABLE. KEEP UNDER REFRIGERATION AT 38°F (3.3°C) OR BELOW.',
  source: 'Michigan State Univ. Extension, Labels for commercial smoked fish have special requirements (second-hand)',
};
const ALASKA_CHILLED: LabelBlock = { element: 'L08', text: 'REFRIGERATE BELOW 38F', source: 'Alaska DEC, Seafood permitting FAQ (read)' };
const CANADA_SOURCE = 'Canadian Food Inspection Agency, Fish labelling: smoked or liquid-smoked fish (read)';
const CANADA_FROZEN: LabelBlock = {
  element: 'L08', text: 'Keep Frozen Prior to Use / Garder congelé jusqu\u2019à utilisation', source: CANADA_SOURCE,
};
/** The same in French alone, for a pack that leaves Canada's rule aside. */
const FRENCH_FROZEN: LabelBlock = { element: 'L08', text: 'Garder congelé jusqu\u2019à utilisation', source: CANADA_SOURCE };
const CANADA_CHILLED: LabelBlock = { element: 'L08', text: 'Keep Refrigerated', source: CANADA_SOURCE };

/** Phrases whose letters must be as large as the food's name (Wisconsin, Canada). */
export const AS_LARGE_AS_NAME: ReadonlySet<string> = new Set([WISCONSIN_CHILLED.text, WISCONSIN_FROZEN.text, CANADA_FROZEN.text]);

/** Days from smoking within which Michigan (second-hand) and, for air packs, Canada (read) want the shelf life on the label. */
const SHELF_LIFE_DAYS = 14;

/** The words for keeping and thawing, and what the jurisdiction wants beside them. */
export function storagePart(keeping: Keeping, dates: ReadDates, lotDay: CalendarDay): LabelPart {
  const words = keeping.store === 'frozen' ? frozenBlocks(keeping) : chilledBlocks(keeping);
  const hasFrench = words.includes(CANADA_FROZEN) || keeping.secondLanguage !== 'fr' || keeping.store !== 'frozen';
  const blocks = hasFrench ? words : [...words, FRENCH_FROZEN];
  return { blocks, missing: keeping.store === 'frozen' ? [] : chilledGaps(keeping, dates, lotDay) };
}

function frozenBlocks({ jurisdiction, pack }: Keeping): readonly LabelBlock[] {
  const ours = pack === 'vacuum' ? FROZEN_VACUUM : FROZEN_OPEN;
  if (jurisdiction === 'us-wi') return [WISCONSIN_FROZEN, ours];
  if (jurisdiction === 'ca-on' && pack === 'vacuum') return [CANADA_FROZEN, ours];
  return [ours];
}

function chilledBlocks({ jurisdiction, process, pack, isCustom }: Keeping): readonly LabelBlock[] {
  if (jurisdiction === 'us-ny') return [NEW_YORK_CHILLED];
  if (jurisdiction === 'us-mi') return [MICHIGAN_CHILLED];
  if (jurisdiction === 'us-wi' && process === 'cold' && pack === 'vacuum') return [WISCONSIN_CHILLED];
  if (jurisdiction === 'us-ak' && isCustom && pack === 'vacuum') return [ALASKA_CHILLED];
  if (jurisdiction === 'ca-on' && pack !== 'vacuum') return [CANADA_CHILLED, CHILLED];
  return [CHILLED];
}

function chilledGaps(keeping: Keeping, dates: ReadDates, lotDay: CalendarDay): readonly LabelGap[] {
  const { jurisdiction, pack } = keeping;
  if (jurisdiction === 'ca-on' && pack === 'vacuum') {
    return [{ element: 'L08', why: 'Canada wants a sealed pack kept frozen unless it holds 9 % salt or more. Freeze the pack, or keep a laboratory’s salt result with the batch.' }];
  }
  if (jurisdiction !== 'us-mi' && jurisdiction !== 'ca-on') return [];
  const printed = [isUnprovenUseBy(keeping) ? undefined : dates.useBy, dates.bestBy].filter((day) => day !== undefined);
  const start = dates.smokedOn ?? lotDay;
  const place = jurisdiction === 'us-mi' ? 'Michigan' : 'Canada';
  if (printed.length === 0) {
    return [{ element: 'L08', why: `${place} wants a shelf life of ${SHELF_LIFE_DAYS} days or less from smoking on a chilled pack. Enter a use-by or best-by date; where the fish was packed too late for one, freeze the pack.` }];
  }
  return printed
    .filter((day) => daysBetween(start, day) > SHELF_LIFE_DAYS)
    .map((day) => ({
      element: 'L08',
      why: `${dayInWords(day)} is more than ${SHELF_LIFE_DAYS} days after smoking, the longest that ${place} allows a chilled pack. Enter an earlier date.`,
    }));
}
