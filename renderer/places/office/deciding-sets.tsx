import { useState, type ReactNode } from 'react';
import type { SetInfo } from '../../../app/contract/requests/limits.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Pick } from '../../parts/field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.office.limitsPages;

interface DecidingSetsProps {
  readonly sets: readonly SetInfo[];
  readonly decidingFor: { readonly guest: string; readonly supplier: string };
}

/** The set that decides new batches of guests' catch, and of bought fish. */
export function DecidingSets({ sets, decidingFor }: DecidingSetsProps): ReactNode {
  const { onDuty } = useKitchen();
  const decide = useCommand('limits.decideFor');
  const [chosen, setChosen] = useState<Partial<typeof decidingFor>>({});
  const [kept, setKept] = useState(false);
  const now = { ...decidingFor, ...chosen };
  const changed = now.guest !== decidingFor.guest || now.supplier !== decidingFor.supplier;
  const choices = sets.map((set) => ({ id: set.setId, text: `${set.name}, ${words.office.version(set.version)}${set.mayDecide ? '' : text.notYet}` }));
  const choose = (change: Partial<typeof decidingFor>): void => {
    setKept(false);
    setChosen({ ...chosen, ...change });
  };
  const send = async (): Promise<void> => {
    if ((await decide.send(now)) === null) return;
    setChosen({});
    setKept(true);
  };
  return (
    <section className="sheet stack">
      <h2>{text.deciding}</h2>
      <p className="soft">{text.decidingLead}</p>
      <div className="form-grid">
        <Pick label={text.guest} value={now.guest} choices={choices} fault={faultOf(decide.failure, 'guest')} onChange={(guest) => choose({ guest })} />
        <Pick label={text.supplier} value={now.supplier} choices={choices} fault={faultOf(decide.failure, 'supplier')} onChange={(supplier) => choose({ supplier })} />
      </div>
      {changed && onDuty?.role !== 'manager' ? <p className="help">{text.needManager}</p> : null}
      <ProblemNote failure={decide.failure} />
      {changed ? <div><PressButton look="next" isDisabled={decide.busy} onPress={() => { void send(); }}>{text.decide}</PressButton></div> : null}
      {kept && !changed ? <p role="status">{text.decided}</p> : null}
    </section>
  );
}
