/** Thermometers with their checks in ice and in boiling water, and when the next one is due. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { InstrumentCheck as CheckWire, InstrumentState } from '../../../app/contract/requests/evidence.ts';
import type { Instrument } from '../../../app/contract/requests/office.ts';
import type { TypedTemperature } from '../../../app/contract/requests/quantities.ts';
import { minuteWords } from '../../../app/limits/words.ts';
import { differenceTicks } from '../../../app/measures/temperature.ts';
import { biasTicks, correctionFrom, type CheckPoint } from '../../../app/probes/correction.ts';
import { findingOf, FULL_CHECK_MONTHS, isDue, lastCheck } from '../../../app/probes/instrument-check.ts';
import type { StoredInstrumentCheck } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { checkOf, checksOf, errorOf, factsOf } from './instrument-checks.ts';
import { kitchenOf } from './kitchen.ts';
import { rejudge } from './rejudging.ts';
import { reachedByCheck } from './rejudging-reach.ts';
import { readTypedTemperature } from './typed-temperature.ts';
import { refuseFuture, sayInstant, zoneOf } from './when.ts';

export const instrumentServices = {
  'instrument.list': (room: BookRoom): Output<'instrument.list'> => ({ instruments: room.book.shelf('instruments').all().map((instrument) => stateOf(room, instrument)) }),
  'instrument.check': (room: BookRoom, input: Parsed<'instrument.check'>): Output<'instrument.check'> => {
    const check = keepCheck(room, input);
    const { name } = room.book.shelf('instruments').need(input.instrumentId);
    return { check, affectedBatches: rejudge(room, reachedByCheck(room, input.instrumentId, input.atMs), `${name} was checked`) };
  },
} satisfies Services<'instrument.list' | 'instrument.check'>;

/** Ice that reads so far from the ice point is no ice, or the figure is in the other unit. */
const FARTHEST_TICKS = differenceTicks(20, 'F');

/** How a thermometer stands: its checks, newest first, and what is due. */
export function stateOf(room: BookRoom, instrument: Instrument): InstrumentState {
  const stored = room.book.shelf('instrumentChecks').where('instrumentId', instrument.id).toSorted((left, right) => right.atMs - left.atMs);
  const checks = checksOf(room.book, instrument.id);
  const nowMs = room.clock.nowMs();
  const timeZone = zoneOf(room);
  const iceMs = stored.find((check) => check.ice !== null && check.atMs <= nowMs)?.atMs;
  const dueToday = isDue(iceMs, nowMs, { kind: 'same-day', timeZone });
  const overdue = isDue(lastCheck(checks, nowMs, 'full')?.atMs, nowMs, { kind: 'months', months: FULL_CHECK_MONTHS, timeZone });
  const error = errorOf(room.book, instrument, 'hot');
  const { temperatureUnit } = kitchenOf(room.book);
  const said = stored.map((check) => wireCheck(room, instrument, check));
  return {
    instrument, checks: said, dueToday, overdue,
    text: [
      iceMs === undefined ? 'Never checked in ice.' : `${dueToday ? 'Last checked' : 'Checked'} in ice ${sayInstant(room, iceMs)}${dueToday ? ': due today before a load' : ''}. ${said[0]?.text ?? ''}`.trim(),
      `What stays open: ${minuteWords(temperatureUnit).difference(error.ticks)} either way (${error.ground}).`,
      overdue ? 'No check at two points within 12 months.' : '',
    ].filter((text) => text !== '').join(' '),
  };
}

/**
 * Keeps a check.
 * @throws Refusal INVALID_INPUT: nothing read, boiling water without altitude or pressure, a figure that is neither
 *   ice nor boiling water, a time still to come
 */
