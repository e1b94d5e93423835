/** What a column's heading (and the cell of a units row under it) says: the unit, the time's unit, the kind of column. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { unitFromWord } from './log-cells.ts';

interface HeadingUnit {
  /** `other`: a unit that is none of temperature, or a quantity that is none. */
  readonly unit: TemperatureUnit | 'other' | undefined;
  /** The heading without its unit: the name of the place. */
  readonly name: string;
}

const DEGREE = String.raw`(?:[°º˚\uFFFD]|Â°|\bdeg(?:rees?)?\.?|_deg)`;
const LETTER = String.raw`(c|f|cel|celsius|centigrade|fahrenheit)`;
const UNIT_IN_HEADING: readonly RegExp[] = [
  new RegExp(String.raw`\s*[([{<]\s*(?:${DEGREE})?\s*${LETTER}\s*[)\]}>]`, 'i'),
  new RegExp(String.raw`\s*[,/:-]?\s*(?:\bin\s+)?${DEGREE}[\s_]*${LETTER}(?![A-Za-z])`, 'i'),
  /[\s_,/:-]*(?:\bin\s+)?\b(celsius|centigrade|fahrenheit)\b/i,
  /(?<=temp(?:erature)?s?)[\s_\-.,:/]+(c|f)(?=$|[\s_\d])/i,
  /\s*[,/]\s*(c|f)$/i,
];
/** `P1 F`, `T1_C`: a unit only when every reading column ends so; `Rack 2 C` beside `Rack 2 A` is a name. */
const LOOSE_UNIT = /(?<=\d)[\s_]+([CF])$/;
const OTHER_UNIT = /[([{]\s*(?:%|% ?r\.?h\.?|r\.?h\.?|m?v|volts?|m?a|k?w|h?pa|kpa|psi|m?bar|g|kg|lbs?|oz|rpm|ppm|dbm?|m\/s|k|hz|lux|w\/m2)\s*[)\]}]/i;
const OTHER_QUANTITY = /%|humid|\br\.?h\.?\b|batt|volt|signal|rssi|pressure|weight|\bfan\b|damper|dew ?point|\blatitude|\blongitude|firmware/i;
const ASIDE = /\bset ?-?point\b|\btarget\b|\balarm\b|\blimit\b|\bset (?:temp|value)/i;
const COUNTER = /^(?:#|no\.?|nr\.?|n|index|idx|id|row|line|entry|scan|point|count|counter|seq(?:uence)?|record|sample|(?:record|sample|reading|row|entry)[ _]?(?:no\.?|number|#|id)|lfd\.? ?(?:nr\.?)?)$/i;
const NOTE = /\bnotes?\b|comment|\bevents?\b|remark|marker|annotation|memo|bemerkung/i;
const ELAPSED = /elapsed|duration|run ?time|\bsince\b|\bminutes?\b|\bseconds?\b|\bhours\b|\bmins?\b|\bsecs?\b|\bt ?\+/i;
const TIME = /time|date|stamp|clock|epoch|unix|\bwhen\b|uhrzeit|zeit|datum|heure|\bhora\b|fecha/i;
const CHANNEL_SURE = /^(?:channel|probe|sensor|ch|input|port|place|piece)(?:[ _]?(?:no\.?|nr\.?|number|id|name|#))?$/i;
const CHANNEL_LIKELY = /^(?:location|position|tag|series|device|logger|name|variable|measurement|item|parameter|source|label)(?:[ _]?(?:no\.?|nr\.?|number|id|name|#))?$/i;
const ZONE_IN_HEADING = /\b(?:UTC|GMT)(?:\s*([+\-−])\s*(\d{1,2})(?::?(\d{2}))?)?(?![A-Za-z])/i;

/** The unit in a heading, as `P1 [°C]`, `Probe 1 (F)`, `Temp_C`, `Temperature, degF`. */
export function unitFromHeading(heading: string): HeadingUnit {
  const text = heading.slice(0, 200);
  for (const pattern of UNIT_IN_HEADING) {
    const match = pattern.exec(text);
    const unit = match === null ? undefined : unitFromWord(match[1] ?? '');
    if (match !== null && unit !== undefined) return { unit, name: tidyName(text.replace(match[0], ' ')) };
  }
  if (OTHER_UNIT.test(text) || OTHER_QUANTITY.test(text)) return { unit: 'other', name: text };
  return { unit: undefined, name: tidyName(text) };
}

/** The unit of headings that all end in a lone C or F after a figure; none when one of them doesn't. */
export function looseUnits(headings: readonly string[]): readonly HeadingUnit[] | undefined {
  const found: HeadingUnit[] = [];
  for (const heading of headings) {
    const match = LOOSE_UNIT.exec(heading.slice(0, 200));
    if (match === null) return undefined;
    found.push({ unit: match[1] === 'F' ? 'F' : 'C', name: tidyName(heading.slice(0, match.index)) });
  }
  return found;
}

/** Milliseconds of one unit of an elapsed time, when heading or units row say it. */
export function elapsedUnitMs(heading: string, unitsCell: string): number | undefined {
  const text = `${heading} ${unitsCell}`.slice(0, 200).replaceAll('_', ' ');
  if (/\b(?:ms|msec|milliseconds?)\b/i.test(text)) return 1;
  if (/\b(?:s|secs?|seconds?|sekunden)\b/i.test(text)) return 1000;
  if (/\b(?:min|mins|minutes?|minuten)\b/i.test(text)) return 60_000;
  return /\b(?:h|hrs?|hours?|stunden)\b/i.test(text) ? 3_600_000 : undefined;
}

/** Minutes east of UTC that a heading such as `Date Time, GMT-07:00` or `Time (UTC)` states. */
export function offsetFromHeading(heading: string): number | undefined {
  const match = ZONE_IN_HEADING.exec(heading.slice(0, 200));
  if (match === null) return undefined;
  const [, sign = '+', hours = '0', minutes = '0'] = match;
  const total = Number(hours) * 60 + Number(minutes);
  if (total > 18 * 60) return undefined;
  return sign === '+' ? total : -total;
}

export type HeadingHint = 'counter' | 'aside' | 'note' | 'elapsed' | 'time' | 'channel' | 'likely-channel' | 'none';

/** The kind of column that a heading names. */
export function hintFromHeading(heading: string): HeadingHint {
  const text = heading.trim().slice(0, 200).replaceAll('_', ' ');
  if (CHANNEL_SURE.test(text)) return 'channel';
  if (COUNTER.test(text)) return 'counter';
  if (CHANNEL_LIKELY.test(text)) return 'likely-channel';
  if (ASIDE.test(text)) return 'aside';
  if (NOTE.test(text)) return 'note';
  if (ELAPSED.test(text)) return 'elapsed';
  return TIME.test(text) ? 'time' : 'none';
}

/** Whether a row holds nothing but units (`(s)`, `(degC)`, `hh:mm:ss`, `%`). */
export function isUnitsRow(fields: readonly string[]): boolean {
  let units = 0;
  for (const field of fields) {
    if (field === '') continue;
    if (!isUnitsCell(field)) return false;
    units += 1;
  }
  return units > 0;
}

/** The temperature unit of a units row's cell, `other` for another unit, `undefined` for an empty cell. */
export function unitFromUnitsCell(cell: string): TemperatureUnit | 'other' | undefined {
  const bare = bareUnit(cell);
  return bare === '' ? undefined : (unitFromWord(bare) ?? 'other');
}

function isUnitsCell(field: string): boolean {
  const bare = bareUnit(field);
  if (unitFromWord(bare) !== undefined) return true;
  return /^(?:s|secs?|seconds?|ms|min|mins|minutes?|h|hrs?|hours?|%|% ?rh|rh|m?v|k|h?pa|kpa|bar|psi|[ymdhs:.\-/ t]*(?:yy|dd|mm|hh|ss)[ymdhs:.\-/ t]*|date|time|utc)$/i.test(bare);
}

function bareUnit(cell: string): string {
  return cell.length > 30 ? cell : cell.replace(/^[([{<]\s*|\s*[)\]}>]$/g, '').trim();
}

function tidyName(name: string): string {
  return name.replace(/\s+/g, ' ').replace(/^[\s,;:/_-]+|[\s,;:/_-]+$/g, '').trim();
}
