/** A kitchen with a released and sealed batch, its freezer read, for tests of the cold store and the hand-over. */
import type { Input, Output } from '../../app/contract/contract.ts';
import { HOUR_MS, MINUTE_MS } from './fish-and-brine.ts';
import { openSmokeKitchen, pointId, releaseInput, reviewed, smokeAndCool, type Smoked, type SmokeKitchen } from './smoke-kitchen.ts';

type Pack = Output<'pack.seal'>['packs'][number];
type Guest = Output<'guest.save'>['guest'];

export interface PackedKitchen {
  readonly smoke: SmokeKitchen;
  readonly kitchen: SmokeKitchen['kitchen'];
  readonly batchId: string;
  readonly smoked: Smoked;
  readonly packs: readonly Pack[];
  /** When they were sealed; the clock stands there. */
  readonly sealedMs: number;
}

export interface PackedOptions {
  readonly packs?: number;
  readonly batch?: Partial<Input<'batch.make'>>;
  readonly lot?: Partial<Input<'fishLot.receive'>>;
  readonly release?: Partial<Input<'batch.decide'>>;
  /** A laboratory's result that meets the salt of chilled packs. */
  readonly lab?: boolean;
}

/** A batch through smoke, cooling, review and release, its packs sealed and labelled. */
export async function packedKitchen({ packs: count = 6, batch = {}, lot = {}, release = {}, lab = false }: PackedOptions = {}): Promise<PackedKitchen> {
  const smoke = await openSmokeKitchen(batch, lot);
  const { kitchen, batchId } = smoke;
  const smoked = await smokeAndCool(smoke);
  const { cooledMs } = smoked;
  await reviewed(smoke);
  if (lab) await kitchen.ask('lab.record', { batchId, sampledOn: '2026-11-25', sample: 'loin', laboratory: 'Harbour Laboratory', saltPercent: '3.10', moisturePercent: '60.0', nitritePpm: null });
  await kitchen.ask('batch.decide', releaseInput(batchId, release));
  const { packs } = await kitchen.ask('pack.seal', { batchId, weights: Array.from({ length: count }, () => ({ text: '0.3', unit: 'lb' as const })), sealedAtMs: cooledMs });
  await kitchen.ask('label.printed', { packIds: packs.map(({ id }) => id), stockId: '4x6in' });
  return { smoke, kitchen, batchId, smoked, packs, sealedMs: cooledMs };
}

/** A reading that came late and breaks the cooling: the release no longer stands. */
export async function breakCooling({ kitchen, smoked }: PackedKitchen): Promise<void> {
  await kitchen.ask('readings.enter', { how: 'by-hand', readings: [{ pointId: pointId(smoked.load, 'Thick end'), atMs: smoked.outMs + 148 * MINUTE_MS, value: { text: '90', unit: 'F' }, instrumentId: null }] });
}

/** Readings of a place at these hours after the sealing. */
export async function readPlace({ kitchen, smoke, sealedMs }: PackedKitchen, hours: readonly number[], degreesF = '-8', placeId = smoke.freezerId): Promise<void> {
  await kitchen.ask('readings.enter', { how: 'by-hand', readings: hours.map((hour) => ({ pointId: placeId, atMs: sealedMs + hour * HOUR_MS, value: { text: degreesF, unit: 'F' as const }, instrumentId: smoke.handId })) });
}

export function trayInput({ smoke, batchId, sealedMs }: PackedKitchen, packs: readonly Pack[], more: Partial<Input<'tray.make'>> = {}): Input<'tray.make'> {
  return { batchId, name: '', packIds: packs.map(({ id }) => id), placeId: smoke.freezerId, spot: 'shelf 2', atMs: sealedMs, probe: null, ...more };
}

/** All packs on one tray, frozen solid after 12 hours; the clock stands at hour 20, the freezer read up to then. */
export async function frozenOnTray(packed: PackedKitchen): Promise<string> {
  const { kitchen, sealedMs } = packed;
  const { tray } = await kitchen.ask('tray.make', trayInput(packed, packed.packs));
  kitchen.clock.set(sealedMs + 20 * HOUR_MS);
  await kitchen.ask('tray.mark', { trayId: tray.id, what: 'frozen', atMs: sealedMs + 12 * HOUR_MS, how: 'touch' });
  await readPlace(packed, [0, 6, 12, 16, 20]);
  return tray.id;
}

export async function addGuest({ kitchen }: Pick<PackedKitchen, 'kitchen'>, draft: Partial<Input<'guest.save'>['draft']> = {}): Promise<Guest> {
  return (await kitchen.ask('guest.save', { guestId: null, draft: { kind: 'party', name: 'Ivo Brandt', contact: '555-0177', address: '', room: '4', checkoutDay: '2026-11-28', ...draft } })).guest;
}

/** A hand-over at which everything was looked at. */
export function handOverInput({ kitchen }: Pick<PackedKitchen, 'kitchen'>, guest: Guest, packs: readonly Pack[], more: Partial<Input<'handOver.make'>> = {}): Input<'handOver.make'> {
  return {
    guestId: guest.id, packIds: packs.map(({ id }) => id), atMs: kitchen.clock.nowMs(), frozenHard: { how: 'touch', reading: null }, box: 'Foam box, two ice packs', travelHours: '6',
    signature: { path: 'M10,100 L60,40 L120,130 L200,60', name: guest.name }, sheetGiven: true, why: '', ...more,
  };
}

/** One move of packs at so many hours after the sealing; the clock stands there afterwards. */
export async function moveAt({ kitchen, sealedMs }: PackedKitchen, hour: number, packs: readonly Pack[], what: Input<'pack.move'>['what'], placeId: string | null = null): Promise<void> {
  kitchen.clock.set(sealedMs + hour * HOUR_MS);
  await kitchen.ask('pack.move', { packIds: packs.map(({ id }) => id), what, placeId, spot: '', atMs: kitchen.clock.nowMs(), why: what === 'returned' || what === 'destroyed' ? 'as said' : '' });
}
