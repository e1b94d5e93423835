/** The cold store at work: portioning, packs in and out by their codes, trays in the freezer, the stock. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { PlaceKind } from './office.ts';
import { PackMove, Portioning, Tray } from './packs-where.ts';
import { Day, Id, InstantMs, StoreKind, Ticks, TypedMass } from './quantities.ts';
import { Mark } from './limits.ts';
import { GateLine, Verdict } from './verdict.ts';

/** How the weights of a batch add up, in grams. Null where the finished fish wasn't weighed. */
export const WeightBalance = z.strictObject({
  filletsGrams: z.number(),
  finishedGrams: z.number().nullable(),
  packedGrams: z.number(),
  packs: z.int(),
  trimGrams: z.number(),
  remainderGrams: z.number(),
  /** What is still there to be packed, by the finished weight. */
  leftGrams: z.number().nullable(),
  /** Packs over fillets into the brine, and over finished fish, in per cent. */
  yieldOfFilletsPercent: z.number(),
  yieldOfFinishedPercent: z.number().nullable(),
  /** Finished less packs, trim and remainder. */
  unaccountedGrams: z.number().nullable(),
  unaccountedPercent: z.number().nullable(),
  tolerancePercent: z.number(),
});
/** Where one pack is and what may be done with it. */
export const PackWhere = z.strictObject({
  packId: Id,
  code: z.string(),
  batchId: Id,
  batchName: z.string(),
  marketName: z.string(),
  /** Whose own catch it is; null for fish for sale. */
  ownerName: z.string().nullable(),
  grams: z.number(),
  sealedAtMs: InstantMs,
  store: StoreKind,
  bestBy: Day.nullable(),
  state: z.enum(['at-table', 'into-store', 'out-of-store', 'handed-over', 'returned', 'served', 'destroyed']),
  placeId: Id.nullable(),
  spot: z.string(),
  /** “in Chest freezer, shelf 2, since 14:05 on 14 Mar 2026”. */
  where: z.string(),
  sinceMs: InstantMs,
  trayName: z.string().nullable(),
});
export const StockGroup = z.strictObject({
  key: z.string(), name: z.string(), packs: z.int(), grams: z.number(),
});
const TrayView = z.strictObject({
  ...Tray.shape,
  batchName: z.string(), marketName: z.string(), placeName: z.string(), packs: z.int(),
  /** The last reading of its probe. */
  probeTicks: Ticks.nullable(), probeAtMs: InstantMs.nullable(), probeName: z.string(),
});

export const coldStoreRequests = {
  /** What stands at the table before the first pack is weighed, and how the weights add up since. */
  'portion.get': query(
    z.strictObject({ batchId: Id }),
    z.strictObject({
      balance: WeightBalance,
      gate: GateLine,
      /** What the pack must say and what it rests on, a sentence each. */
      says: z.array(z.strictObject({ text: z.string(), source: z.string() })),
      /** Why nothing may be sealed now, with what helps; null where packs may be sealed. */
      refusal: z.strictObject({ message: z.string(), remedy: z.string() }).nullable(),
      portionings: z.array(Portioning),
      /** Packs since the last portioning was closed. */
      openPacks: z.int(),
      lastTarget: z.string(),
      lastTare: z.string(),
    }),
  ),
  /** Ends a portioning: what is left over and what was trimmed off. Beyond the tolerance it wants to know why. */
  'portion.close': command(
    z.strictObject({
      batchId: Id, remainder: TypedMass.nullable(), trim: TypedMass.nullable(), atMs: InstantMs,
      target: TypedMass.nullable(), tare: TypedMass.nullable(), why: z.string().trim().max(300),
    }),
    z.strictObject({ portioning: Portioning, balance: WeightBalance }),
  ),
  /** Finds one pack by what a scanner or a person typed. */
  'pack.find': query(
    z.strictObject({ text: z.string().max(300) }),
    z.strictObject({ pack: PackWhere, moves: z.array(PackMove) }),
  ),
  /** Packs into a place, out of it, back from whom they were given to, served, or destroyed. */
  'pack.move': command(
    z.strictObject({
      packIds: z.array(Id).min(1).max(200),
      what: z.enum(['into-store', 'out-of-store', 'returned', 'served', 'destroyed']),
      placeId: Id.nullable(), spot: z.string().trim().max(40), atMs: InstantMs, why: z.string().trim().max(300),
      /** A manager's initials for what is served and meets only within the thermometers' error. */
      initialsForError: z.boolean().optional(),
    }),
    z.strictObject({ moved: z.int() }),
  ),
  'pack.stock': query(
    z.strictObject({}),
    z.strictObject({
      /** What to take first on top, a species at a time. */
      packs: z.array(PackWhere),
      bySpecies: z.array(StockGroup),
      byOwner: z.array(StockGroup),
      byPlace: z.array(StockGroup),
      /** Past their date, or within a fortnight of it. */
      expiring: z.array(Id),
      /** Names of spots used before, by place. */
      spots: z.array(z.strictObject({ placeId: Id, spot: z.string() })),
    }),
  ),
  'tray.list': query(z.strictObject({ batchId: Id.nullable() }), z.strictObject({ trays: z.array(TrayView) })),
  /** Packs into a freezer together; without packs the fish itself, against parasites. */
  'tray.make': command(
    z.strictObject({
      batchId: Id, name: z.string().trim().max(60), packIds: z.array(Id).max(200), placeId: Id, spot: z.string().trim().max(40),
      atMs: InstantMs, probe: z.strictObject({ in: z.enum(['fish', 'dummy']), instrumentId: Id.nullable() }).nullable(),
    }),
    z.strictObject({ tray: Tray }),
  ),
  'tray.mark': command(
    z.strictObject({ trayId: Id, what: z.enum(['frozen', 'out']), atMs: InstantMs, how: z.enum(['probe-in-fish', 'probe-in-dummy', 'touch']).nullable() }),
    z.strictObject({ tray: Tray }),
  ),
  /** What the judge says of a place's own record of the last days. */
  'place.verdict': query(
    z.strictObject({ placeId: Id }),
    z.strictObject({
      placeName: z.string(), kind: PlaceKind, fromMs: InstantMs,
      checks: z.array(z.strictObject({ checkId: z.string(), title: z.string(), verdict: Verdict, reason: z.string(), source: z.string(), mark: Mark })),
    }),
  ),
} as const;

export type PackWhere = z.infer<typeof PackWhere>;
export type StockGroup = z.infer<typeof StockGroup>;
export type WeightBalance = z.infer<typeof WeightBalance>;
export type TrayView = z.infer<typeof TrayView>;
