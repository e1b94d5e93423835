/**
 * What a page of ours can reach outside itself, on both fronts. Types only.
 *
 * In the window the preload puts a `WindowBridge` at `window.alderbook`. In the browser the same
 * things go over HTTP at the address the page came from (the cookie goes along by itself):
 *
 * - `POST /request`, `Content-Type: application/json`, body `RequestBody`, at most 2 MB; answers a
 *   `Reply` with status 200, whether ok or not. Of a request that never reached the program
 *   (cookie gone, body too long) the answer is a `Reply` too, with a 4xx status.
 * - `POST /inbox?name=FILE%20NAME`, body the bytes of one file; answers `Reply<TakenFile>`.
 *   A file over 32 MB is refused as `INVALID_INPUT`.
 * - `GET /events`: server-sent events without a name, each `data` one `Heard` as JSON. The browser's
 *   `EventSource` reconnects by itself and names the last event it saw. A new page is first told of
 *   all that happened in this run before it came (or to ask again), so that nothing is lost between
 *   its first requests and its first event.
 *
 * Files, printing and keeping awake have names of their own (`FRONT_NAMES`) in the window only; in the browser the
 * page uses a file input with `/inbox`, the browser's own print dialog, and its wake lock where it has one.
 */
import type { Reply } from './envelope.ts';
import type { BookEvent, Resync } from './events.ts';
import type { RequestName } from './names.ts';

/** What goes with every request and is never part of its input. */
export interface RequestMeta {
  /** Of a command: a new UUID for each press of a button; a repeated one gets the first answer. */
  readonly commandId?: string | null;
  /** The person on duty who was tapped; null before anyone is. */
  readonly personId?: string | null;
}

export interface RequestBody extends RequestMeta {
  readonly name: RequestName;
  readonly input: unknown;
}

/** A file that lies in the book's inbox. */
export interface TakenFile {
  readonly fileId: string;
}

/** Input of `front.chooseFile`: the endings shown first, as a file input has them (`.csv,.txt`). */
interface FileWanted {
  readonly accept?: string;
}

/** Answer of `front.chooseFile`: null when the person chose nothing. */
export type ChosenFile = (TakenFile & { readonly fileName: string }) | null;

/** Input of `front.print`: the sheet to print on, such as a label's; without it the printer's own paper. */
export interface PrintWanted {
  readonly sheet?: { readonly widthMm: number; readonly heightMm: number };
}

/** Answer of `front.print`: false when the person left the print dialog or no printer took it. */
export interface Printed {
  readonly printed: boolean;
}

/** Answer of `front.keepAwake`: whether the computer is kept awake now. */
export interface KeptAwake {
  readonly awake: boolean;
}

/** What a listener hears: a subject changed, or everything must be asked again. */
export type Heard = BookEvent | Resync;

/** What the preload puts at `window.alderbook`; exactly these two keys. */
export interface WindowBridge {
  /** Throws at once for a name that isn't in `names.ts`. */
  request(name: 'front.chooseFile', input: FileWanted, meta?: RequestMeta): Promise<Reply<ChosenFile>>;
  request(name: 'front.print', input: PrintWanted, meta?: RequestMeta): Promise<Reply<Printed>>;
  request(name: 'front.keepAwake', input: { readonly awake: boolean }, meta?: RequestMeta): Promise<Reply<KeptAwake>>;
  request(name: RequestName, input: unknown, meta?: RequestMeta): Promise<Reply<unknown>>;
  /** Calls `listener` for every event from now on; the answer ends that. */
  subscribe(listener: (heard: Heard) => void): () => void;
}
