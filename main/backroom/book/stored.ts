/**
 * What the book keeps, one schema a subject. Every document read from the file is parsed by these,
 * so that a damaged row is found when it is read and not when it is printed.
 */
import { z } from 'zod';
import { IngredientAsset } from '../../../app/contract/assets.ts';
import { StoredOwnSet as OwnSetBody } from '../../../app/contract/assets-limits.ts';
import { BrineCard, Mend, Skin, SoakEvent, SoakSample } from '../../../app/contract/requests/brine-bench.ts';
import { AlarmSeen } from '../../../app/contract/requests/alarms.ts';
import { BatchWeight, Corrective, Review } from '../../../app/contract/requests/corrective.ts';
import { DoubtDecision, WorkItem } from '../../../app/contract/requests/evidence.ts';
import { Feed } from '../../../app/contract/requests/feeds.ts';
import { FishForm, FishSource } from '../../../app/contract/requests/fish.ts';
import { Confirmation } from '../../../app/contract/requests/limits.ts';
import { Instrument, Kitchen, Person, Place, Smoker } from '../../../app/contract/requests/office.ts';
import { LabelStock } from '../../../app/contract/requests/label-choice.ts';
import { Pack, StoredLabel } from '../../../app/contract/requests/packing.ts';
import { Guest, HandOver, PackMove, Portioning, Tray } from '../../../app/contract/requests/packs-where.ts';
import { Complaint, IngredientLot, Recall } from '../../../app/contract/requests/trace-shapes.ts';
import { EarlierInstrument } from '../../../app/contract/requests/point-instrument.ts';
import { PaperSheet } from '../../../app/contract/requests/paper-sheets.ts';
import { Composition, Recipe, RecipeVersion } from '../../../app/contract/requests/recipes.ts';
import { Paper, Scheduled } from '../../../app/contract/requests/papers.ts';
import { TakenOut } from '../../../app/contract/requests/taken-out.ts';
import { Tasting } from '../../../app/contract/requests/taste.ts';
import { EnteredMass, Id, InstantMs, PackKind, PointRole, Process, StoreKind, Ticks } from '../../../app/contract/requests/quantities.ts';
import { Decision, LabResult } from '../../../app/contract/requests/verdict.ts';

