/** What helper threads can do. Inputs and results are plain data: they are copied between threads. */
import type { Failure } from '../../../app/contract/envelope.ts';
import type { LogJudgeIn, LogJudgeOut } from '../../../app/contract/requests/log-judge.ts';
import type { LogOptions } from '../../../app/probes/log-types.ts';
import { catalogue } from '../catalogue.ts';
import { failureOf } from '../failures.ts';
import { Refusal } from '../refusal.ts';
import { logJudgeServices } from '../services/log-judge.ts';
import { readLogFile } from './log-file.ts';
import { packLog, type PackedLog } from './packed-log.ts';

const TASKS = {
  /** Reads a logger's file as columns of numbers, for the book, and packs them. */
  async readColumns(bytes: Uint8Array, options: LogOptions): Promise<PackedLog> {
    return packLog(await readLogFile(bytes, options));
  },
  /** Judges a record of temperatures by the limits that come with the program. */
  judgeLog(input: LogJudgeIn): { readonly ok: true; readonly value: LogJudgeOut } | { readonly ok: false; readonly failure: Failure } {
    try {
      return { ok: true, value: logJudgeServices['log.judge'](catalogue, input) };
    } catch (thrown) {
      // A refusal does not pass from thread to thread as what it is; its failure does.
      if (thrown instanceof Refusal) return { ok: false, failure: failureOf(thrown) };
      throw thrown;
    }
  },
} as const;

type Tasks = typeof TASKS;
export type TaskName = keyof Tasks;
export type TaskInput<N extends TaskName> = Parameters<Tasks[N]>;
type TaskOutputs = { readonly [N in TaskName]: Awaited<ReturnType<Tasks[N]>> };
export type TaskOutput<N extends TaskName> = TaskOutputs[N];

/** A task on its way to a thread, and what comes back. */
export interface TaskToDo {
  readonly id: number;
  readonly task: TaskName;
  readonly input: readonly unknown[];
}
export type TaskDone = { readonly id: number; readonly ok: true; readonly value: unknown } | { readonly id: number; readonly ok: false; readonly problem: string };

/** Does one task in this thread. */
export async function doTask<N extends TaskName>(name: N, input: readonly unknown[]): Promise<TaskOutput<N>> {
  // Whoever asked was held to the task's own parameters by `Hands.run`.
  const task = TASKS[name] as (...given: readonly unknown[]) => TaskOutput<N> | Promise<TaskOutput<N>>;
  return task(...input);
}
