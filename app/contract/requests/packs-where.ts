/** Where a pack is and what became of it: trays, places, guests and buyers, hand-over. */
import { z } from 'zod';
import { Day, Id, InstantMs, Ticks, TypedMass, Words } from './quantities.ts';

/** Whoever takes packs away, or brought the fish: a guest, a party, or somebody who buys. */
export const Guest = z.strictObject({
  id: Id,
  kind: z.enum(['guest', 'party', 'buyer']),
  name: Words,
  /** How to reach them: a telephone number or an e-mail address. */
  contact: z.string().trim().max(200),
  address: z.string().trim().max(200),
  room: z.string().trim().max(40),
  checkoutDay: Day.nullable(),
});

/**
 * Packs frozen together: when they were sealed, went into the freezer, were frozen solid, and how that is known.
 * Without packs it is the fish itself, frozen against parasites before it is packed; that was sealed never.
 */
export const Tray = z.strictObject({
  id: Id,
  batchId: Id,
  name: Words,
  packIds: z.array(Id).max(200),
  placeId: Id,
  spot: z.string().trim().max(40),
  sealedAtMs: InstantMs.nullable(),
  intoFreezerAtMs: InstantMs,
  frozenAtMs: InstantMs.nullable(),
  /** How it is known that they were solid. */
  frozenHow: z.enum(['probe-in-fish', 'probe-in-dummy', 'touch']).nullable(),
  /** The probe that stands in a fish or a dummy on it. */
  pointId: Id.nullable(),
  probeIn: z.enum(['fish', 'dummy']).optional(),
  outAtMs: InstantMs.nullable(),
  initials: z.string(),
});

/** What became of a pack, one line each time. */
export const PackMove = z.strictObject({
  id: Id,
  packId: Id,
  what: z.enum(['into-store', 'out-of-store', 'handed-over', 'returned', 'served', 'destroyed']),
  atMs: InstantMs,
  placeId: Id.nullable(),
  spot: z.string().trim().max(40),
  handOverId: Id.nullable(),
  why: z.string().trim().max(300),
  initials: z.string(),
});

/** Packs given away, with what was looked at and who signed; what was not looked at is named. */
export const HandOver = z.strictObject({
  id: Id,
  guestId: Id,
  atMs: InstantMs,
  packIds: z.array(Id).min(1).max(200),
  /** How many packs of theirs there were to give. */
  of: z.int().min(1),
  frozenHard: z.strictObject({ how: z.enum(['reading', 'touch', 'not-checked']), ticks: Ticks.nullable(), text: z.string() }),
  box: z.string().trim().max(120),
  travelHours: z.number().min(0).max(200).nullable(),
  missed: z.array(z.string()),
  /** The strokes of the signature as an SVG path in a box of 600 by 200, and who signed. */
  signature: z.strictObject({ path: z.string().max(60_000), name: Words }).nullable(),
  sheetGiven: z.boolean(),
  why: z.string().trim().max(300),
  initials: z.string(),
});

/** What was cut and weighed of a batch at one go, so that weights add up. */
export const Portioning = z.strictObject({
  id: Id,
  batchId: Id,
  atMs: InstantMs,
  initials: z.string(),
  targetGrams: z.number().positive().nullable(),
  tareGrams: z.number().nonnegative(),
  packIds: z.array(Id),
  remainderGrams: z.number().nonnegative(),
  trimGrams: z.number().nonnegative(),
  /** Said where the weights don't add up within the kitchen's tolerance. */
  why: z.string().trim().max(300),
});

/** What a pack was weighed with, beside its weight. */
export const sealExtras = {
  /** `gross`: on the scale in its bag; the tare is taken off, and the net is what is kept. */
  weighed: z.enum(['net', 'gross']).optional(),
  tare: TypedMass.optional(),
  target: TypedMass.optional(),
} as const;

export type Guest = z.infer<typeof Guest>;
export type Tray = z.infer<typeof Tray>;
export type PackMove = z.infer<typeof PackMove>;
export type HandOver = z.infer<typeof HandOver>;
export type Portioning = z.infer<typeof Portioning>;
