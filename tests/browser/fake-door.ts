/** A back room that only notes what reaches it, for looking at the browser front alone. */
import type { Reply } from '../../app/contract/envelope.ts';
import type { BookEvent, Resync } from '../../app/contract/events.ts';
import type { Caller, Heard, Listener } from '../../main/backroom/door.ts';

export interface Asked {
  readonly name: unknown;
  readonly input: unknown;
  readonly caller: Caller;
}

/** Answers every request with `reply`; remembers the last `remembered` events. */
export function openFakeDoor(reply: Reply<unknown> | (() => Promise<Reply<unknown>>) = { ok: true, value: { said: 'yes' } }, remembered = 3) {
  const asked: Asked[] = [];
  const taken: { fileName: string; bytes: number }[] = [];
  const listeners = new Set<Listener>();
  let past: BookEvent[] = [];
  let lastSeq = -1;
  return {
    asked,
    taken,
    listeners,
    async askText(name: unknown, input: unknown, caller: Caller): Promise<Uint8Array<ArrayBuffer>> {
      asked.push({ name, input, caller });
      return new TextEncoder().encode(JSON.stringify(typeof reply === 'function' ? await reply() : reply));
    },
    async takeFile(fileName: string, bytes: Uint8Array): Promise<Reply<{ fileId: string }>> {
      taken.push({ fileName, bytes: bytes.byteLength });
      return { ok: true, value: { fileId: 'file-1' } };
    },
    subscribe(listener: Listener): () => void {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    eventsSince(seq: number): readonly BookEvent[] | Resync {
      const missed = past.filter((event) => event.seq > seq);
      return seq <= lastSeq && missed.length === lastSeq - seq ? missed : { resync: true, seq: Math.max(lastSeq, 0) };
    },
    announce(subject: BookEvent['subject'], ids: string[]): void {
      lastSeq += 1;
      const heard: Heard = { seq: lastSeq, subject, ids };
      past = [...past, heard].slice(-remembered);
      for (const listener of listeners) listener(heard);
    },
  };
}
