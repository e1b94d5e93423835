/** What a person may type after `npm run ask --`. */
import path from 'node:path';
import type { Outcome } from '../../app/measures/outcome.ts';

export interface AskArguments {
  readonly what: { readonly kind: 'list' } | { readonly kind: 'lines' } | { readonly kind: 'one'; readonly name: string; readonly inputText: string };
  /** Absolute; null when no book is named. */
  readonly bookFile: string | null;
  /** Initials of the person who acts. */
  readonly as: string | null;
}

const HELP = 'Ask with a name and its input as JSON, or with --list or --lines; --book FILE and --as INITIALS may stand before.';

/**
 * Reads the arguments; a wrong one is a sentence.
 * @param folder where the person typed it: a named file is meant from there
 */
export function readAskArguments(typed: readonly string[], folder: string): Outcome<AskArguments> {
  let bookFile: string | null = null;
  let as: string | null = null;
  const rest: string[] = [];
  for (let index = 0; index < typed.length; index += 1) {
    const value = typed[index] ?? '';
    if (value === '--book' || value === '--as') {
      const given = typed[(index += 1)];
      if (given === undefined || given === '' || given.startsWith('--')) return bad(`${value} needs ${value === '--book' ? 'the name of a file' : 'a person’s initials'} after it.`);
      if (value === '--book') bookFile = path.resolve(folder, given);
      else as = given;
    } else {
      rest.push(value);
    }
  }
  const what = readWhat(rest);
  return what.ok ? good({ what: what.value, bookFile, as }) : what;
}

function readWhat(rest: readonly string[]): Outcome<AskArguments['what']> {
  const [first, second, ...more] = rest;
  if (first === undefined) return bad('Nothing was asked.');
  if (first === '--list' || first === '--lines') {
    return second === undefined ? good({ kind: first === '--list' ? 'list' : 'lines' }) : bad(`“${second}” can’t stand after ${first}.`);
  }
  if (first.startsWith('-')) return bad(`There is no option ${first}.`);
  if (more.length > 0) return bad(`“${more[0]}” is one word too many.`, 'Put the input into single quotes, so that it stays one word.');
  return good({ kind: 'one', name: first, inputText: second ?? '{}' });
}

function good<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

function bad(message: string, remedy = HELP): Outcome<never> {
  return { ok: false, problem: { message, remedy } };
}
