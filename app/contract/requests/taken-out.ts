/** Racks taken out early: a batch, or one piece of it, leaves the smoker before the rest of its load. */
import { z } from 'zod';
import { command } from '../endpoint.ts';
import { Id, InstantMs, Words } from './quantities.ts';

/** The out mark of a batch of a shared load, or of one of its pieces; `pointId` is null for all of the batch. */
export const TakenOut = z.strictObject({ batchId: Id, pointId: Id.nullable(), atMs: InstantMs });

export const takenOutRequests = {
  /** It came out at this instant, while the rest stayed in; null takes a wrong mark back: it is still in. */
  'load.takeOut': command(
    z.strictObject({ loadId: Id, batchId: Id, pointId: Id.nullable(), atMs: InstantMs.nullable(), why: Words }),
    z.strictObject({ takenOut: z.array(TakenOut) }),
  ),
} as const;

export type TakenOut = z.infer<typeof TakenOut>;
