/** A stand-in for the back room's thread that answers, stays silent or dies, as the request's name says. */
import { parentPort } from 'node:worker_threads';
import type { NumberedToThread } from '../../main/backroom/wire.ts';

parentPort?.on('message', (message: NumberedToThread) => {
  if (message.kind === 'ask' && message.name === 'die') process.exit(3);
  if (message.kind === 'ask' && message.name === 'throw') throw new Error('a bug');
  if (message.kind === 'ask' && message.name === 'silence') return;
  if (message.kind === 'ask' && message.name === 'change') parentPort?.postMessage({ kind: 'changed', subject: 'batch', ids: ['b-1'] });
  parentPort?.postMessage({ kind: 'reply', id: message.id, reply: { ok: true, value: message.kind } });
  if (message.kind === 'close') parentPort?.close();
});
