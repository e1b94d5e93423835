/** A kitchen with a smoker, probes and a batch ready for it, asked for as a front would. */
import type { Input, Output } from '../../app/contract/contract.ts';
import type { Failure, Reply } from '../../app/contract/envelope.ts';
import { openTestKitchen, type TestKitchen, type TestKitchenOptions } from '../support/test-kitchen.ts';
import { addPaper } from './paper-drafts.ts';
import { HOUR_MS, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';
import { chamberAir, coreIn, csvOf, steadyAir, type MinuteSeries } from './smoke-log.ts';

type Load = Output<'load.open'>['load'];

export interface Equipment {
  readonly smokerId: string;
  readonly probeIds: readonly string[];
  readonly chamberProbeId: string;
  readonly handId: string;
  readonly freezerId: string;
  readonly coolerId: string;
  readonly roomId: string;
}

export interface SmokeKitchen extends Equipment {
  readonly kitchen: TestKitchen;
  readonly batchId: string;
  /** When the soak ended; the clock stands there. */
  readonly readyMs: number;
}

/**
 * Three probes that are 1 °F off at most, a chamber probe, a hand thermometer, a smoker and the places.
 * @param mine put before each name, where a kitchen has such names already
 */
async function addEquipment(kitchen: TestKitchen, mine: string): Promise<Equipment> {
  const instrument = async (name: string, kind: Input<'office.addInstrument'>['kind']): Promise<string> =>
    (await kitchen.ask('office.addInstrument', { name: `${mine}${name}`, kind, error: { text: '1', unit: 'F' } })).id;
  const place = async (name: string, kind: Input<'office.addPlace'>['kind']): Promise<string> => (await kitchen.ask('office.addPlace', { name: `${mine}${name}`, kind })).id;
  const probeIds = [await instrument('Probe 1', 'wired-probe'), await instrument('Probe 2', 'wired-probe'), await instrument('Probe 3', 'wired-probe')];
  const chamberProbeId = await instrument('Chamber probe', 'wired-probe');
  const handId = await instrument('Hand thermometer', 'hand-thermometer');
  const { id: smokerId } = await kitchen.ask('office.addSmoker', { name: 'Old smoker', chamberInstrumentId: chamberProbeId, probeIds });
  return {
    smokerId, probeIds, chamberProbeId, handId,
    freezerId: await place('Chest freezer', 'freezer'), coolerId: await place('Walk-in cooler', 'cooler'), roomId: await place('Brining room', 'brining-room'),
  };
}

/** A batch whose two-hour soak has just ended. */
export async function openSmokeKitchen(
  batch: Partial<Input<'batch.make'>> = {}, lot: Partial<Input<'fishLot.receive'>> = {}, options: TestKitchenOptions = {},
): Promise<SmokeKitchen> {
  const kitchen = await openTestKitchen(options);
  const equipment = await addEquipment(kitchen, options.demo === true ? 'Second ' : '');
  if (options.demo !== true) await saveKitchen(kitchen, { nutritionGround: 'very-small' });
  const batchId = await soakedBatch(kitchen, batch, lot);
  return { ...equipment, kitchen, batchId, readyMs: kitchen.clock.nowMs() };
}

/** Changes the kitchen's settings. */
export async function saveKitchen(kitchen: TestKitchen, change: Partial<Input<'office.saveKitchen'>>): Promise<void> {
  const { demo: _demo, labels: _labels, ...settings } = (await kitchen.ask('office.get', {})).kitchen;
  await kitchen.ask('office.saveKitchen', { ...settings, ...change });
}

/** Receives a lot, makes a batch of it and soaks it for two hours; the clock goes on by those. */
export async function soakedBatch(kitchen: TestKitchen, batch: Partial<Input<'batch.make'>> = {}, lot: Partial<Input<'fishLot.receive'>> = {}): Promise<string> {
  const received = await receive(kitchen, lot);
  const made = await makeBatch(kitchen, [received.id], batch);
  await kitchen.ask('soak.log', soakInput(made.id, 'start', kitchen.clock.nowMs()));
  kitchen.clock.advance(2 * HOUR_MS);
  await kitchen.ask('soak.log', soakInput(made.id, 'end', kitchen.clock.nowMs()));
  return made.id;
}

/** What `load.open` takes for three pieces with the three probes. */
export function loadInput(smoke: SmokeKitchen, more: Partial<Input<'load.open'>> = {}): Input<'load.open'> {
  return {
    smokerId: smoke.smokerId, batchIds: [smoke.batchId], chamberInstrumentId: null,
    pieces: ['Thick end', 'Centre cut', 'Tail'].map((name, index) => ({
      name, batchId: smoke.batchId, thicknessMm: 32 - 4 * index, rackPlace: `rack ${index + 1}`, instrumentId: smoke.probeIds[index] ?? null,
    })),
    ...more,
  };
}

export async function openLoad(smoke: SmokeKitchen, more: Partial<Input<'load.open'>> = {}): Promise<Load> {
  return (await smoke.kitchen.ask('load.open', loadInput(smoke, more))).load;
}

/** The id of a load's point by its name. */
export function pointId(load: Load, name: string): string {
  const point = load.points.find((candidate) => candidate.name === name);
  if (point === undefined) throw new Error(`load ${load.number} has no point ${name}`);
  return point.id;
}

/** Six hours: a smoke that brings three pieces over 145 °F for well over half an hour. */
export const SMOKE_MINUTES = 360;
const LAGS = [80, 70, 60];
/** Four and a half hours in a cold room bring them under 40 °F in time. */
export const COOL_MINUTES = 270;

export function smokeColumns(topF = 185): Record<string, MinuteSeries> {
  const air = chamberAir(SMOKE_MINUTES, { topF });
  return { 'Probe 1': coreIn(air, 42, LAGS[0] ?? 80), 'Probe 2': coreIn(air, 42, LAGS[1] ?? 70), 'Probe 3': coreIn(air, 42, LAGS[2] ?? 60), Chamber: air };
}

export function coolingColumns(smoked: Record<string, MinuteSeries>, airF = 28): Record<string, MinuteSeries> {
  const air = steadyAir(COOL_MINUTES, airF);
  return Object.fromEntries(['Probe 1', 'Probe 2', 'Probe 3'].map((name, index) => [name, coreIn(air, smoked[name]?.at(-1) ?? 150, 60 - 5 * index)]));
}

const FILE_POINTS: readonly (readonly [string, string])[] = [
  ['Probe 1 (°F)', 'Thick end'], ['Probe 2 (°F)', 'Centre cut'], ['Probe 3 (°F)', 'Tail'], ['Chamber (°F)', 'Chamber'],
];

/** Takes over a CSV for a load; each column goes to the point its heading is for. */
export async function takeOver(smoke: SmokeKitchen, load: Load, fileName: string, csv: string, coversInToOut: boolean): Promise<Output<'readings.import'>> {
  const fileId = await smoke.kitchen.takeFile(fileName, csv);
  const preview = await smoke.kitchen.ask('readings.preview', { fileId, answers: {}, loadId: load.id });
  const columns = FILE_POINTS.flatMap(([heading, name]) => {
    const found = preview.places.find((place) => place.name === heading || `${place.name} (°F)` === heading);
    return found === undefined ? [] : [{ name: found.name, pointId: pointId(load, name) }];
  });
  return smoke.kitchen.ask('readings.import', { fileId, answers: {}, columns, coversInToOut, loadId: load.id });
}

export interface Smoked {
  readonly load: Load;
  readonly inMs: number;
  readonly outMs: number;
  readonly cooledMs: number;
}

/**
 * Smokes and cools the batch by two logs, one reading a minute, and closes the cooling record.
 * @param leaveOut minutes of the smoke that the log lacks
 */
export async function smokeAndCool(smoke: SmokeKitchen, { leaveOut, topF = 185, coolAirF = 28 }: { leaveOut?: (minute: number) => boolean; topF?: number; coolAirF?: number } = {}): Promise<Smoked> {
  const { kitchen } = smoke;
  const load = await openLoad(smoke);
  const inMs = smoke.readyMs + 10 * MINUTE_MS;
  const outMs = inMs + SMOKE_MINUTES * MINUTE_MS;
  const cooledMs = outMs + COOL_MINUTES * MINUTE_MS;
  kitchen.clock.set(cooledMs);
  const smoked = smokeColumns(topF);
  await takeOver(smoke, load, 'smoke.csv', csvOf(inMs, smoked, leaveOut), true);
  await takeOver(smoke, load, 'cooling.csv', csvOf(outMs + MINUTE_MS, coolingColumns(smoked, coolAirF)), false);
  await kitchen.ask('load.mark', { loadId: load.id, what: 'cooled', atMs: cooledMs });
  return { load, inMs, outMs, cooledMs };
}

/** The record reviewed by the manager, whose training is on file. */
export async function reviewed({ kitchen, batchId }: Pick<SmokeKitchen, 'kitchen' | 'batchId'>): Promise<void> {
  await addPaper(kitchen, { kind: 'training', subject: 'record-review', what: 'Course in reviewing records', number: 'T-3', holder: 'MG', validUntil: null });
  await kitchen.ask('record.review', { batchId, remark: '' });
}

/** A release by the manager. */
export function releaseInput(batchId: string, more: Partial<Input<'batch.decide'>> = {}): Input<'batch.decide'> {
  return { batchId, decision: 'release', reason: 'Record read through.', pack: 'vacuum', store: 'frozen', keptWhere: '', initialsForError: false, ...more };
}

/** The failure of a request that should be refused. */
export async function refusal(asked: Promise<Reply<unknown>>): Promise<Failure> {
  const reply = await asked;
  if (reply.ok) throw new Error(`it was answered: ${JSON.stringify(reply.value)}`);
  return reply.error;
}
