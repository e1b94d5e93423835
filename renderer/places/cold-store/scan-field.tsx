import { useState, type ReactNode } from 'react';
import type { PackWhere } from '../../../app/contract/requests/cold-store.ts';
import type { Failure } from '../../../app/contract/envelope.ts';
import { ask, AskFailure } from '../../bridge/bridge.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.coldStore.scan;

interface ScanProps {
  readonly label: string;
  readonly has: (packId: string) => boolean;
  /** Why a pack that was found is not taken; null where it is. */
  readonly whyNot?: (pack: PackWhere) => string | null;
  onPack(pack: PackWhere): void;
}

/** Where a scanner with a keyboard's plug types a code and Enter; the field is ready for the next at once. */
export function ScanField({ label, has, whyNot, onPack }: ScanProps): ReactNode {
  const [typed, setTyped] = useState('');
  const [failure, setFailure] = useState<Failure | null>(null);
  const [scans, setScans] = useState(0);
  const read = async (): Promise<void> => {
    const code = typed;
    setTyped('');
    setScans(scans + 1);
    try {
      const { pack } = await ask('pack.find', { text: code });
      const why = has(pack.packId) ? text.twice(pack.code) : (whyNot?.(pack) ?? null);
      setFailure(why === null ? null : { code: 'CONFLICT', message: why, retryable: false });
      if (why === null) onPack(pack);
    } catch (thrown) {
      if (!(thrown instanceof AskFailure)) throw thrown;
      setFailure(thrown.failure);
    }
  };
  return (
    <form className="stack" onSubmit={(event) => { event.preventDefault(); if (typed.trim() !== '') void read(); }}>
      <div className="row">
        <Field key={scans} label={label} value={typed} autoFocus={scans > 0} onChange={setTyped} />
        <PressButton type="submit" isDisabled={typed.trim() === ''}>{text.add}</PressButton>
      </div>
      <ProblemNote failure={failure} />
    </form>
  );
}