export const StoredKitchen = z.strictObject({ id: z.literal('kitchen'), ...Kitchen.shape });
export const StoredFishLot = z.strictObject({
  id: Id, code: z.string(), source: FishSource, speciesId: Id, form: FishForm, mass: EnteredMass,
  pieces: z.int(), caughtAtMs: InstantMs.nullable(), icedAtMs: InstantMs.nullable(), receivedAtMs: InstantMs,
  temperatureTicks: Ticks.nullable(), note: z.string(), receivedBy: z.string(),
});
export const StoredBatch = z.strictObject({
  id: Id, shortName: z.string(), lotCode: z.string().nullable(), lotIds: z.array(Id), speciesId: Id,
  sourceKind: z.enum(['guest', 'supplier']), fillets: EnteredMass, thickestMm: z.number(), thinnestMm: z.number().nullable().default(null), skin: Skin,
  process: Process, pack: PackKind, store: StoreKind, setId: z.string(), card: BrineCard, recipe: Recipe,
  /** The kitchen's own ingredients of its card as they were then; those of the program's list never change. */
  ownIngredients: z.array(IngredientAsset).default([]),
  brinePlaceId: Id.nullable().default(null), tub: z.string().default(''), basket: z.string().default(''),
  /** Whether the book asks if the brine was used before; batches of older books were each taken to have brine of their own. */
  asksReuse: z.boolean().default(false),
  brineReused: z.boolean().nullable().default(null), mends: z.array(Mend).default([]),
  /** The scheduled process its salt may also be judged by. */
  scheduledId: Id.nullable().default(null),
  /** The lots of ingredients that its brine took, as those say themselves; here so that a pack's trace need not look through all of them. */
  ingredientLotIds: z.array(Id).optional(),
  /** Drained after the brine, and finished. */
  weights: z.array(BatchWeight).default([]),
  soak: z.array(SoakEvent), loadId: Id.nullable(), madeAtMs: InstantMs, madeBy: z.string(),
  intoFreezerAtMs: InstantMs.nullable(), frozenAtMs: InstantMs.nullable(), sealedAtMs: InstantMs.nullable(),
  outOfFreezerAtMs: InstantMs.nullable(), freezerPlaceId: Id.nullable(),
});
export const StoredRecipeVersion = z.strictObject({ id: Id, recipeId: Id, ...RecipeVersion.shape });
/** An ingredient of the kitchen's own: what it is made of as given, and the figures that come of it. */
export const StoredIngredient = z.strictObject({
  id: Id, version: z.int().min(1), composition: Composition, figures: IngredientAsset, savedAtMs: InstantMs, savedBy: z.string(),
});
/** A limit set of the kitchen's own, as a letter or a variance made it; each version is a document of its own. */
export const StoredOwnSet = z.strictObject({ id: Id, savedBy: z.string(), savedAtMs: InstantMs, paperId: Id.nullable().default(null), body: OwnSetBody });
export const StoredLoad = z.strictObject({
  id: Id, number: z.int(), letter: z.string().length(1).nullable(), smokerId: Id, process: Process, batchIds: z.array(Id),
  openedAtMs: InstantMs, openedBy: z.string(), inAtMs: InstantMs.nullable(), endOfSmokingAtMs: InstantMs.nullable(),
  outAtMs: InstantMs.nullable(), cooledAtMs: InstantMs.nullable(), pointIds: z.array(Id),
  /** Batches and pieces that came out before the rest. */
  takenOut: z.array(TakenOut).optional(),
});
/** A measuring point. A place's point has the place's id as its own. */
export const StoredPoint = z.strictObject({
  id: Id, name: z.string(), role: PointRole, batchId: Id.nullable(), loadId: Id.nullable(),
  thicknessMm: z.number().nullable(), rackPlace: z.string(), instrumentId: Id.nullable(),
  /** The thermometers before this one, oldest first. */
  earlierInstruments: z.array(EarlierInstrument).optional(),
});
export const StoredLabResult = z.strictObject({ batchId: Id, ...LabResult.shape });
export const StoredDecision = z.strictObject({ batchId: Id, ...Decision.shape });
export const StoredPrint = z.strictObject({ id: Id, packId: Id, printedAtMs: InstantMs, printedBy: z.string(), label: StoredLabel, why: z.string().default('') });
export const StoredConfirmation = z.strictObject({ id: Id, ...Confirmation.shape });

/** What was read when a thermometer was checked; what follows from it is worked out each time. */
export const StoredCheckReading = z.strictObject({ text: z.string(), unit: z.enum(['F', 'C']), lowTicks: Ticks, highTicks: Ticks });
export const StoredInstrumentCheck = z.strictObject({
  id: Id, instrumentId: Id, atMs: InstantMs, enteredAtMs: InstantMs, initials: z.string(), personId: Id,
  ice: StoredCheckReading.nullable(), boiling: StoredCheckReading.nullable(),
  altitudeMetres: z.number().nullable(), pressureHectopascals: z.number().nullable(),
});
export const StoredDoubtDecision = z.strictObject({ id: Id, ...DoubtDecision.shape });
/**
 * What was judged, on what, and what came of it, so that it can be judged again: everything but the readings,
 * which stand in the book themselves and are held to the digests that `judged` names.
 */
export const StoredJudgement = z.strictObject({
  id: Id, batchId: Id, atMs: InstantMs, engine: z.string(), setId: z.string(), setVersion: z.string(),
  judged: z.json(), result: z.json(), digest: z.string(),
});

