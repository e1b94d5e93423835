/** A stand-in for a helper thread: dies of a file that begins with 0, and answers any other with its length. */
import { parentPort } from 'node:worker_threads';
import type { TaskToDo } from '../../main/backroom/hands/tasks.ts';

parentPort?.on('message', ({ id, input }: TaskToDo) => {
  const [bytes] = input;
  const isBytes = bytes instanceof Uint8Array;
  if (isBytes && bytes[0] === 0) process.exit(9);
  parentPort?.postMessage({ id, ok: true, value: isBytes ? bytes.length : null });
});
