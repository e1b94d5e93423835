/** What a batch was, beside each limit of its scheduled process, in exact decimals. */
import { compareDecimals, decimalFrom } from '../../../app/limits/decimals.ts';
import type { ScheduledProcess, WindowItem } from '../../../app/limits/scheduled-process.ts';
import { ticksFromDecimal, TICKS_PER_CELSIUS, TICKS_PER_FAHRENHEIT } from '../../../app/measures/temperature.ts';
import type { Stored, StoredBatch } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { weightOf } from './batch-weights.ts';
import { kitchenOf } from './kitchen.ts';
import { dayEndMs, dayStartMs } from './paper-records.ts';

type Scheduled = Stored<'scheduledProcesses'>;

/** A figure that has no end is cut here, to the side against the batch; limits have four decimals at most. */
const PLACES = 6;
const HOUR_MS = 3_600_000n;
/** 0 °F in ticks: 0 ticks is 0 °C. */
const ZERO_FAHRENHEIT_TICKS = -32 * TICKS_PER_FAHRENHEIT;

/**
 * The scheduled process a batch is judged by, with what the batch was; undefined where it has none.
 * What is not recorded has no figure, which the judge takes as outside.
 */
export function scheduledOf(room: BookRoom, batch: StoredBatch): ScheduledProcess | undefined {
  const scheduled = batch.scheduledId === null ? undefined : room.book.shelf('scheduledProcesses').need(batch.scheduledId);
  if (scheduled === undefined) return undefined;
  const paper = room.book.shelf('papers').get(scheduled.paperId);
  const zone = kitchenOf(room.book).timeZone;
  return {
    name: scheduled.name,
    window: windowOf(room, scheduled, batch),
    letter: paper !== undefined && countsFor(paper, batch, zone) ? { authority: paper.issuedBy, number: paper.number, fileId: paper.fileId ?? '' } : undefined,
    verifiedFromMs: scheduled.verifiedOn === null ? undefined : dayStartMs(scheduled.verifiedOn, zone),
    verifiedUntilMs: scheduled.verifiedUntil === null ? undefined : dayEndMs(scheduled.verifiedUntil, zone),
  };
}

/** A letter that was struck out, or was not valid on the day the batch was made, is none. */
function countsFor({ struck, validFrom, validUntil }: Stored<'papers'>, { madeAtMs }: StoredBatch, zone: string): boolean {
  return struck === null && (validFrom === null || madeAtMs >= dayStartMs(validFrom, zone)) && (validUntil === null || madeAtMs <= dayEndMs(validUntil, zone));
}

function windowOf(room: BookRoom, scheduled: Scheduled, batch: StoredBatch): WindowItem[] {
  return [
    ...recipeItem(room, scheduled, batch),
    ...limitItem('brine for each part of fish', scheduled.ratioAtLeast, 'at-least', ratioText(batch)),
    ...limitItem('thickest piece in mm', scheduled.thicknessMmAtMost, 'at-most', String(batch.thickestMm)),
    ...limitItem('hours in the brine', scheduled.soakHoursAtLeast, 'at-least', soakHoursText(batch)),
    ...brineItem(scheduled, batch),
    ...limitItem('finished weight in % of the brined', scheduled.yieldPercentAtMost, 'at-most', yieldText(batch)),
  ];
}

function limitItem(what: string, limit: string, side: WindowItem['side'], actual: string | undefined): WindowItem[] {
  return limit === '' ? [] : [{ what, limit, side, actual }];
}

/** The recipe by its id, said by its name; its version where the letter names one. */
function recipeItem(room: BookRoom, { recipeId, recipeVersion }: Scheduled, { card }: StoredBatch): WindowItem[] {
  if (recipeId === null) return [];
  const say = (name: string, version: number): string => (recipeVersion === null ? `“${name}”` : `“${name}”, version ${version}`);
  const name = room.book.shelf('recipes').need(recipeId).name;
  const limit = say(name, recipeVersion ?? card.recipeVersion);
  if (card.recipeId === recipeId) return [{ what: 'recipe', side: 'exactly', limit, actual: say(name, card.recipeVersion) }];
  const other = say(card.recipeName, card.recipeVersion);
  return [{ what: 'recipe', side: 'exactly', limit, actual: other === limit ? `${other} of another recipe` : other }];
}

