/** Tables to carry out of the book: the events of traceability, and readings. */
import { z } from 'zod';
import { query } from '../endpoint.ts';
import { Day, Id } from './quantities.ts';

export const exportRequests = {
  /** Receiving, transformation and shipping from one day to another, both included, as the kitchen's calendar has them. */
  'export.traceability': query(
    z.strictObject({ fromDay: Day, toDay: Day, form: z.enum(['xlsx', 'csv']), withGuests: z.boolean() }),
    z.strictObject({
      fileName: z.string(), mediaType: z.string(), base64: z.base64(), rows: z.int(),
      /** What the rule asks for and these rows lack, a sentence each. */
      gaps: z.array(z.string()),
    }),
  ),
  /** The readings of a load's points or of one place, as they were read: CSV text, a row a reading. */
  'export.readings': query(
    z.strictObject({ of: z.enum(['load', 'place']), id: Id, fromDay: Day.nullable(), toDay: Day.nullable() }),
    z.strictObject({ fileName: z.string(), text: z.string(), rows: z.int() }),
  ),
} as const;
