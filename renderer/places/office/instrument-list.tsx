import { useState, type ReactNode } from 'react';
import type { InstrumentState } from '../../../app/contract/requests/evidence.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { CheckLeaf } from './instrument-check.tsx';

const text = words.instruments;

/** The thermometers, each with how it stands and its next check a tap away. */
export function InstrumentList(): ReactNode {
  const list = useAsk('instrument.list', {});
  const [checkedId, setCheckedId] = useState<string | null>(null);
  if (list.data === undefined) return <ProblemNote failure={failureOf(list.error)} />;
  const { instruments } = list.data;
  const checked = instruments.find(({ instrument }) => instrument.id === checkedId);
  const altitude = instruments.flatMap(({ checks }) => checks).filter((check) => check.altitudeMetres !== null).toSorted((left, right) => right.atMs - left.atMs)[0]?.altitudeMetres ?? null;
  return (
    <>
      <ul className="instruments">
        {instruments.map((state) => <InstrumentRow key={state.instrument.id} state={state} onCheck={() => setCheckedId(state.instrument.id)} />)}
      </ul>
      {checked === undefined ? null : <CheckLeaf state={checked} altitudeMetres={altitude} onClose={() => setCheckedId(null)} />}
    </>
  );
}

function InstrumentRow({ state, onCheck }: { readonly state: InstrumentState; onCheck(): void }): ReactNode {
  const formats = useFormats();
  const { instrument, checks, dueToday, overdue } = state;
  const due = [checks[0]?.pastCorrecting === true ? text.replace : '', dueToday ? text.dueToday : '', overdue ? text.overdue : ''].filter((each) => each !== '').join(', ');
  return (
    <li className="instrument-row">
      <div className="spread middle">
        <span><b>{instrument.name}</b> <span className="soft">{words.office.kinds[instrument.kind]}; {due === '' ? text.inDate : due}</span></span>
        <PressButton label={text.checkOf(instrument.name)} onPress={onCheck}>{text.check}</PressButton>
      </div>
      <p className="soft">{state.text}</p>
      {checks.length === 0 ? null : (
        <details>
          <summary>{text.past(checks.length)}</summary>
          <ul>{checks.map((check) => <li key={check.id}>{text.by(check.initials, formats.longMoment(check.atMs))}: {check.text}</li>)}</ul>
        </details>
      )}
    </li>
  );
}
