/** Schemas of the demonstration kitchen in `assets/demo`: its office, and what happened in it, in steps that the program's own requests take. */
import { z } from 'zod';
import { KitchenDraft, PersonDraft } from './requests/office.ts';

/** A moment before the demonstration kitchen is opened: a clock time some days back, or minutes back. */
export const DemoMoment = z.union([
  z.strictObject({ daysAgo: z.int().min(0).max(400), clock: z.string().regex(/^\d{2}:\d{2}$/) }),
  z.strictObject({ minutesAgo: z.int().min(0).max(10_000) }),
]);

/** What the steps may ask; all of them are answered at once. */
const DEMO_REQUESTS = [
  'office.addInstrument', 'office.addSmoker', 'office.addPlace',
  'fishLot.receive', 'batch.make', 'soak.log', 'load.open', 'load.mark', 'readings.enter',
  'batch.decide', 'pack.seal', 'label.printed', 'batch.mark', 'paper.add', 'record.review',
  'guest.save', 'tray.make', 'tray.mark', 'pack.move', 'portion.close', 'handOver.make',
  'ingredient.save', 'recipe.save', 'taste.start', 'taste.add', 'taste.float',
] as const;

/**
 * One request, made at `at` by the person with these initials. In its input `"@name"` stands for the id
 * kept under that name, and a moment for its instant.
 */
export const DemoStep = z.strictObject({
  at: DemoMoment,
  by: z.string(),
  ask: z.enum(DEMO_REQUESTS),
  input: z.record(z.string(), z.json()),
  /** Keeps the answer's id; of a load also its points' as `name/point`, of packs all of them as one list and each as `name/number`. */
  keep: z.string().exactOptional(),
});

/** Rounds with a thermometer: each row is minutes since `from`, then a value in °F for each point, null where none was read. */
export const DemoRounds = z.strictObject({
  from: DemoMoment,
  by: z.string(),
  /** Names under which points and instruments are kept. */
  points: z.array(z.strictObject({ point: z.string(), instrument: z.string().nullable() })).min(1),
  rows: z.array(z.tuple([z.int().min(0)], z.string().nullable())).min(1),
});

/** A daily round at the same clock times, up to now; the values in °F are used in turn. */
export const DemoDailyRounds = z.strictObject({
  fromDaysAgo: z.int().min(1).max(400),
  clocks: z.array(z.string().regex(/^\d{2}:\d{2}$/)).min(1),
  by: z.string(),
  point: z.string(),
  instrument: z.string().nullable(),
  values: z.array(z.string()).min(1),
});

/** `assets/demo/kitchen.json`. */
export const DemoKitchenAsset = z.strictObject({
  begun: DemoMoment,
  kitchen: KitchenDraft,
  people: z.array(PersonDraft).min(1),
  equipment: z.array(DemoStep),
});

/** `assets/demo/history.json`. */
export const DemoHistoryAsset = z.strictObject({
  steps: z.array(DemoStep),
  rounds: z.array(DemoRounds),
  daily: z.array(DemoDailyRounds),
});

/** `assets/demo/recipe-soaks.json`: how each starting recipe is soaked, and whether every new book gets it. */
export const RecipeSoaksAsset = z.strictObject({
  mark: z.literal('common practice'),
  soaks: z.array(z.strictObject({
    recipeId: z.string(),
    soakHours: z.number().positive(),
    turnHours: z.array(z.number().positive()),
    process: z.enum(['hot', 'cold', 'either']),
    everyBook: z.boolean(),
  })),
});

export type DemoMoment = z.infer<typeof DemoMoment>;
export type DemoStep = z.infer<typeof DemoStep>;
export type DemoRounds = z.infer<typeof DemoRounds>;
export type DemoDailyRounds = z.infer<typeof DemoDailyRounds>;
