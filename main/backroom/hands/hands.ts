/** Helper threads without the book: long reading and judging, so that the back room stays free to answer. */
import { Worker } from 'node:worker_threads';
import type { TaskDone, TaskInput, TaskName, TaskOutput, TaskToDo } from './tasks.ts';

export interface Hands {
  /** Does one task away from the book. Rejects when the task threw or its thread died; the next task gets a new thread. */
  run<N extends TaskName>(task: N, ...input: TaskInput<N>): Promise<TaskOutput<N>>;
  close(): Promise<void>;
}

/** Does every task in this thread: for one short question, and for tests. */
export function handsInProcess(): Hands {
  return {
    async run(task, ...input) {
      const { doTask } = await import('./tasks.ts');
      return doTask(task, input);
    },
    close: async () => undefined,
  };
}

interface Waiting {
  resolve(value: unknown): void;
  reject(problem: Error): void;
}

/**
 * One helper thread, started with the first task.
 * @param handFile the file of the thread's entry, built or as source
 */
export function handsInThread(handFile: string | URL): Hands {
  let thread: Worker | null = null;
  let lastId = 0;
  const waiting = new Map<number, Waiting>();

  function abandon(died: Worker, problem: Error): void {
    if (thread !== died) return;
    thread = null;
    for (const { reject } of waiting.values()) reject(problem);
    waiting.clear();
  }
  function start(): Worker {
    const started = new Worker(handFile);
    // A helper must not keep the program alive.
    started.unref();
    started.on('message', (done: TaskDone) => {
      const task = waiting.get(done.id);
      waiting.delete(done.id);
      if (done.ok) task?.resolve(done.value);
      else task?.reject(new Error(done.problem));
    });
    started.on('error', (problem) => abandon(started, problem instanceof Error ? problem : new Error(String(problem))));
    started.on('exit', (code) => abandon(started, new Error(`A helper thread ended with code ${code}.`)));
    return started;
  }

  return {
    run<N extends TaskName>(task: N, ...input: TaskInput<N>): Promise<TaskOutput<N>> {
      thread ??= start();
      const worker = thread;
      const { promise, resolve, reject } = Promise.withResolvers<unknown>();
      const id = (lastId += 1);
      waiting.set(id, { resolve, reject });
      try {
        worker.postMessage({ id, task, input } satisfies TaskToDo);
      } catch (problem) {
        waiting.delete(id);
        reject(problem);
      }
      // The thread answers with what the task of this name returned.
      return promise as Promise<TaskOutput<N>>;
    },
    async close() {
      const ending = thread;
      if (ending === null) return;
      abandon(ending, new Error('The program is closing.'));
      await ending.terminate();
    },
  };
}