/** The ratio that the card was made for, or less where a mend left less brine; a dry cure has none. */
function ratioText({ card, mends, fillets }: StoredBatch): string | undefined {
  if (card.cure === 'dry') return undefined;
  const made = quotient(decimal(card.ratio), decimal(1), 'down');
  const mended = mends.map(({ after }) => quotient(decimal(after.totalGrams), decimal(fillets.grams), 'down'));
  return mended.reduce((least, one) => (compareDecimals(decimalFrom(one), decimalFrom(least)) < 0 ? one : least), made);
}

function soakHoursText({ soak }: StoredBatch): string | undefined {
  const start = soak.find(({ what }) => what === 'start')?.atMs;
  const end = soak.find(({ what }) => what === 'end')?.atMs;
  return start === undefined || end === undefined || end < start ? undefined : quotient({ top: BigInt(end - start), bottom: 1n }, { top: HOUR_MS, bottom: 1n }, 'down');
}

/** The warmest brine on record, in the unit of the letter. */
function brineItem({ brineAtMost }: Scheduled, { soak }: StoredBatch): WindowItem[] {
  if (brineAtMost === null) return [];
  const { unit } = brineAtMost;
  const zeroTicks = unit === 'F' ? ZERO_FAHRENHEIT_TICKS : 0;
  const perDegree = unit === 'F' ? TICKS_PER_FAHRENHEIT : TICKS_PER_CELSIUS;
  const said = (ticks: number): string => quotient({ top: BigInt(ticks - zeroTicks), bottom: 1n }, { top: BigInt(perDegree), bottom: 1n }, 'up');
  const read = soak.flatMap(({ brineTicks }) => (brineTicks === null ? [] : [brineTicks]));
  return [{
    what: `warmest brine in °${unit}`, side: 'at-most', limit: said(unwrap(ticksFromDecimal(brineAtMost.text, unit)).highTicks),
    actual: read.length === 0 ? undefined : said(Math.max(...read)),
  }];
}

function yieldText(batch: StoredBatch): string | undefined {
  const brined = weightOf(batch, 'brined')?.mass.grams;
  const finished = weightOf(batch, 'finished')?.mass.grams;
  if (brined === undefined || finished === undefined) return undefined;
  const { top, bottom } = decimal(finished);
  return quotient({ top: top * 100n, bottom }, decimal(brined), 'up');
}

interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

/** Grams as kept have at most twelve decimals; taken as the decimal that the number prints. */
function decimal(value: number): Fraction {
  const match = /^(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value));
  if (match === null) throw new Error(`not a weight: ${value}`);
  const [, whole = '', fraction = '', exponent = '0'] = match;
  const places = fraction.length - Number(exponent);
  const digits = BigInt(`${whole}${fraction}`);
  return places >= 0 ? { top: digits, bottom: 10n ** BigInt(places) } : { top: digits * 10n ** BigInt(-places), bottom: 1n };
}

/** left ÷ right with six decimals, cut to one side, without closing noughts; right above 0. */
function quotient(left: Fraction, right: Fraction, side: 'up' | 'down'): string {
  const top = left.top * right.bottom * 10n ** BigInt(PLACES);
  const bottom = left.bottom * right.top;
  const whole = top / bottom;
  const hasRest = top % bottom !== 0n;
  // Division of big integers cuts towards nought.
  const cut = hasRest && side === 'up' && top > 0n ? whole + 1n : hasRest && side === 'down' && top < 0n ? whole - 1n : whole;
  const digits = (cut < 0n ? -cut : cut).toString().padStart(PLACES + 1, '0');
  const text = `${digits.slice(0, -PLACES)}.${digits.slice(-PLACES)}`.replace(/\.?0+$/, '');
  return cut < 0n ? `-${text}` : text;
}
