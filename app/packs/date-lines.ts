/** Dates on a label, in words, tested for order; and the lot beside them. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { dayInWords, daysBetween, readDay, type CalendarDay } from './dates.ts';
import type { Jurisdiction, LabelBlock, LabelDates, LabelGap, LabelPack, LabelPart, LabelStore } from './label-types.ts';
import type { LotCode } from './lot-code.ts';

/** The days of a label, read. */
export interface ReadDates {
  readonly packedOn: CalendarDay;
  readonly smokedOn: CalendarDay | undefined;
  readonly useBy: CalendarDay | undefined;
  readonly bestBy: CalendarDay | undefined;
}

/** A cold-smoke load that dries first may end on the second day after the one its code names (common practice). */
const LONGEST_LOAD_DAYS = 2;
const LOT_SOURCE = '1 NYCRR 262.8(d) (read); Mich. Admin. Code R 285.569.7(4) (read)';
const DAY_SOURCE = 'Mich. Admin. Code R 285.569.7(4) (read); form of the date: common practice';
const QUALITY_SOURCE = 'USDA FSIS, Food Product Dating, Dec 2016: “Best if Used By” (read)';
const USE_BY_SOURCE = 'a date must carry the phrase that says what it means: 9 CFR 317.8(b)(32) (read in part)';

/**
 * Reads the dates of a label.
 * @returns the days, or a sentence naming the field: no such day, smoked after packed, use-by or best-by not after packed
 */
export function readDates(dates: LabelDates): Outcome<ReadDates> {
  const packedOn = readDay(dates.packedOn, 'dates.packedOn');
  if (!packedOn.ok) return packedOn;
  const smokedOn = readOptional(dates.smokedOn, 'dates.smokedOn');
  if (!smokedOn.ok) return smokedOn;
  const useBy = readOptional(dates.useBy, 'dates.useBy');
  if (!useBy.ok) return useBy;
  const bestBy = readOptional(dates.bestBy, 'dates.bestBy');
  if (!bestBy.ok) return bestBy;
  const read = { packedOn: packedOn.value, smokedOn: smokedOn.value, useBy: useBy.value, bestBy: bestBy.value };
  return inOrder(read);
}

/**
 * Lot, days and end dates as blocks. A use-by date on a chilled vacuum pack stays off the label:
 * it would promise a shelf life that only a proven process can carry (21 CFR 123.16, read).
 */
export function datePart(lot: LotCode, dates: ReadDates, keeping: { pack: LabelPack; store: LabelStore; jurisdiction: Jurisdiction }): LabelPart {
  const serial = lot.serial === undefined ? '' : `-${String(lot.serial).padStart(3, '0')}`;
  const blocks: LabelBlock[] = [{ element: 'L09', text: `Lot ${lot.code}${serial}`, source: LOT_SOURCE }];
  if (dates.smokedOn !== undefined) blocks.push({ element: 'L09', text: `Smoked ${dayInWords(dates.smokedOn)}`, source: DAY_SOURCE });
  blocks.push({ element: 'L09', text: `Packed ${dayInWords(dates.packedOn)}`, source: DAY_SOURCE });
  const missing: LabelGap[] = [...lotGaps(lot, dates, keeping.jurisdiction)];
  if (dates.useBy !== undefined) {
    if (isUnprovenUseBy(keeping)) missing.push({ element: 'L09', why: unprovenUseBy(dates.useBy) });
    else blocks.push({ element: 'L09', text: `Use by ${dayInWords(dates.useBy)}`, source: USE_BY_SOURCE });
  }
  if (dates.bestBy !== undefined) blocks.push({ element: 'L09', text: `Best if used by ${dayInWords(dates.bestBy)}`, source: QUALITY_SOURCE });
  return { blocks, missing };
}

/** Whether a use-by date would rest on trust alone: a vacuum pack that is not frozen. */
export function isUnprovenUseBy(keeping: { pack: LabelPack; store: LabelStore }): boolean {
  return keeping.pack === 'vacuum' && keeping.store === 'refrigerated';
}

function unprovenUseBy(useBy: CalendarDay): string {
  return `The use-by date ${dayInWords(useBy)} needs proof and is not printed: a chilled vacuum pack keeps only as long as a process authority or a study shows. Freeze the pack, or leave the date off until the shelf life is proven.`;
}

function lotGaps(lot: LotCode, { smokedOn, packedOn }: ReadDates, jurisdiction: Jurisdiction): readonly LabelGap[] {
  const gaps: LabelGap[] = [];
  const lotDay = dayInWords(lot.smokedOn);
  if (smokedOn !== undefined && isOtherLoad(lot.smokedOn, smokedOn)) {
    gaps.push({ element: 'L09', why: `Lot ${lot.code} was smoked on ${lotDay}, the label says ${dayInWords(smokedOn)}. Enter the lot’s own day of smoking, or the right lot.` });
  }
  if (daysBetween(lot.smokedOn, packedOn) < 0) {
    gaps.push({ element: 'L09', why: `Lot ${lot.code} was smoked on ${lotDay}, after the day it was packed. Enter the right lot or the right day of packing.` });
  }
  if (jurisdiction === 'us-wi' && smokedOn === undefined) {
    gaps.push({ element: 'L09', why: 'Wisconsin wants the processing date on every pack (ATCP 70.46(1)(f)). Enter the day of smoking.' });
  }
  return gaps;
}

/** Whether a day of smoking can't be that of the lot's load: earlier, or later than a load runs. */
function isOtherLoad(lotDay: CalendarDay, smokedOn: CalendarDay): boolean {
  const days = daysBetween(lotDay, smokedOn);
  return days < 0 || days > LONGEST_LOAD_DAYS;
}

function readOptional(text: string | undefined, field: string): Outcome<CalendarDay | undefined> {
  return text === undefined ? good(undefined) : readDay(text, field);
}

function inOrder(dates: ReadDates): Outcome<ReadDates> {
  const packed = dayInWords(dates.packedOn);
  if (dates.smokedOn !== undefined && daysBetween(dates.smokedOn, dates.packedOn) < 0) {
    return bad(`The fish can’t be packed on ${packed}, before it was smoked on ${dayInWords(dates.smokedOn)}.`, 'dates.smokedOn', 'Check both dates.');
  }
  for (const [field, day] of [['useBy', dates.useBy], ['bestBy', dates.bestBy]] as const) {
    if (day !== undefined && daysBetween(dates.packedOn, day) <= 0) {
      return bad(`The date ${dayInWords(day)} is not after the day of packing, ${packed}.`, `dates.${field}`, 'Enter a later day.');
    }
  }
  return good(dates);
}
