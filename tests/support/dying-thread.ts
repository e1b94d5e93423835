/** A stand-in for the back room's thread that answers, stays silent or dies, as the request's name says. */
import { parentPort } from 'node:worker_threads';
import type { NumberedToThread } from '../../main/backroom/wire.ts';

parentPort?.on('message', (message: NumberedToThread) => {
  const name = 'name' in message ? message.name : '';
  if (name === 'die') process.exit(3);
  if (name === 'throw') throw new Error('a bug');
  if (name === 'silence') return;
  if (name === 'change') parentPort?.postMessage({ kind: 'changed', subject: 'batch', ids: ['b-1'] });
  parentPort?.postMessage({ kind: 'reply', id: message.id, reply: { ok: true, value: message.kind } });
  if (message.kind === 'close') parentPort?.close();
});
