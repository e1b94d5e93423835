/** Fish in: species and fish lots as received. */
import { z } from 'zod';
import { command, pure, query } from '../endpoint.ts';
import { EnteredMass, Id, InstantMs, Ticks, TypedMass, TypedTemperature, Words } from './quantities.ts';

export const FishForm = z.enum(['whole', 'dressed', 'fillet-skin-on', 'fillet-skin-off', 'steak']);
export const Species = z.strictObject({
  id: Id,
  commonName: z.string(),
  marketName: z.string(),
  scientificName: z.string(),
  letters: z.string(),
  freshwater: z.boolean(),
});
/** A guest's own catch and bought fish must never mix: the kind is kept on the lot for ever. */
export const FishSource = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('guest'),
    ownerName: Words,
    /** The guest or party on file whose catch it is. */
    guestId: Id.optional(),
    ownerAddress: z.string().trim().max(200).optional(),
    licence: z.string().trim().max(60).optional(),
    caughtArea: z.string().trim().max(120).optional(),
  }),
  z.strictObject({ kind: z.literal('supplier'), supplierName: Words, supplierLot: Words }),
]);
const lotFields = {
  source: FishSource,
  speciesId: Id,
  form: FishForm,
  pieces: z.int().min(1).max(10_000),
  caughtAtMs: InstantMs.nullable(),
  icedAtMs: InstantMs.nullable(),
  receivedAtMs: InstantMs,
  note: z.string().trim().max(500),
};
export const FishLot = z.strictObject({
  id: Id,
  code: z.string(),
  ...lotFields,
  mass: EnteredMass,
  temperatureTicks: Ticks.nullable(),
  receivedBy: z.string(),
  species: Species,
  /** Batches that took from it. */
  batchIds: z.array(Id),
});

export const fishRequests = {
  'fish.species': pure(z.strictObject({}), z.strictObject({ species: z.array(Species) })),
  'fishLot.receive': command(
    z.strictObject({ ...lotFields, mass: TypedMass, temperature: TypedTemperature.nullable() }),
    z.strictObject({ lot: FishLot }),
  ),
  'fishLot.list': query(z.strictObject({}), z.strictObject({ lots: z.array(FishLot) })),
} as const;

export type Species = z.infer<typeof Species>;
export type FishSource = z.infer<typeof FishSource>;
export type FishLot = z.infer<typeof FishLot>;
export type FishForm = z.infer<typeof FishForm>;
