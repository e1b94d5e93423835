import { useState, type ReactNode } from 'react';
import type { Recall } from '../../../app/contract/requests/trace-shapes.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.recall;

/** Everybody who was ever given a pack of it, and who of them was reached. */
export function RecallCalls({ recall }: { readonly recall: Recall }): ReactNode {
  return (
    <section className="sheet stack">
      <h2>{text.calls}</h2>
      {recall.calls.length === 0 ? <p className="soft">{text.noCalls}</p> : recall.calls.map((call) => (
        <CallLine key={call.guestId} recallId={recall.id} call={call} isOpen={recall.finished === null} />
      ))}
    </section>
  );
}

interface CallLineProps {
  readonly recallId: string;
  readonly call: Recall['calls'][number];
  readonly isOpen: boolean;
}

function CallLine({ recallId, call, isOpen }: CallLineProps): ReactNode {
  const formats = useFormats();
  const reached = useCommand('recall.reached');
  const [note, setNote] = useState('');
  return (
    <div className="stack">
      <p className="strong">{text.call(call.name, call.contact, call.packs)}</p>
      {call.reached !== null ? <p>{text.reachedLine(formats.longMoment(call.reached.atMs), call.reached.initials, call.reached.note)}</p> : isOpen ? (
        <form className="row weigh-row" onSubmit={(event) => { event.preventDefault(); void reached.send({ recallId, guestId: call.guestId, note }); }}>
          <Field label={`${text.note}: ${call.name}`} value={note} onChange={setNote} />
          <PressButton type="submit" label={text.reachedOf(call.name)} isDisabled={reached.busy}>{text.reached}</PressButton>
        </form>
      ) : <p className="fault">{text.notReached}</p>}
      <ProblemNote failure={reached.failure} />
    </div>
  );
}
