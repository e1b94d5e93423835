/**
 * A file is read as soon as it comes, beside being kept, and is read by then when somebody asks what is in it; and once
 * read it need not be read again to be taken over. What was read of the last file is kept at hand.
 */
import type { Outcome } from '../../../app/measures/outcome.ts';
import type { ColumnLog } from '../../../app/probes/log-columns.ts';
import type { LogOptions } from '../../../app/probes/log-types.ts';
import type { Hands } from '../hands/hands.ts';
import { unpackLog } from '../hands/packed-log.ts';

type Reading = Promise<Outcome<ColumnLog>>;

/** Different answers to what is asked about a file, each read again. */
const MOST_READINGS = 3;

interface Latest {
  readonly fileId: string;
  /** By the options it was read with. */
  readonly readings: Map<string, Reading>;
}
/** The last file of each book that is open, which is one. */
const latest = new WeakMap<Hands, Latest>();

/** Begins to read a file that is still being kept. @returns what is to be told once it has its id */
export function readAhead(hands: Hands, bytes: Uint8Array, options: LogOptions): (fileId: string) => void {
  const reading = readNow(hands, bytes, options);
  // Whoever asks for it hears what went wrong; perhaps nobody does.
  reading.catch(() => undefined);
  return (fileId) => keepReading(hands, fileId, options, reading);
}

/** What is in a file: as it was read before with the same options, else read now. */
export async function readOnceOnly(hands: Hands, fileId: string, options: LogOptions, bytesOf: () => Uint8Array): Reading {
  const before = latest.get(hands);
  const known = before?.fileId === fileId ? before.readings.get(keyOf(options)) : undefined;
  if (known !== undefined) return known;
  const reading = readNow(hands, bytesOf(), options);
  keepReading(hands, fileId, options, reading);
  return reading;
}

async function readNow(hands: Hands, bytes: Uint8Array, options: LogOptions): Reading {
  return unpackLog(await hands.run('readColumns', bytes, options));
}

function keepReading(hands: Hands, fileId: string, options: LogOptions, reading: Reading): void {
  const before = latest.get(hands);
  const { readings } = before?.fileId === fileId ? before : { readings: new Map<string, Reading>() };
  latest.set(hands, { fileId, readings });
  const key = keyOf(options);
  readings.set(key, reading);
  const [oldest] = readings.keys();
  if (readings.size > MOST_READINGS && oldest !== undefined) readings.delete(oldest);
  // A thread that died says nothing of the file: it is read anew.
  reading.catch(() => readings.delete(key));
}

function keyOf({ fileName, timeZone, answers = {} }: LogOptions): string {
  return JSON.stringify([fileName ?? null, timeZone ?? null, Object.entries(answers).toSorted(([one], [other]) => (one < other ? -1 : 1))]);
}
