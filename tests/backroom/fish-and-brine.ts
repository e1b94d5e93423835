/** Fish lots and batches for tests, asked for as a front would. */
import type { Input, Output } from '../../app/contract/contract.ts';
import type { TestKitchen } from '../support/test-kitchen.ts';

export const HOUR_MS = 3_600_000;
export const MINUTE_MS = 60_000;
export const WHITEFISH = 'Coregonus clupeaformis';
export const LAKE_TROUT = 'Salvelinus namaycush';
export const COHO = 'Oncorhynchus kisutch';

export const SUPPLIER: Input<'fishLot.receive'>['source'] = { kind: 'supplier', supplierName: 'Grey Rock Fishery', supplierLot: 'GR-1' };

export function guest(ownerName: string, licence?: string): Input<'fishLot.receive'>['source'] {
  return { kind: 'guest', ownerName, ...(licence === undefined ? {} : { licence }) };
}

/** A lot received an hour ago: 10 lb of whitefish from a supplier, unless something else is said. */
export function lotInput(kitchen: TestKitchen, more: Partial<Input<'fishLot.receive'>> = {}): Input<'fishLot.receive'> {
  const receivedAtMs = kitchen.clock.nowMs() - HOUR_MS;
  return {
    source: SUPPLIER, speciesId: WHITEFISH, form: 'fillet-skin-on', pieces: 8,
    caughtAtMs: null, icedAtMs: null, receivedAtMs, mass: { text: '10', unit: 'lb' }, temperature: null, note: '', ...more,
  };
}

export async function receive(kitchen: TestKitchen, more: Partial<Input<'fishLot.receive'>> = {}): Promise<Output<'fishLot.receive'>['lot']> {
  return (await kitchen.ask('fishLot.receive', lotInput(kitchen, more))).lot;
}

/** A batch of these lots: 9 lb by the plain brine, hot, vacuum, frozen, unless something else is said. */
export function batchInput(lotIds: string[], more: Partial<Input<'batch.make'>> = {}): Input<'batch.make'> {
  return {
    recipeId: 'plain-brine', lotIds, fillets: { text: '9', unit: 'lb' }, thickestMm: 25, skin: 'on',
    process: 'hot', pack: 'vacuum', store: 'frozen', ...more,
  };
}

export async function makeBatch(kitchen: TestKitchen, lotIds: string[], more: Partial<Input<'batch.make'>> = {}): Promise<Output<'batch.make'>['batch']> {
  return (await kitchen.ask('batch.make', batchInput(lotIds, more))).batch;
}

type SoakInput = Input<'soak.log'>;

/** A step of a soak; the brine is 38 °F and new unless said. */
export function soakInput(batchId: string, what: SoakInput['what'], atMs: number, more: Partial<SoakInput> = {}): SoakInput {
  return { batchId, what, atMs, brine: { text: '38', unit: 'F' }, room: null, ...(what === 'start' ? { brineReused: false } : {}), ...more };
}
