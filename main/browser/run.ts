/** The browser front from start to end: serves, says where, and closes everything when told to stop. */
import type { Door } from '../backroom/door.ts';
import { openAddress } from './open-address.ts';
import { serveBrowser } from './serve.ts';
import type { BrowserFront } from './serve.ts';
import { waitForStop } from './stop-signal.ts';

export interface BrowserFrontRun {
  readonly door: Door;
  /** The folder of the built pages. */
  readonly pagesFolder: string;
  /** 0 takes any free port. */
  readonly port: number;
  readonly opensBrowser: boolean;
  /** Resolves with a sentence when the back room is gone for good. */
  readonly stopped: Promise<string>;
}

/** Why the port can't be had, in a sentence; undefined for another fault. */
function explainPort(fault: unknown, port: number): string | undefined {
  if (!(fault instanceof Error) || !('code' in fault)) return undefined;
  if (fault.code === 'EADDRINUSE') return `Port ${port} is used by another program. Name another after --port, or leave --port out to take a free one.`;
  if (fault.code === 'EACCES') return `Port ${port} may not be used by an ordinary program. Name one above 1023 after --port, or leave --port out.`;
  return undefined;
}

async function open(run: BrowserFrontRun): Promise<BrowserFront | null> {
  try {
    return await serveBrowser({
      door: run.door,
      pagesFolder: run.pagesFolder,
      port: run.port,
      reportFault: (fault, reference) => console.error(`Fault ${reference} in the browser front:`, fault),
    });
  } catch (fault) {
    const sentence = explainPort(fault, run.port);
    if (sentence === undefined) throw fault;
    console.error(sentence);
    return null;
  }
}

/** Runs until a signal, the end of the starting process, or the end of the back room; answers the exit code. */
export async function runBrowserFront(run: BrowserFrontRun): Promise<number> {
  // Listened for from the start: a signal while the book opens must close it too.
  const toldToStop = waitForStop();
  const front = await open(run);
  if (front === null) {
    await run.door.close();
    return 1;
  }
  process.stdout.write(`Alderbook is open in the browser at this address, which works once:\n${front.address}\nTo stop it, press Ctrl-C here.\n`);
  if (run.opensBrowser) openAddress(front.address);
  const sentence = await Promise.race([toldToStop, run.stopped]);
  if (typeof sentence === 'string') console.error(sentence);
  await front.close();
  await run.door.close();
  return typeof sentence === 'string' ? 1 : 0;
}
