/** Two batches in one load, the trout done long before the whitefish; everything read by hand. */
import type { Output } from '../../app/contract/contract.ts';
import { LAKE_TROUT, MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, soakedBatch, type SmokeKitchen } from './smoke-kitchen.ts';

export type Load = Output<'load.open'>['load'];
export type Round = readonly (readonly [minute: number, degreesF: number])[];

/** Kept at 145 °F for its 30 min, out after minute 190, cooled in time. */
export const TROUT: Round = [[150, 146], [160, 146.5], [170, 147], [180, 147.5], [189, 147.9], [200, 134], [270, 68], [380, 50], [430, 39]];
/** At 145 °F only after the trout is out. */
export const WHITEFISH_ROUNDS: Round = [[150, 120], [180, 132], [230, 146], [240, 146.8], [250, 147.2], [260, 147.9]];
export const OUT_MINUTE = 190;

export interface SharedLoad {
  readonly smoke: SmokeKitchen;
  readonly load: Load;
  readonly inMs: number;
  readonly troutId: string;
  readonly whitefishId: string;
  /** Sets the clock to this minute of the smoke. */
  at(minute: number): number;
  read(point: string, rounds: Round): Promise<void>;
}

/** Opens the load and marks it in. @param alone the trout goes in without the whitefish */
export async function openSharedLoad(alone = false): Promise<SharedLoad> {
  const smoke = await openSmokeKitchen();
  const troutId = await soakedBatch(smoke.kitchen, {}, { speciesId: LAKE_TROUT });
  const readyMs = smoke.kitchen.clock.nowMs();
  const piece = (name: string, batchId: string, instrumentId: string | null = null) => ({ name, batchId, thicknessMm: 30, rackPlace: '', instrumentId });
  const trout = [piece('Trout 1', troutId), piece('Trout 2', troutId)];
  const load = await openLoad(smoke, alone ? { batchIds: [troutId], pieces: trout } : { batchIds: [smoke.batchId, troutId], pieces: [piece('Whitefish', smoke.batchId, smoke.probeIds[0]), ...trout] });
  const inMs = readyMs + 10 * MINUTE_MS;
  const at = (minute: number): number => {
    smoke.kitchen.clock.set(inMs + minute * MINUTE_MS);
    return inMs + minute * MINUTE_MS;
  };
  await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: at(0) });
  return {
    smoke, load, inMs, troutId, whitefishId: smoke.batchId, at,
    read: async (point, rounds) => {
      at(Math.max(...rounds.map(([minute]) => minute)));
      await smoke.kitchen.ask('readings.enter', {
        how: 'by-hand', readings: rounds.map(([minute, degreesF]) => ({ pointId: pointId(load, point), atMs: inMs + minute * MINUTE_MS, value: { text: String(degreesF), unit: 'F' as const }, instrumentId: smoke.handId })),
      });
    },
  };
}

export async function takeOut(shared: SharedLoad, minute: number | null, more: { pointName?: string; batchId?: string } = {}) {
  const { smoke, load, inMs, troutId } = shared;
  return smoke.kitchen.reply('load.takeOut', {
    loadId: load.id, batchId: more.batchId ?? troutId, pointId: more.pointName === undefined ? null : pointId(load, more.pointName),
    atMs: minute === null ? null : inMs + minute * MINUTE_MS, why: 'Done before the rest.',
  }, 'CH');
}
