/** The brine bench: the brine card, making a batch, and a batch as it goes on. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { EnteredMass, Id, InstantMs, PackKind, Process, StoreKind, Ticks, TypedMass } from './quantities.ts';
import { BrineTarget, Cure } from './recipes.ts';

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
  cure: Cure.default('wet'),
  /** The whole cure over the fish, for a dry cure. */
  curePerFishPercent: z.number().nullable().default(null),
  /** What it was solved for, in words. */
  target: z.string().default(''),
  /** The same in figures; cards made before have none and go by their recipe's. */
  goal: BrineTarget.exactOptional(),
  lines: z.array(CardLine),
  totalGrams: z.number(),
  /** 0 for a dry cure. */
  litres: z.number(),
  brineTicks: Ticks,
  salometerDegrees: z.number(),
  percentByWeight: z.number(),
  waterPhasePercent: z.number(),
  /** What a salometer float will show in this tub, with its sugar and cold. */
  floatShowsDegrees: z.number(),
  /** Ice, or above 23.31 % of salt and water salt, begins to form at this; null where it isn't known. */
  firstSolidTicks: Ticks.nullable().default(null),
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
/** How much brine: the recipe's ratio, another, or what a tub takes beside the fish. */
export const BrineSize = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('recipe') }),
  z.strictObject({ by: z.literal('ratio'), ratio: z.number() }),
  z.strictObject({ by: z.literal('tub'), litres: z.number(), headroomPercent: z.number() }),
]);
const cardInput = {
  recipeId: Id,
  lotIds: z.array(Id).min(1).max(40),
  fillets: TypedMass,
  yieldPercent: z.number().optional(),
  size: BrineSize.optional(),
  /** Another goal than the recipe's. */
  target: BrineTarget.optional(),
  /** Solve so that the low end of the thickest piece's forecast meets a finished goal; needs the thickness. */
  aimLowEnd: z.boolean().optional(),
  thickestMm: z.number().optional(),
  thinnestMm: z.number().optional(),
  skin: z.enum(['on', 'off']).optional(),
  /** The crystal that salt is measured as, for the cups beside its grams. */
  saltFormId: z.string().max(60).optional(),
};
/** One step of a mend: what to add, use instead, pour off, or freshen in. */
export const MendStep = z.strictObject({ text: z.string(), ingredientId: Id.nullable(), grams: z.number().nullable(), hours: z.number().nullable() });
/** A brine at one moment. */
export const MendAfter = z.strictObject({
  totalGrams: z.number(), percentByWeight: z.number(), salometerDegrees: z.number(), waterPhasePercent: z.number(), floatShowsDegrees: z.number().nullable(),
});
/** A mend that was done. */
export const Mend = z.strictObject({
  id: Id,
  atMs: InstantMs,
  enteredAtMs: InstantMs,
  initials: z.string(),
  kind: z.enum(['too-strong', 'too-weak', 'spilled', 'ran-out', 'wrong-salt', 'too-salty']),
  steps: z.array(MendStep),
  before: MendAfter,
  after: MendAfter,
  voids: z.array(z.string()),
});
/** A piece taken out of the brine and analysed. */
/** Kept of what was written on paper first, on a sheet with a number or on any other. */
const CopiedFromPaper = { fromPaper: z.literal(true).exactOptional(), sheet: z.string().exactOptional() };
export const SoakSample = z.strictObject({
  id: Id,
  batchId: Id,
  takenAtMs: InstantMs,
  thicknessMm: z.number(),
  saltPercent: z.string(),
  moisturePercent: z.string(),
  how: z.enum(['laboratory', 'titration']),
  initials: z.string(),
  enteredAtMs: InstantMs,
  ...CopiedFromPaper,
});
export const SoakEvent = z.strictObject({
  what: z.enum(['start', 'turn', 'end']),
  atMs: InstantMs,
  brineTicks: Ticks.nullable(),
  roomTicks: Ticks.nullable(),
  initials: z.string(),
  enteredAtMs: InstantMs,
  ...CopiedFromPaper,
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
  thinnestMm: z.number().nullable().default(null),
  skin: Skin,
  process: Process,
  pack: PackKind,
  store: StoreKind,
  setId: z.string(),
  /** Where it is brined, in which tub and basket, and whether the brine was used before: told at the start of the soak. */
  brinePlaceId: Id.nullable().default(null),
  tub: z.string().default(''),
  basket: z.string().default(''),
  brineReused: z.boolean().nullable().default(null),
  mends: z.array(Mend).default([]),
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
  /** What the deciding set asks of the brine and its room, a limit a line. */
  soakLimits: z.array(z.strictObject({ checkId: z.string(), text: z.string() })).exactOptional(),
});

export const brineBenchRequests = {
  /** A recipe scaled to these lots; changes nothing. */
  'brine.card': query(z.strictObject(cardInput), z.strictObject({ card: BrineCard })),
  'batch.make': command(
    z.strictObject({
      ...cardInput,
      thickestMm: z.number(),
      skin: Skin,
      process: Process,
      pack: PackKind,
      store: StoreKind,
      setId: z.string().max(40).optional(),
    }),
    z.strictObject({ batch: Batch }),
  ),
  'batch.list': query(
    /** `withoutLoad`: only those that were in no smoker yet. */
    z.strictObject({ withoutLoad: z.literal(true).exactOptional() }),
    z.strictObject({ batches: z.array(Batch) }),
  ),
  'batch.get': query(z.strictObject({ batchId: Id }), z.strictObject({ batch: Batch })),
} as const;

export type BrineSize = z.infer<typeof BrineSize>;
export type Mend = z.infer<typeof Mend>;
export type MendStep = z.infer<typeof MendStep>;
export type SoakSample = z.infer<typeof SoakSample>;
export type BrineCard = z.infer<typeof BrineCard>;
export type CardLine = z.infer<typeof CardLine>;
export type Batch = z.infer<typeof Batch>;
export type SoakEvent = z.infer<typeof SoakEvent>;
export type Stage = z.infer<typeof Stage>;