function keepCheck(room: BookRoom, input: Parsed<'instrument.check'>): CheckWire {
  const instrument = room.book.shelf('instruments').need(input.instrumentId);
  refuseFuture(room, input.atMs, ['atMs']);
  if (input.ice === null && input.boiling === null) refuseInput('Nothing was read.', ['ice'], 'Type what it shows in ice, in boiling water, or both.');
  const person = actingPerson(room);
  const stored: StoredInstrumentCheck = {
    id: room.newId(), instrumentId: instrument.id, atMs: input.atMs, enteredAtMs: room.clock.nowMs(), initials: person.initials, personId: person.id,
    ice: read(input.ice, 'ice'), boiling: read(input.boiling, 'boiling'), ...placeOf(input),
  };
  for (const point of checkOf(stored)?.points ?? []) refuseFar(point);
  room.book.shelf('instrumentChecks').put(stored);
  const check = wireCheck(room, instrument, stored);
  room.book.record({
    kind: 'instrument.check', subjectId: instrument.id, happenedAtMs: stored.atMs,
    summary: `${person.initials} checked ${instrument.name}: ${check.text}`, after: stored,
  });
  room.changed('office', [instrument.id]);
  room.changed('verdict', []);
  return check;
}

function read(typed: TypedTemperature | null, field: string): StoredInstrumentCheck['ice'] {
  if (typed === null) return null;
  const { text, lowTicks, highTicks } = readTypedTemperature(typed, [field, 'text']);
  return { text, unit: typed.unit, lowTicks, highTicks };
}

/** Where the water boiled: by the pressure at the place where it was read, else by its altitude. */
function placeOf({ boiling, altitudeMetres, pressureHectopascals }: Parsed<'instrument.check'>): Pick<StoredInstrumentCheck, 'altitudeMetres' | 'pressureHectopascals'> {
  const altitude = numberOf(altitudeMetres, 'altitudeMetres', 'm');
  const pressure = numberOf(pressureHectopascals, 'pressureHectopascals', 'hPa');
  if (boiling !== null && altitude === null && pressure === null) {
    refuseInput('Where water boils depends on the place.', ['altitudeMetres'], 'Give the altitude in metres (1000 ft are 305 m), or the air pressure at the place in hPa.');
  }
  return { altitudeMetres: altitude, pressureHectopascals: pressure };
}

function numberOf(typed: string, field: string, unit: string): number | null {
  const text = typed.trim().replace('\u2212', '-');
  if (text === '') return null;
  if (!/^-?\d+(\.\d+)?$/.test(text)) refuseInput(`“${typed}” is not a number of ${unit}.`, [field], 'Type digits, with a point where needed.');
  return Number(text);
}

function refuseFar(point: CheckPoint): void {
  if (Math.max(...biasTicks(point).map(Math.abs)) <= FARTHEST_TICKS) return;
  const where = point.kind === 'ice' ? 'ice' : 'boiling water';
  refuseInput(`That is more than 20 °F from ${where}.`, [point.kind, 'text'], `Check the figure and its unit; stir the ${point.kind === 'ice' ? 'ice with a little water' : 'water at a rolling boil'}.`);
}

function wireCheck(room: BookRoom, instrument: Instrument, stored: StoredInstrumentCheck): CheckWire {
  const check = checkOf(stored);
  if (check === undefined) throw new Error('A check without a point is in the book.');
  const { verdict, text } = findingOf(check, factsOf(instrument), kitchenOf(room.book).temperatureUnit);
  const correction = correctionFrom(check.points);
  const boiling = check.points.find((point) => point.kind === 'boiling');
  return {
    id: stored.id, instrumentId: instrument.id, atMs: stored.atMs, enteredAtMs: stored.enteredAtMs, initials: stored.initials,
    iceShownTicks: stored.ice?.lowTicks ?? null, boilingShownTicks: stored.boiling?.lowTicks ?? null,
    boilingTrueTicks: boiling?.reference.bounds.lowTicks ?? null,
    altitudeMetres: stored.altitudeMetres, pressureHectopascals: stored.pressureHectopascals,
    iceBiasTicks: worstBias(check.points.find((point) => point.kind === 'ice')), boilingBiasTicks: worstBias(boiling),
    withinClass: verdict === 'class-not-known' ? null : verdict === 'within-class',
    pastCorrecting: !correction.ok,
    text: correction.ok ? text : `${text} ${correction.problem.message} ${correction.problem.remedy ?? ''}`.trim(),
  };
}

/** The larger of the two that ticks leave possible. */
function worstBias(point: CheckPoint | undefined): number | null {
  if (point === undefined) return null;
  const [least, most] = biasTicks(point);
  return Math.abs(least) > Math.abs(most) ? least : most;
}
