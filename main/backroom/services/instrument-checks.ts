/** The checks of thermometers as they stand in the book, for those who judge by them. */
import type { Instrument } from '../../../app/contract/requests/office.ts';
import type { FiledRecord } from '../../../app/limits/on-file.ts';
import { differenceTicks, TICKS_PER_FAHRENHEIT } from '../../../app/measures/temperature.ts';
import { inBoilingWater, inIce, inOrder, type Difference, type InstrumentCheck, type InstrumentFacts } from '../../../app/probes/instrument-check.ts';
import type { CheckPoint } from '../../../app/probes/correction.ts';
import { remainingError } from '../../../app/probes/remaining-error.ts';
import type { StoredInstrumentCheck } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { OpenBook } from '../room.ts';

/** Where nobody told the step that a thermometer shows: whole degrees Fahrenheit, as dials and plain displays do (common practice). */
const USUAL_STEP: Difference = { value: '1', unit: 'F' };
/** What an unchecked thermometer is taken to be off by; an instrument that has another error had it told by the kitchen. */
const UNCHECKED_TICKS = differenceTicks(2, 'F');
const PASCAL_PER_HECTOPASCAL = 100;

/** Every check of one thermometer, in order of time. */
export function checksOf(book: OpenBook, instrumentId: string): InstrumentCheck[] {
  return inOrder(book.shelf('instrumentChecks').where('instrumentId', instrumentId).flatMap((check) => checkOf(check) ?? []));
}

/** A stored check as its points; undefined for one without any. */
export function checkOf(stored: Pick<StoredInstrumentCheck, 'atMs' | 'ice' | 'boiling' | 'altitudeMetres' | 'pressureHectopascals'>): InstrumentCheck | undefined {
  const ice = stored.ice === null ? [] : [inIce(stored.ice)];
  const [first, second] = [...ice, ...boilingOf(stored)];
  if (first === undefined) return undefined;
  return { atMs: stored.atMs, points: second === undefined ? [first] : [first, second] };
}

function boilingOf({ boiling, altitudeMetres, pressureHectopascals }: Pick<StoredInstrumentCheck, 'boiling' | 'altitudeMetres' | 'pressureHectopascals'>): CheckPoint[] {
  if (boiling === null) return [];
  if (pressureHectopascals !== null) return [unwrap(inBoilingWater(boiling, { stationPascal: pressureHectopascals * PASCAL_PER_HECTOPASCAL }))];
  if (altitudeMetres !== null) return [unwrap(inBoilingWater(boiling, { altitudeMetres }))];
  throw new Error('A check in boiling water was kept without altitude or pressure.');
}

/** What is known of a thermometer from its maker, or failing that from the kitchen. */
export function factsOf({ resolution, accuracyClass, errorTicks }: Instrument): InstrumentFacts {
  const told = errorTicks === UNCHECKED_TICKS ? undefined : { value: String(errorTicks / TICKS_PER_FAHRENHEIT), unit: 'F' as const };
  return { resolution: resolution ?? USUAL_STEP, accuracyClass: accuracyClass ?? told, scale: 'both' };
}

/**
 * How far a thermometer may be off after what its checks found is taken out: what the checks leave open, or
 * without any what the kitchen told, else 2 °F.
 * @param use `hot` for what runs from fish in to cooled
 */
export function errorOf(book: OpenBook, instrument: Instrument, use: 'cold' | 'hot'): { readonly ticks: number; readonly ground: string } {
  const checks = checksOf(book, instrument.id);
  if (checks.length === 0) return { ticks: instrument.errorTicks, ground: instrument.errorGround };
  const { totalTicks, ground } = remainingError(checks, factsOf(instrument), use);
  return { ticks: totalTicks, ground };
}

/** The checks of some thermometers as papers on file: under the thermometer's name, a full one at two points, and one in ice. */
export function filedChecks(book: OpenBook, instruments: readonly Instrument[]): FiledRecord[] {
  return instruments.flatMap(({ id, name }) => book.shelf('instrumentChecks').where('instrumentId', id).flatMap((check): FiledRecord[] => {
    const record = { number: name, holder: check.initials, validFromMs: check.atMs, onFileMs: check.enteredAtMs };
    return [
      ...(check.ice !== null && check.boiling !== null ? [{ ...record, what: 'probe-check' as const }] : []),
      ...(check.ice === null ? [] : [{ ...record, what: 'ice-check' as const }]),
    ];
  }));
}