/** How a file was read and where its columns went, for the next of the same shape; and each file that was taken over. */
export const StoredLogShape = z.discriminatedUnion('kind', [
  z.strictObject({
    id: z.string(), kind: z.literal('shape'), fileName: z.string(), takenAtMs: InstantMs, answers: z.record(z.string(), z.string()),
    columns: z.array(z.strictObject({ name: z.string(), role: PointRole, pointName: z.string(), instrumentName: z.string() })),
  }),
  z.strictObject({
    id: z.string(), kind: z.literal('file'), fileName: z.string(), takenAtMs: InstantMs,
    columns: z.array(z.strictObject({ name: z.string(), pointId: Id, firstAtMs: InstantMs })),
  }),
]);

/** Every shelf of the book: its schema, and the keys that are also indexed columns. */
export const SHELVES = {
  kitchen: { schema: StoredKitchen, keys: [] },
  people: { schema: Person, keys: [] },
  instruments: { schema: Instrument, keys: [] },
  smokers: { schema: Smoker, keys: [] },
  places: { schema: Place, keys: [] },
  recipes: { schema: Recipe, keys: [] },
  recipeVersions: { schema: StoredRecipeVersion, keys: ['recipeId'] },
  ingredients: { schema: StoredIngredient, keys: [] },
  tastings: { schema: Tasting, keys: [] },
  soakSamples: { schema: SoakSample, keys: ['batchId'] },
  papers: { schema: Paper, keys: [] },
  scheduledProcesses: { schema: Scheduled, keys: [] },
  correctives: { schema: Corrective, keys: ['batchId'] },
  reviews: { schema: Review, keys: ['batchId'] },
  instrumentChecks: { schema: StoredInstrumentCheck, keys: ['instrumentId'] },
  doubtDecisions: { schema: StoredDoubtDecision, keys: ['pointId'] },
  judgements: { schema: StoredJudgement, keys: ['batchId'] },
  paperSheets: { schema: PaperSheet, keys: ['subjectId'] },
  alarms: { schema: AlarmSeen, keys: ['loadId'] },
  logShapes: { schema: StoredLogShape, keys: [] },
  feeds: { schema: Feed, keys: [] },
  workItems: { schema: WorkItem, keys: ['batchId'] },
  ownSets: { schema: StoredOwnSet, keys: [] },
  fishLots: { schema: StoredFishLot, keys: ['code'] },
  batches: { schema: StoredBatch, keys: ['lotCode', 'loadId'] },
  loads: { schema: StoredLoad, keys: [] },
  points: { schema: StoredPoint, keys: ['loadId'] },
  labResults: { schema: StoredLabResult, keys: ['batchId'] },
  decisions: { schema: StoredDecision, keys: ['batchId'] },
  packs: { schema: Pack, keys: ['batchId', 'code'] },
  prints: { schema: StoredPrint, keys: ['packId'] },
  confirmations: { schema: StoredConfirmation, keys: ['checkId'] },
  guests: { schema: Guest, keys: [] },
  trays: { schema: Tray, keys: ['batchId'] },
  packMoves: { schema: PackMove, keys: ['packId', 'handOverId'] },
  handOvers: { schema: HandOver, keys: ['guestId'] },
  portionings: { schema: Portioning, keys: ['batchId'] },
  ingredientLots: { schema: IngredientLot, keys: ['ingredientId'] },
  complaints: { schema: Complaint, keys: ['batchId'] },
  recalls: { schema: Recall, keys: [] },
  labelStocks: { schema: LabelStock, keys: [] },
} as const;

export type ShelfName = keyof typeof SHELVES;
export type Stored<N extends ShelfName> = z.output<(typeof SHELVES)[N]['schema']>;
export type StoredBatch = z.infer<typeof StoredBatch>;
export type StoredLoad = z.infer<typeof StoredLoad>;
export type StoredPoint = z.infer<typeof StoredPoint>;
export type StoredInstrumentCheck = z.infer<typeof StoredInstrumentCheck>;
export type StoredDoubtDecision = z.infer<typeof StoredDoubtDecision>;
export type StoredJudgement = z.infer<typeof StoredJudgement>;
export type StoredFishLot = z.infer<typeof StoredFishLot>;
