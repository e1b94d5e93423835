/**
 * How the pages ask the back room: through the preload's surface in the window, over HTTP in a
 * browser. The only user of either. An answer is the value, or an `AskFailure` to catch.
 */
import type { RequestBody, RequestMeta, WindowBridge } from '../../app/contract/bridge-types.ts';
import type { Input, Output } from '../../app/contract/contract.ts';
import { Failure } from '../../app/contract/envelope.ts';
import { problemOfSize } from '../../app/probes/log-bytes.ts';
import { BookEvent, Resync } from '../../app/contract/events.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { z } from 'zod';

declare global {
  interface Window {
    readonly alderbook?: WindowBridge;
  }
}

const Envelope = z.discriminatedUnion('ok', [
  z.object({ ok: z.literal(true), value: z.unknown() }),
  z.object({ ok: z.literal(false), error: Failure }),
]);
const TakenFile = z.object({ fileId: z.string(), fileName: z.string() });
type TakenFile = z.infer<typeof TakenFile>;

/** A refusal of the back room, in its own sentences. */
export class AskFailure extends Error {
  readonly failure: Failure;
  constructor(failure: Failure) {
    super(failure.message);
    this.failure = failure;
  }
}

const UNREACHABLE: Failure = {
  code: 'INTERNAL',
  message: 'Alderbook can’t be reached: the program on this computer was closed or stopped.',
  remedy: 'Start it again and open the address it prints.',
  retryable: true,
};

let personOnDuty: string | null = null;

/** Names the person on duty; every later command acts for them. */
export function setPersonOnDuty(personId: string | null): void {
  personOnDuty = personId;
}

/** Asks the back room. The contract's schemas were checked there; here only the envelope is. */
export async function ask<N extends RequestName>(name: N, input: Input<N>): Promise<Output<N>> {
  return (await send(name, input)) as Output<N>;
}

/** What goes with every request: a new id for each command, and the person on duty. */
function aboutNow(): RequestMeta {
  return { commandId: crypto.randomUUID(), personId: personOnDuty };
}

async function send(name: RequestName, input: unknown): Promise<unknown> {
  const about = aboutNow();
  const { alderbook } = window;
  return valueOf(() => (alderbook === undefined ? post({ name, input, ...about }) : alderbook.request(name, input, about)));
}

async function post(body: RequestBody): Promise<unknown> {
  const answer = await fetch('/request', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });
  return answer.json();
}

/** The value of an envelope, or its refusal; no envelope at all means that the program is gone. */
async function valueOf(answering: () => Promise<unknown>): Promise<unknown> {
  let answer: unknown;
  try {
    answer = await answering();
  } catch {
    throw new AskFailure(UNREACHABLE);
  }
  const envelope = Envelope.safeParse(answer);
  if (!envelope.success) throw new AskFailure(UNREACHABLE);
  if (!envelope.data.ok) throw new AskFailure(envelope.data.error);
  return envelope.data.value;
}

/** Hears of every change of the book; `null` means: ask everything again. */
export function subscribe(listener: (event: BookEvent | null) => void): () => void {
  const hear = (payload: unknown): void => {
    const event = BookEvent.safeParse(payload);
    if (event.success) listener(event.data);
    else if (Resync.safeParse(payload).success) listener(null);
  };
  if (window.alderbook !== undefined) return window.alderbook.subscribe(hear);
  const source = new EventSource('/events');
  source.onmessage = (message: MessageEvent<string>) => hear(JSON.parse(message.data));
  return () => source.close();
}

/** Lets the person choose a file and puts it into the book's inbox; null when they chose none. */
export async function chooseFile(accept: string): Promise<TakenFile | null> {
  const { alderbook } = window;
  if (alderbook !== undefined) {
    const taken = await valueOf(() => alderbook.request('front.chooseFile', { accept }, aboutNow()));
    return taken === null ? null : TakenFile.parse(taken);
  }
  const file = await pickInBrowser(accept);
  if (file === null) return null;
  refuseSize(file);
  const taken = await valueOf(async () => (await fetch(`/inbox?name=${encodeURIComponent(file.name)}`, { method: 'POST', body: file })).json());
  return TakenFile.parse({ fileName: file.name, ...z.object({ fileId: z.string() }).parse(taken) });
}

/** A file of no bytes or too many is refused before a byte of it is sent. */
function refuseSize(file: File): void {
  const problem = problemOfSize(file.size, file.name, 'file');
  if (problem === undefined) return;
  throw new AskFailure({ code: 'INVALID_INPUT', message: problem.message, retryable: false, ...(problem.remedy === undefined ? {} : { remedy: problem.remedy }) });
}

function pickInBrowser(accept: string): Promise<File | null> {
  return new Promise((settle) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.addEventListener('change', () => settle(input.files?.[0] ?? null));
    input.addEventListener('cancel', () => settle(null));
    input.click();
  });
}

/**
 * Prints the page as it stands (its print styles decide what is on paper). The window's printer is
 * told the sheet's size; a browser takes it from the page's own `@page`.
 */
export async function printPage(sheet: { readonly widthMm: number; readonly heightMm: number }): Promise<void> {
  const { alderbook } = window;
  if (alderbook === undefined) window.print();
  else await valueOf(() => alderbook.request('front.print', { sheet }, aboutNow()));
}

let wakeLock: WakeLockSentinel | null = null;
let wantsAwake = false;

/** Keeps the computer awake while a load runs, where its front can, or lets it sleep again. Never a reason to stop. */
export async function keepAwake(awake: boolean): Promise<void> {
  const { alderbook } = window;
  if (alderbook !== undefined) {
    await valueOf(() => alderbook.request('front.keepAwake', { awake }, aboutNow()));
    return;
  }
  if (!('wakeLock' in navigator)) return;
  if (!wantsAwake && awake) document.addEventListener('visibilitychange', lockAgain);
  if (!awake) document.removeEventListener('visibilitychange', lockAgain);
  wantsAwake = awake;
  if (awake) await lockScreen();
  else await wakeLock?.release();
}

/** A browser drops the lock of a page that is hidden. */
function lockAgain(): void {
  if (wantsAwake && document.visibilityState === 'visible') void lockScreen();
}

async function lockScreen(): Promise<void> {
  try {
    wakeLock = await navigator.wakeLock.request('screen');
  } catch {
    wakeLock = null;
  }
}
