/** The brine bench: recipes, the brine card, and making a batch. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { EnteredMass, Id, InstantMs, PackKind, Process, StoreKind, Ticks, TypedMass, TypedTemperature } from './quantities.ts';

export const BrineTarget = z.union([
  z.strictObject({ brinePercent: z.number() }),
  z.strictObject({ brineSalometer: z.number() }),
  z.strictObject({ fishEquilibriumWaterPhasePercent: z.number() }),
  z.strictObject({ finishedWaterPhasePercent: z.number(), yieldPercent: z.number() }),
]);
export const Recipe = z.strictObject({
  id: Id,
  name: z.string(),
  version: z.int().min(1),
  /** Brine to fish by weight. */
  ratio: z.number().positive(),
  target: BrineTarget,
  ingredients: z.array(z.strictObject({ id: Id, name: z.string(), parts: z.number() })),
  saltIngredientId: Id,
  soakHours: z.number().positive(),
  turnHours: z.array(z.number().positive()),
  process: z.enum(['hot', 'cold', 'either']),
  note: z.string(),
});
export const CardLine = z.strictObject({
  ingredientId: z.string(),
  name: z.string(),
  grams: z.number(),
  saltGrams: z.number(),
  /** In the kitchen's measures, such as “2 cups + 3 tbsp” or “11.5 litres”; empty where none is known. */
  household: z.string(),
  remark: z.string(),
});
export const BrineCard = z.strictObject({
  recipeId: Id,
  recipeName: z.string(),
  recipeVersion: z.int(),
  filletGrams: z.number(),
  ratio: z.number(),
  lines: z.array(CardLine),
  totalGrams: z.number(),
  litres: z.number(),
  brineTicks: Ticks,
  salometerDegrees: z.number(),
  percentByWeight: z.number(),
  waterPhasePercent: z.number(),
  /** What a salometer float will show in this tub, with its sugar and cold. */
  floatShowsDegrees: z.number(),
  sugarPercent: z.number(),
  /** An estimate at equilibrium and the expected yield; it proves nothing. */
  finishedEstimate: z.strictObject({ percent: z.number(), low: z.number(), high: z.number(), yieldPercent: z.number() }),
  soakHours: z.number(),
  turnHours: z.array(z.number()),
  cautions: z.array(z.string()),
  /** How each figure was worked out and from which source, by figure. */
  workings: z.array(z.strictObject({ figure: z.string(), text: z.string(), source: z.string() })),
});
export const Skin = z.enum(['on', 'off']);
const cardInput = {
  recipeId: Id,
  lotIds: z.array(Id).min(1).max(40),
  fillets: TypedMass,
  yieldPercent: z.number().optional(),
};
export const SoakEvent = z.strictObject({
  what: z.enum(['start', 'turn', 'end']),
  atMs: InstantMs,
  brineTicks: Ticks.nullable(),
  roomTicks: Ticks.nullable(),
  initials: z.string(),
  enteredAtMs: InstantMs,
});
/** How far a batch has come. */
export const Stage = z.enum(['ready', 'soaking', 'drying', 'smoking', 'cooling', 'cooled', 'released', 'on-hold', 'rejected']);
export const Batch = z.strictObject({
  id: Id,
  /** Short name until it has a pack lot: species letters and day, such as “WF 329”. */
  shortName: z.string(),
  /** The lot printed on packs; given when it goes into the smoker. */
  lotCode: z.string().nullable(),
  lotIds: z.array(Id),
  lotCodes: z.array(z.string()),
  speciesId: Id,
  marketName: z.string(),
  scientificName: z.string(),
  sourceKind: z.enum(['guest', 'supplier']),
  ownerName: z.string().nullable(),
  fillets: EnteredMass,
  thickestMm: z.number(),
  skin: Skin,
  process: Process,
  pack: PackKind,
  store: StoreKind,
  setId: z.string(),
  card: BrineCard,
  soak: z.array(SoakEvent),
  loadId: Id.nullable(),
  stage: Stage,
  madeAtMs: InstantMs,
  madeBy: z.string(),
  intoFreezerAtMs: InstantMs.nullable(),
  frozenAtMs: InstantMs.nullable(),
  sealedAtMs: InstantMs.nullable(),
  outOfFreezerAtMs: InstantMs.nullable(),
  /** The freezer that holds it, whose own record is its store record. */
  freezerPlaceId: Id.nullable(),
});

export const brineBenchRequests = {
  'recipe.list': query(z.strictObject({}), z.strictObject({ recipes: z.array(Recipe) })),
  /** A recipe scaled to these lots; changes nothing. */
  'brine.card': query(z.strictObject(cardInput), z.strictObject({ card: BrineCard })),
  'batch.make': command(
    z.strictObject({
      ...cardInput,
      thickestMm: z.number().min(1).max(200),
      skin: Skin,
      process: Process,
      pack: PackKind,
      store: StoreKind,
      setId: z.string().max(40).optional(),
    }),
    z.strictObject({ batch: Batch }),
  ),
  'batch.list': query(z.strictObject({}), z.strictObject({ batches: z.array(Batch) })),
  'batch.get': query(z.strictObject({ batchId: Id }), z.strictObject({ batch: Batch })),
  'soak.log': command(
    z.strictObject({
      batchId: Id,
      what: z.enum(['start', 'turn', 'end']),
      atMs: InstantMs,
      brine: TypedTemperature.nullable(),
      room: TypedTemperature.nullable(),
    }),
    z.strictObject({ batch: Batch }),
  ),
} as const;

export type Recipe = z.infer<typeof Recipe>;
export type BrineTarget = z.infer<typeof BrineTarget>;
export type BrineCard = z.infer<typeof BrineCard>;
export type CardLine = z.infer<typeof CardLine>;
export type Batch = z.infer<typeof Batch>;
export type SoakEvent = z.infer<typeof SoakEvent>;
export type Stage = z.infer<typeof Stage>;
