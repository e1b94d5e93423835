/** Whoever packs go to, and giving them: what was looked at, who signed, what they were told. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { PackWhere } from './cold-store.ts';
import { Guest, HandOver } from './packs-where.ts';
import { Day, Id, InstantMs, StoreKind, TypedTemperature, Words } from './quantities.ts';

const GuestDraft = Guest.omit({ id: true });
/** Packs of one batch that may or may not go. */
const BatchToGive = z.strictObject({
  batchId: Id,
  batchName: z.string(),
  marketName: z.string(),
  store: StoreKind,
  packs: z.array(z.strictObject({ ...PackWhere.shape, /** Why this pack can’t go; null where it may. */ why: z.string().nullable() })),
  /** The leave gate’s line. */
  line: z.string(),
  /** Why none of its packs may go, with what helps; null where they may. */
  refusal: z.strictObject({ message: z.string(), remedy: z.string() }).nullable(),
  /** They may with a manager’s initials: something meets only within the thermometers’ error. */
  needsInitials: z.boolean(),
});
export const HandOverView = z.strictObject({
  ...HandOver.shape,
  guest: Guest,
  codes: z.array(z.strictObject({ packId: Id, code: z.string(), marketName: z.string(), grams: z.number(), store: StoreKind, isCustom: z.boolean(), process: z.enum(['hot', 'cold']), pack: z.string(), bestBy: Day.nullable() })),
});

export const handOverRequests = {
  'guest.list': query(
    z.strictObject({}),
    z.strictObject({ guests: z.array(z.strictObject({ ...Guest.shape, /** Packs of theirs that are still here. */ waiting: z.int(), lots: z.int() })) }),
  ),
  'guest.save': command(z.strictObject({ guestId: Id.nullable(), draft: GuestDraft }), z.strictObject({ guest: Guest })),
  /** What there is to give to somebody, and what keeps it. */
  'handOver.prepare': query(
    z.strictObject({ guestId: Id }),
    z.strictObject({ guest: Guest, batches: z.array(BatchToGive), of: z.int(), given: z.int() }),
  ),
  'handOver.make': command(
    z.strictObject({
      guestId: Id,
      packIds: z.array(Id).min(1).max(200),
      atMs: InstantMs,
      frozenHard: z.strictObject({ how: z.enum(['reading', 'touch', 'not-checked']), reading: TypedTemperature.nullable() }),
      box: z.string().trim().max(120),
      travelHours: z.string().trim().max(10),
      signature: z.strictObject({ path: z.string().max(60_000), name: Words }).nullable(),
      sheetGiven: z.boolean(),
      /** A manager's initials for what meets only within the thermometers' error. */
      initialsForError: z.boolean().optional(),
      /** Wanted where something wasn’t looked at. */
      why: z.string().trim().max(300),
    }),
    z.strictObject({ handOver: HandOver }),
  ),
  'handOver.get': query(z.strictObject({ handOverId: Id }), z.strictObject({ handOver: HandOverView })),
  'handOver.list': query(z.strictObject({ batchId: Id.nullable() }), z.strictObject({ handOvers: z.array(HandOverView) })),
} as const;

export type GuestDraft = z.infer<typeof GuestDraft>;
export type BatchToGive = z.infer<typeof BatchToGive>;
export type HandOverView = z.infer<typeof HandOverView>;
