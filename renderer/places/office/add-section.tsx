import { useState, type ReactNode } from 'react';
import type { Failure } from '../../../app/contract/envelope.ts';
import { PressButton } from '../../parts/button.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

interface AddSectionProps {
  readonly title: string;
  readonly addText: string;
  readonly list: ReactNode;
  readonly form: ReactNode;
  readonly failure: Failure | null;
  readonly busy: boolean;
  /** Sends the form; true when it was kept, so that the form closes. */
  onSend(): Promise<boolean>;
}

/** A list of the office with its one form for one more. */
export function AddSection({ title, addText, list, form, failure, busy, onSend }: AddSectionProps): ReactNode {
  const [open, setOpen] = useState(false);
  const send = async (): Promise<void> => {
    if (await onSend()) setOpen(false);
  };
  return (
    <section className="sheet stack">
      <h2>{title}</h2>
      {list}
      {open ? (
        <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
          {form}
          <ProblemNote failure={failure} />
          <div className="row">
            <PressButton look="next" type="submit" isDisabled={busy}>{words.office.save}</PressButton>
            <PressButton onPress={() => setOpen(false)}>{words.parts.cancel}</PressButton>
          </div>
        </form>
      ) : <div><PressButton onPress={() => setOpen(true)}>{addText}</PressButton></div>}
    </section>
  );
}
