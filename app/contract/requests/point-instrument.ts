/** A piece keeps one story when its thermometer changes: a probe swapped, or another logger in the cooler. */
import { z } from 'zod';
import { command } from '../endpoint.ts';
import { Id, InstantMs, Words } from './quantities.ts';

/** Which thermometer sat in a point until an instant. */
export const EarlierInstrument = z.strictObject({ instrumentId: Id.nullable(), untilMs: InstantMs });

export const pointInstrumentRequests = {
  /** From this instant on the point is read with another thermometer (null: with whatever is at hand). What was read before stays with the one before. */
  'point.moveInstrument': command(
    z.strictObject({ pointId: Id, instrumentId: Id.nullable(), atMs: InstantMs, why: Words }),
    z.strictObject({ pointId: Id, instrumentId: Id.nullable(), earlier: z.array(EarlierInstrument) }),
  ),
} as const;
