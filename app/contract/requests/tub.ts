/** A batch in its brine: mending the brine, the forecast of its salt, samples of it, and the log of its soak. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Batch, Mend, MendAfter, MendStep, SoakSample } from './brine-bench.ts';
import { Id, InstantMs, TypedMass, TypedTemperature } from './quantities.ts';

const Figure = z.string().trim().max(20);
/** Copied from paper, and the number at the head of the sheet where it has one. */
const Copied = { fromPaper: z.boolean().optional(), sheet: z.string().trim().min(1).max(20).optional() };
/** How strong the brine was found: per cent by weight, or a float's degrees at a temperature. */
const Measured = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('percent'), percent: Figure }),
  z.strictObject({ by: z.literal('float'), degrees: Figure, brine: TypedTemperature }),
]);
/** What went wrong with a brine. */
export const Trouble = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('too-strong'), measured: Measured }),
  z.strictObject({ kind: z.literal('too-weak'), measured: Measured }),
  /** `left` is the brine still there. */
  z.strictObject({ kind: z.literal('spilled'), left: TypedMass }),
  z.strictObject({ kind: z.literal('ran-out'), ingredientId: Id, there: TypedMass, insteadId: Id.nullable() }),
  /** Measured in cups or spoons for one crystal, of another. */
  z.strictObject({ kind: z.literal('wrong-salt'), ingredientId: Id, meantFormId: z.string().max(60), usedFormId: z.string().max(60) }),
  /** Water-phase salt of a test piece, and what is wanted. */
  z.strictObject({ kind: z.literal('too-salty'), testedPercent: Figure, wantedPercent: Figure }),
]);
export const MendPlan = z.strictObject({
  steps: z.array(MendStep),
  before: MendAfter,
  after: MendAfter,
  /** Which evidence this voids, in sentences. */
  voids: z.array(z.string()),
  cautions: z.array(z.string()),
});

const Range = z.strictObject({ percent: z.number(), low: z.number(), high: z.number() });
const Hours = z.strictObject({ earliest: z.number().nullable(), likely: z.number().nullable(), latest: z.number().nullable() });
/** An estimate for one piece; it proves nothing. */
export const PieceForecast = z.strictObject({
  thicknessMm: z.number(),
  /** Hours to the target; null where it is never reached. */
  reaches: Hours,
  planned: z.strictObject({ brined: Range, finished: Range.nullable() }),
  long: z.strictObject({ brined: Range, finished: Range.nullable() }),
});
export const Forecast = z.strictObject({
  thickest: PieceForecast,
  thinnest: PieceForecast,
  target: z.string(),
  soakHours: z.number(),
  longHours: z.number(),
  yieldPercent: z.number(),
  /** Which coefficient it rests on, with its uncertainty, in a sentence. */
  coefficient: z.string(),
  /** How many of the kitchen's own samples it was fitted to. */
  fittedSamples: z.int(),
  notes: z.array(z.string()),
});

export const tubRequests = {
  /** What to do about a brine that went wrong; changes nothing. */
  'brine.mend': query(z.strictObject({ batchId: Id, trouble: Trouble }), z.strictObject({ plan: MendPlan })),
  /** It was mended so: the card becomes that of the brine as it is now, and what was is kept. */
  'brine.mended': command(z.strictObject({ batchId: Id, trouble: Trouble, atMs: InstantMs }), z.strictObject({ batch: Batch, mend: Mend })),
  'soak.forecast': query(z.strictObject({ batchId: Id }), z.strictObject({ forecast: Forecast, samples: z.array(SoakSample) })),
  /** A piece out of the brine that was titrated or sent to a laboratory; the forecast learns from it, no check does. */
  'soak.sample': command(
    z.strictObject({
      batchId: Id, takenAtMs: InstantMs, thicknessMm: z.number(), saltPercent: Figure, moisturePercent: Figure, how: z.enum(['laboratory', 'titration']), ...Copied,
    }),
    z.strictObject({ samples: z.array(SoakSample) }),
  ),
  'soak.log': command(
    z.strictObject({
      batchId: Id,
      what: z.enum(['start', 'turn', 'end']),
      atMs: InstantMs,
      brine: TypedTemperature.nullable(),
      /** Only where no record of the room is kept; else the room's own record tells. */
      room: TypedTemperature.nullable(),
      /** At the start: where the tub stands, which tub and basket, and whether the brine was used before. */
      placeId: Id.nullable().optional(),
      tub: z.string().trim().max(60).optional(),
      basket: z.string().trim().max(60).optional(),
      brineReused: z.boolean().optional(),
      ...Copied,
    }),
    z.strictObject({ batch: Batch }),
  ),
} as const;

export type Trouble = z.infer<typeof Trouble>;
export type MendPlan = z.infer<typeof MendPlan>;
export type Forecast = z.infer<typeof Forecast>;
export type PieceForecast = z.infer<typeof PieceForecast>;
