/** The entry of a helper thread: does what it is told and answers, nothing else. */
import '../../start/node-version.ts';
import { parentPort } from 'node:worker_threads';
import { doTask, type TaskDone, type TaskToDo } from './tasks.ts';

parentPort?.on('message', ({ id, task, input }: TaskToDo) => {
  parentPort?.postMessage(attempt(id, task, input));
});

function attempt(id: number, task: TaskToDo['task'], input: TaskToDo['input']): TaskDone {
  try {
    return { id, ok: true, value: doTask(task, input) };
  } catch (thrown) {
    return { id, ok: false, problem: thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown) };
  }
}
