/** `log.read`: a thermometer's log from a file's text to places with points. */
import { z } from 'zod';
import type { LogRole } from '../../probes/log-types.ts';
import { pure } from '../endpoint.ts';

const Unit = z.enum(['F', 'C']);
const Role = z.enum(['time', 'date', 'clock', 'elapsed', 'reading', 'note', 'ignore', 'channel', 'unit'] satisfies LogRole[]);

export const LogReadInput = z
  .strictObject({
    /** For sentences only. */
    fileName: z.string().min(1).max(255),
    /** The file as text, or its bytes as base64: exactly one of the two. */
    text: z.string().optional(),
    base64: z.string().optional(),
    /** IANA name, `UTC` or a fixed offset, for times written without one. */
    timeZone: z.string().max(60).optional(),
    /** Question id to choice id or typed text. */
    answers: z.record(z.string(), z.string()).optional(),
  })
  .refine((input) => (input.text === undefined) !== (input.base64 === undefined), { path: ['text'], message: 'Give the file as text or as base64: exactly one of the two.' });
export type LogReadInput = z.infer<typeof LogReadInput>;

export const LogReadOutput = z.strictObject({
  columns: z.array(z.strictObject({ index: z.int(), heading: z.string(), role: Role, unit: Unit.nullable() })),
  questions: z.array(
    z.strictObject({
      id: z.string(),
      text: z.string(),
      /** None: a text is typed. */
      choices: z.array(z.strictObject({ id: z.string(), text: z.string() })),
      column: z.int().optional(),
    }),
  ),
  places: z.array(
    z.strictObject({
      name: z.string(),
      unit: Unit,
      /** Pairs of UTC milliseconds and the number as written. */
      points: z.array(z.tuple([z.int(), z.number()])),
    }),
  ),
  refusedRows: z.array(z.strictObject({ line: z.int(), reason: z.string() })),
  /** Things to look at; nothing was left out because of them. */
  remarks: z.array(z.strictObject({ line: z.int().optional(), text: z.string() })).optional(),
});
export type LogReadOutput = z.infer<typeof LogReadOutput>;

export const logReadRequests = { 'log.read': pure(LogReadInput, LogReadOutput) } as const;
