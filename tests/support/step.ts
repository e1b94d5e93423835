/** One step of a check or a test run: a program of a package, its output shown as it comes. */
import { spawn } from 'node:child_process';
import { stripVTControlCharacters } from 'node:util';
import { programOf, ROOT } from './packages.ts';

export interface Step {
  readonly name: string;
  readonly packageName: string;
  readonly programName: string;
  readonly values: readonly string[];
  readonly environment?: Readonly<Record<string, string>>;
  /** Finds how many files or tests the program says it looked at, and the fewest that can be right. */
  readonly floor?: { readonly count: RegExp; readonly fewest: number };
}

export interface StepResult {
  readonly name: string;
  /** Why it failed, in a few words; null when it passed. */
  readonly failure: string | null;
  readonly seconds: number;
  /** All it printed, without colours. */
  readonly printed: string;
}

/** Twice and more what the longest takes on two cores; what hangs is ended. */
const LONGEST_STEP_MS = 25 * 60_000;

function judge(step: Step, code: number | null, signal: NodeJS.Signals | null, printed: string): string | null {
  if (signal !== null) return `ended by ${signal}`;
  if (code !== 0) return `exit code ${code}`;
  if (step.floor === undefined) return null;
  const seen = Number(step.floor.count.exec(printed)?.[1] ?? 0);
  return seen >= step.floor.fewest ? null : `it looked at ${seen}, and ${step.floor.fewest} is the fewest that can be right`;
}

/** Runs one step to its end; a failing one is a result, not an error. */
export function runStep(step: Step): Promise<StepResult> {
  process.stdout.write(`\n── ${step.name}\n`);
  const beganMs = performance.now();
  return new Promise((resolve) => {
    const printed: string[] = [];
    function end(failure: string | null): void {
      const seconds = (performance.now() - beganMs) / 1000;
      process.stdout.write(`── ${step.name}: ${failure === null ? 'passed' : `FAILED, ${failure}`} (${seconds.toFixed(1)} s)\n`);
      const text = stripVTControlCharacters(printed.join(''));
      resolve({ name: step.name, failure, seconds, printed: text });
    }
    const program = spawn(process.execPath, [programOf(step.packageName, step.programName), ...step.values], {
      cwd: ROOT,
      env: { ...process.env, ...(process.stdout.isTTY ? { FORCE_COLOR: '1' } : {}), ...step.environment },
      stdio: ['ignore', 'pipe', 'pipe'],
      timeout: LONGEST_STEP_MS,
    });
    for (const [stream, shown] of [[program.stdout, process.stdout], [program.stderr, process.stderr]] as const) {
      stream.setEncoding('utf8');
      stream.on('data', (part: string) => {
        printed.push(part);
        shown.write(part);
      });
    }
    program.on('error', (fault) => end(fault.message));
    program.on('close', (code, signal) => end(judge(step, code, signal, stripVTControlCharacters(printed.join('')))));
  });
}

/** Runs all of them one after the other, whatever fails, so that one failure doesn't hide another. */
export async function runSteps(steps: readonly Step[]): Promise<StepResult[]> {
  const results: StepResult[] = [];
  for (const step of steps) results.push(await runStep(step));
  return results;
}
