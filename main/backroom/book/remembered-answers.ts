/** What a shelf answered before, as long as nothing was put on it: a list of batches asks for the same loads many times. */
import type { Connection } from './connection.ts';

/** Far more questions than there are between two changes of a shelf (our choice). */
const MOST_ANSWERS = 50_000;

export interface RememberedAnswers {
  /** Something is put on the shelf: no answer from before counts any more. */
  forget(): void;
  of<T>(question: string, answer: () => T): T;
}

/**
 * Answers are remembered outside commands only. What a command puts on a shelf may be taken back, and then it has been
 * forgotten all the same.
 */
export function rememberAnswers(database: Pick<Connection, 'inTransaction'>): RememberedAnswers {
  const kept = new Map<string, unknown>();
  return {
    forget: () => kept.clear(),
    of<T>(question: string, answer: () => T): T {
      // What lies under a question is what its answer gave.
      if (kept.has(question)) return kept.get(question) as T;
      const given = answer();
      if (database.inTransaction) return given;
      if (kept.size >= MOST_ANSWERS) kept.clear();
      kept.set(question, given);
      return given;
    },
  };
}
