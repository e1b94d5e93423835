/** The entry of a helper thread: does what it is told and answers, nothing else. */
import '../../start/node-version.ts';
import { parentPort } from 'node:worker_threads';
import { buffersOf } from './packed-log.ts';
import { doTask, type TaskDone, type TaskToDo } from './tasks.ts';

parentPort?.on('message', async ({ id, task, input }: TaskToDo) => {
  const done = await attempt(id, task, input);
  parentPort?.postMessage(done, done.ok ? buffersOf(done.value) : []);
});

async function attempt(id: number, task: TaskToDo['task'], input: TaskToDo['input']): Promise<TaskDone> {
  try {
    return { id, ok: true, value: await doTask(task, input) };
  } catch (thrown) {
    return { id, ok: false, problem: thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown) };
  }
}
