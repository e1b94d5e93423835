/** Binds the one channel of requests: checks the sender, adds the caller, and passes the request on. */
import { randomUUID } from 'node:crypto';
import { ipcMain } from 'electron';
import type { BrowserWindow } from 'electron';
import type { Reply } from '../../app/contract/envelope.ts';
import { REQUEST_CHANNEL } from '../../app/contract/names.ts';
import type { Door } from '../backroom/door.ts';
import { chooseFile } from './choose-file.ts';
import { fail } from './failures.ts';
import { keepAwake } from './keep-awake.ts';
import { readMeta } from './meta.ts';
import { printPage } from './print-page.ts';
import { isTrustedSender } from './trusted-sender.ts';

async function answer(window: BrowserWindow, door: Door, name: unknown, input: unknown, meta: unknown): Promise<Reply<unknown>> {
  const read = readMeta(meta);
  if (typeof name !== 'string' || read === null) return fail('INVALID_INPUT', 'A request has a name, an input, and the person and number it comes with.');
  if (name === 'front.chooseFile') return chooseFile(window, door, input);
  if (name === 'front.print') return printPage(window.webContents, input);
  if (name === 'front.keepAwake') return keepAwake(input);
  return door.ask(name, input, { front: 'window', device: 'this computer', ...read });
}

/** A fault of the front itself: told without detail, which stands under the same reference on standard error. */
function explainFault(fault: unknown): Reply<never> {
  const reference = randomUUID();
  console.error(`Fault ${reference} in the window front:`, fault);
  return {
    ok: false,
    error: {
      code: 'INTERNAL',
      message: 'Something went wrong inside the program.',
      remedy: 'Try once more; if it happens again, start the program anew.',
      retryable: true,
      reference,
    },
  };
}

/** Answers the requests of this window from now on. */
export function registerRequests(window: BrowserWindow, door: Door): void {
  const contentsId = window.webContents.id;
  ipcMain.handle(REQUEST_CHANNEL, (event, name: unknown, input: unknown, meta: unknown) => {
    if (!isTrustedSender(event, contentsId)) return fail('NOT_ALLOWED', 'The request came from a page that is not part of Alderbook.');
    return answer(window, door, name, input, meta).catch(explainFault);
  });
}
