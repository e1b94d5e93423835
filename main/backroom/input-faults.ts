/** What is wrong with an input, in sentences for people, with the field each is about. */
import type { z } from 'zod';
import type { FieldFault } from '../../app/contract/envelope.ts';
import { Refusal } from './refusal.ts';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** A long series in the wrong shape has a fault in every reading; this many are told. */
const MOST_FAULTS = 50;

/** INVALID_INPUT with one fault a field; the message is the first of them. */
export function refuseInput(error: z.core.$ZodError): Refusal {
  const faults = error.issues.flatMap((issue) => faultsOf(issue, []));
  const [first] = faults;
  const more = faults.length - 1;
  const message = first === undefined ? 'The request could not be read.' : `${first.message}${more > 0 ? ` And ${more} more.` : ''}`;
  return new Refusal('INVALID_INPUT', message, { fields: faults.slice(0, MOST_FAULTS) });
}

function faultsOf(issue: Issue, parents: Path): FieldFault[] {
  const path = [...parents, ...issue.path];
  switch (issue.code) {
    case 'invalid_union':
      return issue.errors.length === 0 ? [chooseOne(issue, path)] : unionFaults(issue.errors, path);
    case 'unrecognized_keys':
      return issue.keys.map((key) => fault([...path, key], 'is not known here.'));
    case 'invalid_key':
      return [fault(path, 'has a name that can’t be used here.')];
    case 'invalid_element':
      return issue.issues.flatMap((inner) => faultsOf(inner, path));
    case 'custom':
      return [{ path: plain(path), message: asSentence(issue.message) }];
    default:
      return [fault(path, wordsOf(issue, path.length))];
  }
}

function wordsOf(issue: Exclude<Issue, { code: 'invalid_union' | 'unrecognized_keys' | 'invalid_key' | 'invalid_element' | 'custom' }>, depth: number): string {
  switch (issue.code) {
    case 'invalid_type':
      return isMissing(issue) && depth > 0 ? `is missing; it must be ${nameOfType(issue.expected)}.` : `must be ${nameOfType(issue.expected)}.`;
    case 'invalid_value':
      return `must be ${oneOf(issue.values)}.`;
    case 'too_big':
      return `must be ${limitWords('at most', 'less than', issue.inclusive ?? true, issue.maximum, issue.origin, issue.exact ?? false)}.`;
    case 'too_small':
      return `must be ${limitWords('at least', 'more than', issue.inclusive ?? true, issue.minimum, issue.origin, issue.exact ?? false)}.`;
    case 'not_multiple_of':
      return `must be a multiple of ${issue.divisor}.`;
    case 'invalid_format':
      return issue.format === 'base64' ? 'must be base64 text.' : 'is not written as it must be here.';
  }
}

/**
 * A value that fits none of several shapes. The shape that comes nearest is the one it was meant to
 * be: the one that leaves the fewest of its keys unknown, then the one that lacks the fewest.
 */
function unionFaults(options: readonly (readonly Issue[])[], path: Path): FieldFault[] {
  const issues = options.flat();
  if (issues.every((issue) => isMissing(issue) && issue.path.length === 0)) return [fault(path, 'is missing.')];
  if (issues.every((issue) => isMissing(issue) && issue.path.length === 1)) {
    const shapes = options.map((option) => option.map((issue) => String(issue.path[0])).join(' with '));
    return [fault(path, `needs one of ${shapes.join(', ')}.`)];
  }
  if (issues.every((issue) => issue.code === 'invalid_type' && issue.path.length === 0)) {
    const types = issues.map((issue) => (issue.code === 'invalid_type' ? nameOfType(issue.expected) : ''));
    return [fault(path, `must be ${[...new Set(types)].join(' or ')}.`)];
  }
  const nearest = options.toSorted((left, right) => distance(left) - distance(right))[0] ?? [];
  return nearest.flatMap((issue) => faultsOf(issue, path));
}

function distance(option: readonly Issue[]): number {
  return option.reduce((sum, issue) => sum + (issue.code === 'unrecognized_keys' ? 100 * issue.keys.length : 1), 0);
}

function chooseOne(issue: Extract<Issue, { code: 'invalid_union' }>, path: Path): FieldFault {
  const options = 'options' in issue && Array.isArray(issue.options) ? issue.options : [];
  return fault(path, options.length === 0 ? 'fits none of the shapes it may have.' : `must be ${oneOf(options)}.`);
}

/** Zod leaves the input out of an issue; a missing value is told from its message alone. */
function isMissing(issue: Issue): boolean {
  return issue.code === 'invalid_type' && issue.message.endsWith('received undefined');
}

function nameOfType(expected: string): string {
  const names: Readonly<Record<string, string>> = {
    number: 'a number', int: 'a whole number', string: 'text', boolean: 'true or false', object: 'an object', array: 'a list', tuple: 'a list', record: 'an object', null: 'null', nan: 'a number',
  };
  return (Object.hasOwn(names, expected) ? names[expected] : undefined) ?? expected;
}

function oneOf(values: readonly unknown[]): string {
  const names = values.map((value) => JSON.stringify(value) ?? String(value));
  return names.length === 1 ? String(names[0]) : `one of ${names.join(', ')}`;
}

function limitWords(inclusiveWords: string, exclusiveWords: string, inclusive: boolean, limit: number | bigint, origin: string, exact: boolean): string {
  const count = String(limit);
  if (origin !== 'string' && origin !== 'array') return `${inclusive ? inclusiveWords : exclusiveWords} ${count}`;
  const unit = origin === 'string' ? 'character' : 'item';
  const what = `${count} ${unit}${count === '1' ? '' : 's'} long`;
  return exact ? what : `${inclusive ? inclusiveWords : exclusiveWords} ${what}`;
}

function fault(path: Path, words: string): FieldFault {
  return { path: plain(path), message: `${nameOfPath(path)} ${words}` };
}

function plain(path: Path): (string | number)[] {
  return path.map((part) => (typeof part === 'number' ? part : String(part)));
}

/** `readings.places[0].name`; the input itself when the path is empty. */
function nameOfPath(path: Path): string {
  if (path.length === 0) return 'The input';
  return path.map((part, index) => (typeof part === 'number' ? `[${part}]` : `${index === 0 ? '' : '.'}${String(part)}`)).join('');
}

function asSentence(message: string): string {
  return /[.?!]$/.test(message) ? message : `${message}.`;
}
