/** What is looked at when packs are handed over, and what wasn't: named, never passed over. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { HandOver } from '../../../app/contract/requests/packs-where.ts';
import { exactTicks, formatDegrees } from '../../../app/measures/temperature.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';
import { readTypedTemperature } from './typed-temperature.ts';

type Looking = Pick<Parsed<'handOver.make'>, 'frozenHard' | 'box' | 'travelHours' | 'signature' | 'sheetGiven'>;

/** What the store is held to: 0 °F for frozen packs, 38 °F for chilled ones (our choice at the hand-over). */
const FROZEN_TICKS = exactTicks(0, 'F');
const CHILLED_TICKS = exactTicks(38, 'F');
/** Fish at this is thawing, whatever the touch says: raw fish begins to freeze at about 28 °F (common practice). */
const THAWING_TICKS = exactTicks(28, 'F');
/** Chilled fish over this is not kept cold: US Food Code 3-501.16(A)(2), 41 °F (read); that it then stays here is our choice. */
const WARM_TICKS = exactTicks(41, 'F');

export interface Looked {
  readonly frozenHard: HandOver['frozenHard'];
  readonly travelHours: number | null;
  readonly missed: string[];
}

/**
 * @param isFrozen whether frozen packs are among them
 * @throws Refusal INVALID_INPUT: a temperature or hours that can't be, fish that is thawing or warm
 */
export function lookedAt(room: BookRoom, { frozenHard, box, travelHours, signature, sheetGiven }: Looking, isFrozen: boolean): Looked {
  const hard = coldnessOf(room, frozenHard, isFrozen);
  const hours = hoursOf(travelHours);
  return {
    frozenHard: hard.kept, travelHours: hours,
    missed: [
      ...hard.missed,
      ...(box === '' ? ['The box they travel in is not named.'] : []),
      ...(hours === null ? ['How many hours they travel was not asked.'] : []),
      ...(signature === null ? ['Nobody signed.'] : []),
      ...(sheetGiven ? [] : ['The sheet on keeping and thawing was not given.']),
    ],
  };
}

function coldnessOf(room: BookRoom, { how, reading }: Looking['frozenHard'], isFrozen: boolean): { kept: HandOver['frozenHard']; missed: string[] } {
  if (how === 'not-checked') return { kept: { how, ticks: null, text: '' }, missed: [isFrozen ? 'Whether the packs were frozen hard was not checked.' : 'How cold the packs were was not checked.'] };
  if (how === 'touch') return { kept: { how, ticks: null, text: '' }, missed: isFrozen ? [] : ['How cold the packs were was only felt.'] };
  if (reading === null) refuseInput('The reading is missing.', ['frozenHard', 'reading', 'text'], 'Type what the thermometer shows, or choose touch.');
  const { highTicks, text } = readTypedTemperature(reading, ['frozenHard', 'reading']);
  const { temperatureUnit: unit } = kitchenOf(room.book);
  const say = (ticks: number): string => `${formatDegrees(ticks, unit, 1)} °${unit}`;
  if (isFrozen && highTicks >= THAWING_TICKS) refuseInput(`At ${say(highTicks)} the packs are thawing: fish begins to freeze at about ${say(THAWING_TICKS)} (common practice), so they are not frozen hard.`, ['frozenHard', 'reading', 'text'], 'Keep them here, and hold the batch until a manager has looked at the freezer.');
  if (!isFrozen && highTicks > WARM_TICKS) refuseInput(`At ${say(highTicks)} the packs are warm: over ${say(WARM_TICKS)} (US Food Code 3-501.16(A)(2)) chilled fish stays here.`, ['frozenHard', 'reading', 'text'], 'Keep them here, and hold the batch until a manager has looked at the cooler.');
  const limit = isFrozen ? FROZEN_TICKS : CHILLED_TICKS;
  return { kept: { how, ticks: highTicks, text: `${text} °${reading.unit}` }, missed: highTicks > limit ? [`The packs read ${say(highTicks)}, over ${say(limit)}.`] : [] };
}

function hoursOf(text: string): number | null {
  const trimmed = text.trim();
  if (trimmed === '') return null;
  if (/^\d{1,3}(\.\d{1,2})?$/.test(trimmed) && Number(trimmed) <= 200) return Number(trimmed);
  refuseInput(`“${trimmed}” is no number of hours.`, ['travelHours'], 'Type hours on the way, such as 6, or leave it empty and say why.');
}
