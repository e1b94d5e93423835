import type { ReactNode } from 'react';
import type { Failure } from '../../app/contract/envelope.ts';
import { words } from '../words/words.ts';
import { PressButton } from './button.tsx';
import { Leaf } from './leaf.tsx';
import { ProblemNote } from './problem-note.tsx';

interface FormLeafProps {
  readonly title: string;
  /** Why the person on duty can't save it; null where they can. */
  readonly hindrance: string | null;
  readonly saveText: string;
  readonly busy: boolean;
  readonly failure: Failure | null;
  readonly children: ReactNode;
  /** Saves; false where it was refused. */
  onSave(): Promise<boolean>;
  onClose(): void;
}

/** A form on a leaf: its fields, what was wrong with them, and the two ways out. It closes once it is saved. */
export function FormLeaf({ title, hindrance, saveText, busy, failure, children, onSave, onClose }: FormLeafProps): ReactNode {
  const save = async (): Promise<void> => {
    if (await onSave()) onClose();
  };
  return (
    <Leaf title={title} wide onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void save(); }}>
        {hindrance === null ? null : <p className="help">{hindrance}</p>}
        {children}
        <ProblemNote failure={failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={busy}>{saveText}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
