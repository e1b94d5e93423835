/** What a person may type after `npm start --`. */
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Outcome } from '../../app/measures/outcome.ts';

export interface StartOptions {
  readonly browser: boolean;
  /** 0 takes any free port. */
  readonly port: number;
  readonly bookFile: string | null;
  readonly demo: boolean;
  readonly open: boolean;
}

const HELP = 'Options after -- are --browser, --port N, --book FILE, --demo and --no-open.';
const KNOWN = {
  browser: { type: 'boolean' },
  port: { type: 'string' },
  book: { type: 'string' },
  demo: { type: 'boolean' },
  'no-open': { type: 'boolean' },
} as const;

function parse(values: readonly string[]) {
  return parseArgs({ args: [...values], options: KNOWN, allowPositionals: false, strict: true }).values;
}

function refuse(message: string, remedy: string): Outcome<never> {
  return { ok: false, problem: { message, remedy } };
}

/** What was wrong, in a sentence of ours; the parser's own names functions and dashes people don't know. */
function explain(values: readonly string[]): string {
  const { tokens } = parseArgs({ args: [...values], options: KNOWN, allowPositionals: true, strict: false, tokens: true });
  for (const token of tokens) {
    if (token.kind === 'positional') return `“${token.value}” is not an option of npm start.`;
    if (token.kind !== 'option') continue;
    if (!Object.hasOwn(KNOWN, token.name)) return `There is no option ${token.rawName}.`;
    const takesValue = KNOWN[token.name as keyof typeof KNOWN].type === 'string';
    if (takesValue && (token.value === undefined || token.value.startsWith('-'))) return `${token.rawName} needs a value after it.`;
    if (!takesValue && token.value !== undefined) return `${token.rawName} takes no value.`;
  }
  return 'The options could not be read.';
}

/**
 * Reads the options; a wrong one is a sentence that says which, and which there are.
 * @param folder the folder that the person typed in, from which `--book` is looked at
 */
export function readStartOptions(values: readonly string[], folder: string): Outcome<StartOptions> {
  let given: ReturnType<typeof parse>;
  try {
    given = parse(values);
  } catch {
    return refuse(explain(values), HELP);
  }
  if (given.port !== undefined && !(/^\d{1,5}$/.test(given.port) && Number(given.port) <= 65_535)) {
    return refuse(`--port needs a whole number from 0 to 65535, and “${given.port}” is none.`, 'With 0, or without --port, any free one is taken.');
  }
  if (given.book === '') return refuse('--book needs the name of a file.', HELP);
  return {
    ok: true,
    value: {
      browser: given.browser ?? false,
      port: Number(given.port ?? 0),
      bookFile: given.book === undefined ? null : path.resolve(folder, given.book),
      demo: given.demo ?? false,
      open: !(given['no-open'] ?? false),
    },
  };
}
