/** What a front hears after a commit: which subject changed. Places then ask again. */
import { z } from 'zod';

export const SUBJECTS = ['book', 'office', 'limits', 'papers', 'fish', 'recipes', 'tasting', 'batch', 'load', 'readings', 'verdict', 'packs', 'feeds'] as const;
export type Subject = (typeof SUBJECTS)[number];

export const BookEvent = z.strictObject({
  /** Counts up by one for every event of this run of the back room. */
  seq: z.int().nonnegative(),
  subject: z.enum(SUBJECTS),
  ids: z.array(z.string()),
});
export type BookEvent = z.infer<typeof BookEvent>;

/** Told to a front whose last `seq` is too old to be caught up: ask everything again. */
export const Resync = z.strictObject({ resync: z.literal(true), seq: z.int().nonnegative() });
export type Resync = z.infer<typeof Resync>;
