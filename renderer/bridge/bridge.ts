/**
 * How the pages ask the back room: through the preload's surface in the window, over HTTP in a
 * browser. The only user of either. An answer is the value, or an `AskFailure` to catch.
 */
import type { Input, Output } from '../../app/contract/contract.ts';
import { Failure } from '../../app/contract/envelope.ts';
import { BookEvent, Resync } from '../../app/contract/events.ts';
import type { FrontName, RequestName } from '../../app/contract/names.ts';
import { z } from 'zod';

interface WindowSurface {
  request(name: string, input: unknown, about: { commandId: string | null; personId: string | null }): Promise<unknown>;
  subscribe(listener: (event: unknown) => void): () => void;
}
declare global {
  interface Window {
    readonly alderbook?: WindowSurface;
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

/** Asks the window's front to do something of its own; in a browser the page does it itself. */
async function askFront(name: FrontName, input: unknown): Promise<unknown> {
  return send(name, input);
}

async function send(name: RequestName | FrontName, input: unknown): Promise<unknown> {
  const about = { commandId: crypto.randomUUID(), personId: personOnDuty };
  let answer: unknown;
  try {
    answer = window.alderbook === undefined
      ? await (await fetch('/request', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ name, input, ...about }),
      })).json()
      : await window.alderbook.request(name, input, about);
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
  if (window.alderbook !== undefined) {
    const taken = await askFront('front.chooseFile', { accept });
    return taken === null ? null : TakenFile.parse(taken);
  }
  const file = await pickInBrowser(accept);
  return file === null ? null : takeFile(file);
}

/** Puts one file into the inbox over HTTP. */
async function takeFile(file: File): Promise<TakenFile> {
  let answer: unknown;
  try {
    answer = await (await fetch(`/inbox?name=${encodeURIComponent(file.name)}`, { method: 'POST', body: file })).json();
  } catch {
    throw new AskFailure(UNREACHABLE);
  }
  const envelope = Envelope.parse(answer);
  if (!envelope.ok) throw new AskFailure(envelope.error);
  return TakenFile.parse({ fileName: file.name, ...z.object({ fileId: z.string() }).parse(envelope.value) });
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

/** Prints the page as it stands (its print styles decide what is on paper). */
export async function printPage(): Promise<void> {
  if (window.alderbook === undefined) window.print();
  else await askFront('front.print', {});
}
