/**
 * One text for one value: JSON with its keys in order and nothing optional in how it is written,
 * so that a digest of it says the same on every machine.
 */
import { createHash } from 'node:crypto';

/**
 * The canonical JSON of plain data: keys sorted by UTF-16 code unit, no spaces, `undefined` keys left
 * out (as JSON does), broken surrogate pairs replaced as they are when text is stored.
 * Throws for what JSON can't hold (NaN, infinite numbers, functions, bigints): always a bug of ours.
 */
export function canonicalJson(value: unknown): string {
  if (value === null || value === undefined) return 'null';
  if (typeof value === 'boolean') return value ? 'true' : 'false';
  if (typeof value === 'string') return JSON.stringify(value.toWellFormed());
  if (typeof value === 'number') return numberText(value);
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item)).join(',')}]`;
  if (typeof value === 'object') return objectText(value);
  throw new Error(`A ${typeof value} can't be written into the record.`);
}

/** The SHA-256 of a text's UTF-8 bytes, or of bytes, in lower-case hexadecimal. */
export function sha256Hex(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}

function numberText(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`The number ${value} can't be written into the record.`);
  return JSON.stringify(value);
}

function objectText(value: object): string {
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) throw new Error('Only plain objects can be written into the record.');
  const parts = Object.entries(value)
    .filter(([, member]) => member !== undefined)
    .toSorted(([left], [right]) => (left < right ? -1 : 1))
    .map(([key, member]) => `${JSON.stringify(key.toWellFormed())}:${canonicalJson(member)}`);
  return `{${parts.join(',')}}`;
}
