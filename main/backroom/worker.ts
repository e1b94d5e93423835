/** The entry of the back room's thread, which alone holds the book. */
import '../start/node-version.ts';
import { parentPort, workerData } from 'node:worker_threads';
import type { Reply } from '../../app/contract/envelope.ts';
import { furnishBackRoom } from './furnish.ts';
import { textOfReply, type FromThread, type NumberedToThread, type ReplyText, type ThreadData } from './wire.ts';

function say(message: FromThread): void {
  parentPort?.postMessage(message);
}

function sayText(id: number, text: ReplyText): void {
  parentPort?.postMessage({ kind: 'text', id, text } satisfies FromThread, [text.buffer]);
}

const { choice, handFile } = workerData as ThreadData;
const room = await furnishBackRoom(choice, {
  handFile,
  log: (line) => say({ kind: 'log', line }),
  announce: (subject, ids) => say({ kind: 'changed', subject, ids }),
});

async function reply(message: NumberedToThread): Promise<Reply<unknown>> {
  switch (message.kind) {
    case 'ask':
    case 'ask-text':
      return room.ask(message.name, message.input, message.caller);
    case 'take':
      return room.takeFile(message.fileName, message.bytes);
    case 'close':
      await room.close();
      return { ok: true, value: null };
  }
}

// What was sent while the book opened waits in the port until this line.
parentPort?.on('message', async (message: NumberedToThread) => {
  const answer = await reply(message);
  if (message.kind === 'ask-text') sayText(message.id, textOfReply(answer));
  else say({ kind: 'reply', id: message.id, reply: answer });
  if (message.kind === 'close') parentPort?.close();
});
