/** The office's work on limit sets: sets from a letter, figures made stricter, and which set decides what. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Day, Id, TemperatureUnit, Words } from './quantities.ts';

/** A changed figure of a check; what is left out stays as it is. */
export const FigureChange = z.strictObject({
  checkId: z.string().max(60),
  /** Which of the check's figures `value` is, as `limits.own` names it; the first where none is named. */
  field: z.string().max(40).optional(),
  /** Decimal text in the unit of the law: a temperature, per cent, or parts per million. */
  value: z.string().trim().max(20).optional(),
  unit: TemperatureUnit.optional(),
  minutes: z.number().optional(),
});
export const OwnSet = z.strictObject({
  setId: Id,
  name: z.string(),
  version: z.string(),
  baseSetId: z.string(),
  effectiveFrom: Day,
  paperId: Id.nullable(),
  changes: z.array(z.strictObject({ checkId: z.string(), was: z.string(), is: z.string(), stricter: z.boolean() })),
});

/** A figure of a published check that a kitchen's own set may have otherwise. */
export const ChangeableFigure = z.strictObject({
  field: z.string(),
  value: z.string(),
  unit: z.enum(['F', 'C', 'min', 'h', 'days', 'months', 'years', '%', 'ppm', 'pieces', 'batches', 'cc/m²']),
  /** Which way it asks more of a batch. */
  stricter: z.enum(['higher', 'lower']),
});

export const limitsOfficeRequests = {
  'limits.own': query(
    z.strictObject({}),
    z.strictObject({
      sets: z.array(OwnSet),
      decidingFor: z.strictObject({ guest: z.string(), supplier: z.string() }),
      /** Of every check that has figures, by its id; an own set's checks go by their own ids, against the published figures. */
      figures: z.array(z.strictObject({ checkId: z.string(), figures: z.array(ChangeableFigure) })),
    }),
  ),
  /** A set of the kitchen's own: another set with changed figures, by a letter on file. A looser figure needs a variance on file. */
  'limits.addSet': command(
    z.strictObject({ baseSetId: z.string().max(60), name: Words, effectiveFrom: Day, paperId: Id.nullable(), changes: z.array(FigureChange).max(40) }),
    z.strictObject({ set: OwnSet }),
    ['manager'],
  ),
  /** Which set decides new batches of guests' catch and of bought fish. */
  'limits.decideFor': command(
    z.strictObject({ guest: z.string().max(60), supplier: z.string().max(60) }),
    z.strictObject({ guest: z.string(), supplier: z.string() }),
    ['manager'],
  ),
} as const;

export type OwnSet = z.infer<typeof OwnSet>;
export type FigureChange = z.infer<typeof FigureChange>;
export type ChangeableFigure = z.infer<typeof ChangeableFigure>;
