/** What a command changed, told to the fronts once it stands in the book. */
import type { Subject } from '../../app/contract/events.ts';

export type Announce = (subject: Subject, ids: readonly string[]) => void;

export interface Changes {
  add(subject: Subject, ids: readonly string[]): void;
  /** One announcement a subject, in the order they first changed. */
  announce(to: Announce): void;
}

export function collectChanges(): Changes {
  const changed = new Map<Subject, Set<string>>();
  return {
    add(subject, ids) {
      const known = changed.get(subject) ?? new Set();
      for (const id of ids) known.add(id);
      changed.set(subject, known);
    },
    announce(to) {
      for (const [subject, ids] of changed) to(subject, [...ids]);
      changed.clear();
    },
  };
}
