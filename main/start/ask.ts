/** `npm run ask`: one request, a file of requests, or the list of them, through the ordinary dispatch. */
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import type { Failure, Reply } from '../../app/contract/envelope.ts';
import { type Caller, type Door, type LogLine, logToStandardError, openDoor } from '../backroom/door.ts';
import { type AskArguments, readAskArguments } from './ask-arguments.ts';
import { splitInput } from './input-lines.ts';

const Line = z.strictObject({ request: z.string(), input: z.unknown().optional() });
const People = z.object({ people: z.array(z.object({ id: z.string(), initials: z.string() })) });
const Version = z.object({ version: z.string() });

/** Runs `ask` with what was typed after it; answers the exit code. Standard output gets JSON only. */
export async function runAsk(typed: readonly string[]): Promise<number> {
  const isGone = listenForClosedPipe();
  const given = readAskArguments(typed, folderTypedIn());
  if (!given.ok) return refuse(invalid(given.problem.message, given.problem.remedy));
  const { what, bookFile, as } = given.value;
  if (what.kind === 'list') {
    const { listRequests } = await import('./request-list.ts');
    await print(listRequests());
    return 0;
  }
  const door = openDoor({ workerFile: null, handFile: null, bookFile, dataFolder: null, demo: false, version: readVersion(), log: logWhenAsked });
  try {
    const caller = await findCaller(door, as);
    if (!caller.ok) return refuse(caller.error);
    return what.kind === 'lines' ? await answerLines(door, caller.value, isGone) : await answerOne(door, caller.value, what);
  } finally {
    await door.close();
  }
}

async function answerOne(door: Door, caller: Caller, what: Extract<AskArguments['what'], { kind: 'one' }>): Promise<number> {
  const input = parseJson(what.inputText);
  if (!input.ok) return refuse(invalid(`The input of ${what.name} is not JSON.`, 'Write it as {"key": value} in single quotes.'));
  const reply = await door.ask(what.name, input.value, caller);
  if (!reply.ok) return refuse(reply.error);
  await print(reply.value);
  return 0;
}

async function answerLines(door: Door, caller: Caller, isGone: () => boolean): Promise<number> {
  for await (const text of splitInput(process.stdin)) {
    if (isGone()) break;
    await print(await answerLine(door, caller, text));
  }
  return 0;
}

async function answerLine(door: Door, caller: Caller, text: string | null): Promise<Reply<unknown>> {
  if (text === null) return { ok: false, error: invalid('The line is too long.') };
  const json = parseJson(text);
  if (!json.ok) return { ok: false, error: invalid('The line is not JSON.', 'Write one {"request": …, "input": …} a line.') };
  const line = Line.safeParse(json.value);
  if (!line.success) return { ok: false, error: invalid('A line holds “request”, “input” and nothing else.', 'Write one {"request": …, "input": …} a line.') };
  return door.ask(line.data.request, 'input' in line.data ? line.data.input : {}, caller);
}

/** Who acts: the person of the book with these initials, or nobody. */
async function findCaller(door: Door, initials: string | null): Promise<Reply<Caller>> {
  const nobody: Caller = { front: 'ask', device: 'this computer', personId: null, commandId: null };
  if (initials === null) return { ok: true, value: nobody };
  const status = await door.ask('book.status', {}, nobody);
  if (!status.ok) return status;
  const { people } = People.parse(status.value);
  const found = people.find((person) => person.initials.toUpperCase() === initials.toUpperCase());
  if (found !== undefined) return { ok: true, value: { ...nobody, personId: found.id } };
  const known = people.map((person) => person.initials).join(', ');
  const remedy = people.length === 0 ? 'Name a book with people in it by --book FILE.' : `They are ${known}.`;
  return { ok: false, error: { code: 'NOT_ALLOWED', message: `Nobody in this book has the initials ${initials}.`, remedy, retryable: false } };
}

function invalid(message: string, remedy?: string): Failure {
  return { code: 'INVALID_INPUT', message, ...(remedy === undefined ? {} : { remedy }), retryable: false };
}

function refuse(error: Failure): number {
  process.stderr.write(`${JSON.stringify(error)}\n`);
  return 1;
}

/** Writes one value as a line, and waits while whoever reads is slower. */
async function print(value: unknown): Promise<void> {
  const hasRoom = process.stdout.write(`${JSON.stringify(value)}\n`);
  if (hasRoom || process.stdout.destroyed) return;
  await new Promise<void>((resolve) => {
    process.stdout.once('drain', resolve);
    process.stdout.once('close', resolve);
    process.stdout.once('error', () => resolve());
  });
}

/** Whoever read our output may have left (as `head` does): no reason to complain. */
function listenForClosedPipe(): () => boolean {
  let isGone = false;
  process.stdout.on('error', (problem: NodeJS.ErrnoException) => {
    if (problem.code !== 'EPIPE') throw problem;
    isGone = true;
  });
  return () => isGone;
}

function parseJson(text: string): { ok: true; value: unknown } | { ok: false } {
  try {
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch {
    return { ok: false };
  }
}

/** npm changes into the folder of the package; a file is meant from where the person was. */
function folderTypedIn(): string {
  return (process.env['npm_lifecycle_event'] === 'ask' ? process.env['INIT_CWD'] : undefined) ?? process.cwd();
}

/** Standard error is for the one error object; the log is there for whoever looks for a fault of ours. */
function logWhenAsked(line: LogLine): void {
  if (process.env['ALDERBOOK_LOG'] === '1') logToStandardError(line);
}

function readVersion(): string {
  return Version.parse(JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'))).version;
}
