/** Starts a program of ours and kills it at a moment: no farewell, no last write. */
import { spawn } from 'node:child_process';

export interface Killed {
  /** Its lines that were ended. */
  readonly said: readonly string[];
  /** What went wrong before it was killed; null where nothing did. */
  readonly problem: string | null;
}

/**
 * When it is killed: a time after its start, or by its own pace, however slow this computer is just now: once it has
 * said so many lines after `ready`, and a share of the time that each of them took.
 */
export type KillPlan = { readonly afterMs: number } | { readonly lines: number; readonly share: number };

/** What a first line is thought to take. */
const FIRST_LINE_MS = 200;
/** Longer than any start; then something hangs. */
const LONGEST_MS = 120_000;

/** Runs the program until it is killed, and answers what it said. */
export function runAndKill(program: URL, values: readonly string[], plan: KillPlan): Promise<Killed> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [program.pathname, ...values], { stdio: ['ignore', 'pipe', 'pipe'] });
    let [told, problems, killed, hung, armed, readyMs] = ['', '', false, false, false, 0];
    const kill = (): void => {
      killed = true;
      child.kill('SIGKILL');
    };
    const arm = (afterMs: number): void => {
      if (armed) return;
      armed = true;
      setTimeout(kill, afterMs);
    };
    const look = (): void => {
      const lines = told.split('\n').length - 2;
      if ('afterMs' in plan || lines < 0) return;
      if (readyMs === 0) readyMs = performance.now();
      if (lines >= plan.lines) arm(plan.share * (lines === 0 ? FIRST_LINE_MS : (performance.now() - readyMs) / lines));
    };
    const patience = setTimeout(() => {
      hung = true;
      kill();
    }, LONGEST_MS);
    child.stdout.on('data', (part: Buffer) => {
      told += part.toString();
      look();
    });
    child.stderr.on('data', (part: Buffer) => {
      problems += part.toString();
    });
    if ('afterMs' in plan) arm(plan.afterMs);
    child.on('close', (code, signal) => {
      clearTimeout(patience);
      const said = told.split('\n').slice(0, -1);
      const fault = hung ? 'it never got ready' : killed && signal === 'SIGKILL' && problems === '' ? null : `it ended by itself with ${code ?? signal}: ${problems.slice(0, 2000)}`;
      resolve({ said, problem: fault });
    });
  });
}
