/** Taste capture: a brine weighed as it is mixed by taste, until it becomes a recipe of known strength. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { EnteredMass, Id, InstantMs, Ticks, TypedMass, TypedTemperature, Words } from './quantities.ts';
import { Recipe } from './recipes.ts';

export const TasteAddition = z.strictObject({
  id: Id,
  ingredientId: Id,
  name: z.string(),
  /** What went in, in grams. */
  grams: z.number(),
  /** As typed: the weight of this addition alone, or what the scale showed with everything in. */
  entered: EnteredMass,
  scale: z.enum(['alone', 'running']),
  atMs: InstantMs,
  initials: z.string(),
  /** Struck through: it was a slip, and counts no more. */
  struck: z.boolean(),
});
export const TasteFloat = z.strictObject({ atMs: InstantMs, shownDegrees: z.number(), brineTicks: Ticks, initials: z.string(), afterAdditions: z.int() });
const Range = z.strictObject({ percent: z.number(), low: z.number(), high: z.number() });
export const Tasting = z.strictObject({
  id: Id,
  name: z.string(),
  startedAtMs: InstantMs,
  startedBy: z.string(),
  speciesId: z.string().nullable(),
  /** Fillets that will go in, where they are weighed already. */
  fillets: EnteredMass.nullable(),
  additions: z.array(TasteAddition),
  floats: z.array(TasteFloat),
  /** The recipe it became. */
  recipeId: Id.nullable(),
});
/** What the tub is just now; null where there is nothing to tell yet. */
export const TasteFigures = z.strictObject({
  totalGrams: z.number(),
  litres: z.number().nullable(),
  percentByWeight: z.number(),
  salometerDegrees: z.number(),
  waterPhasePercent: z.number(),
  sugarPercent: z.number(),
  /** Above what water holds at the brine's temperature. */
  saltFallsOut: z.boolean(),
  /** What a float will show; null off its scale. */
  floatShowsDegrees: z.number().nullable(),
  /** Of the last float read: the salt it means in this brine with its sugar; null without one or where it can't be. */
  floatMeansPercent: z.number().nullable(),
  /** An estimate of the fish's water-phase salt at equilibrium, and finished at the usual yield; null without fillets. */
  equilibrium: Range.nullable(),
  finished: z.strictObject({ ...Range.shape, yieldPercent: z.number() }).nullable(),
  cautions: z.array(z.string()),
});
const View = z.strictObject({ tasting: Tasting, figures: TasteFigures });

export const tasteRequests = {
  /** Tastings that are not a recipe yet, the latest first. */
  'taste.list': query(z.strictObject({}), z.strictObject({ tastings: z.array(View) })),
  'taste.get': query(z.strictObject({ tastingId: Id }), View),
  'taste.start': command(z.strictObject({ name: z.string().trim().max(200), speciesId: z.string().max(80).nullable(), fillets: TypedMass.nullable() }), View),
  /** `running`: what the scale shows with all that is in the tub. */
  'taste.add': command(z.strictObject({ tastingId: Id, ingredientId: Id, weighed: TypedMass, scale: z.enum(['alone', 'running']) }), View),
  'taste.strike': command(z.strictObject({ tastingId: Id, additionId: Id }), View),
  'taste.float': command(z.strictObject({ tastingId: Id, shown: z.string().trim().max(20), brine: TypedTemperature }), View),
  /** It becomes a recipe of the strength that was weighed. */
  'taste.keep': command(
    z.strictObject({
      tastingId: Id, name: Words, process: z.enum(['hot', 'cold', 'either']), ratio: z.number(), soakHours: z.number(), turnHours: z.array(z.number()).max(12),
      note: z.string().trim().max(2000),
    }),
    z.strictObject({ recipe: Recipe }),
  ),
} as const;

export type Tasting = z.infer<typeof Tasting>;
export type TasteFigures = z.infer<typeof TasteFigures>;
