/** The limit sets, what each check says and where it comes from, and the kitchen's confirmations. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id, InstantMs, Words } from './quantities.ts';

export const Mark = z.enum(['read', 'second-hand', 'from memory', 'computed', 'common practice']);
/** What a set is asked about a batch, in the order of the work. */
export const Question = z.enum(['raw', 'thaw', 'brine', 'dry', 'chamber', 'cooling', 'exposure', 'parasite', 'salt', 'pack', 'store', 'record']);
export const Confirmation = z.strictObject({ checkId: z.string(), personId: Id, initials: z.string(), atMs: InstantMs, document: z.string() });
export const CheckInfo = z.strictObject({
  checkId: z.string(),
  title: z.string(),
  question: Question,
  gate: z.string(),
  /** The figures in the law's own words and unit, one line. */
  figures: z.string(),
  source: z.string(),
  mark: Mark,
  confirmation: Confirmation.nullable(),
});
export const SetInfo = z.strictObject({
  setId: z.string(),
  name: z.string(),
  version: z.string(),
  readInFull: z.boolean(),
  /** True when it may decide: read in full, or every figure from memory or second-hand confirmed. */
  mayDecide: z.boolean(),
  decides: z.boolean(),
  note: z.string(),
  checks: z.array(CheckInfo),
  noFigure: z.array(z.string()),
});

export const limitsRequests = {
  'limits.list': query(z.strictObject({}), z.strictObject({ sets: z.array(SetInfo) })),
  'limits.confirm': command(
    z.strictObject({ checkId: z.string().max(40), document: Words }),
    z.strictObject({ confirmation: Confirmation }),
    ['manager'],
  ),
} as const;

export type SetInfo = z.infer<typeof SetInfo>;
export type CheckInfo = z.infer<typeof CheckInfo>;
export type Confirmation = z.infer<typeof Confirmation>;
