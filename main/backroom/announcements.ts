/** Events numbered one by one and remembered a while, so that a front that was away can catch up. */
import type { BookEvent, Resync, Subject } from '../../app/contract/events.ts';

export type Heard = BookEvent | Resync;
export type Listener = (heard: Heard) => void;

const REMEMBERED = 500;

export interface Announcements {
  announce(subject: Subject, ids: readonly string[]): void;
  /** Tells everyone to ask everything again: what happened meanwhile is not known. */
  restart(): void;
  subscribe(listener: Listener): () => void;
  /** Everything after `seq`, oldest first; or that it is too old to be caught up. */
  since(seq: number): readonly BookEvent[] | Resync;
}

export function openAnnouncements(): Announcements {
  const listeners = new Set<Listener>();
  let past: BookEvent[] = [];
  let lastSeq = -1;

  function tell(heard: Heard): void {
    for (const listener of listeners) listener(heard);
  }
  return {
    announce(subject, ids) {
      lastSeq += 1;
      const event = { seq: lastSeq, subject, ids: [...ids] };
      past = [...past, event].slice(-REMEMBERED);
      tell(event);
    },
    restart() {
      lastSeq += 1;
      past = [];
      tell({ resync: true, seq: lastSeq });
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    since(seq) {
      const missed = past.filter((event) => event.seq > seq);
      const complete = Number.isSafeInteger(seq) && seq <= lastSeq && missed.length === lastSeq - seq;
      return complete ? missed : { resync: true, seq: Math.max(lastSeq, 0) };
    },
  };
}
