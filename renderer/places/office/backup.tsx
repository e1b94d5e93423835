import { useState, type ReactNode } from 'react';
import type { Failure } from '../../../app/contract/envelope.ts';
import { ask, AskFailure } from '../../bridge/bridge.ts';
import { PressButton } from '../../parts/button.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.office;

/** One tap for a copy of the book. */
export function Backup(): ReactNode {
  const [done, setDone] = useState<string | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const backUp = async (): Promise<void> => {
    setFailure(null);
    try {
      const copy = await ask('book.backUp', {});
      setDone(text.backedUp(copy.fileName, (copy.bytes / 1e6).toFixed(1)));
    } catch (thrown) {
      if (!(thrown instanceof AskFailure)) throw thrown;
      setFailure(thrown.failure);
    }
  };
  return (
    <section className="sheet stack">
      <h2>{text.backup}</h2>
      <p className="soft">{text.backupLead}</p>
      <div className="row"><PressButton onPress={() => { void backUp(); }}>{text.backupNow}</PressButton></div>
      {done === null ? null : <p role="status">{done}</p>}
      <ProblemNote failure={failure} />
    </section>
  );
}
