import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import type { PackKind, StoreKind } from '../../../app/contract/requests/quantities.ts';
import type { Decision, GateLine } from '../../../app/contract/requests/verdict.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Several } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { GateLines } from '../../parts/gate-lines.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.packingTable;

interface DecisionPanelProps {
  readonly batch: Batch;
  readonly gates: readonly GateLine[];
  readonly decisions: readonly Decision[];
  readonly pack: PackKind;
  readonly store: StoreKind;
}

/** The gates in plain words, and the manager's decision with its reason. */
export function DecisionPanel({ batch, gates, decisions, pack, store }: DecisionPanelProps): ReactNode {
  const formats = useFormats();
  const last = decisions.at(-1);
  const packState = gates.find((gate) => gate.gate === 'pack')?.state;
  const mustDecideAgain = useMustDecideAgain(batch.id);
  return (
    <section className="sheet stack">
      <GateLines gates={gates.filter((gate) => gate.gate !== 'pack' && gate.gate !== 'leave' && gate.state !== 'may')} />
      {gates.filter((gate) => gate.gate === 'pack' || gate.gate === 'leave').map((gate) => <Gate key={gate.gate} gate={gate} quiet={gate.gate === 'leave' && packState !== 'may' && packState !== 'initials'} />)}
      {decisions.map((decision) => (
        <p key={decision.id}>{text.decidedBy(text.decided[decision.decision], formats.moment(decision.atMs), decision.initials, decision.reason)}{decision.initialsForError ? ` ${words.worklist.initialled}` : ''}</p>
      ))}
      {last?.decision === 'hold' ? <PressButton onPress={() => go(addressOf('print', 'hold', batch.id))}>{text.holdTag}</PressButton> : null}
      {last?.decision === 'reject' ? null : <DecisionForm batch={batch} gates={gates} pack={pack} store={store} last={last ?? null} mustDecideAgain={mustDecideAgain} />}
    </section>
  );
}

/** Whether a later record took the ground from the batch's release. */
export function useMustDecideAgain(batchId: string): boolean {
  const list = useAsk('worklist.get', {});
  return list.data?.items.some((item) => item.batchId === batchId && item.what === 'decide-again' && item.done === null) ?? false;
}

/** `quiet` leaves out what the gate before it has said already. */
function Gate({ gate, quiet }: { readonly gate: GateLine; readonly quiet: boolean }): ReactNode {
  return (
    <div className={gate.state === 'blocked' ? 'note fault-note' : 'note'}>
      <p className="strong">{text.gate[gate.gate]}: {text.states[gate.state]}</p>
      <p>{gate.line}</p>
      {gate.blocking.length === 0 || quiet ? null : (
        <ul>{gate.blocking.map((each) => <li key={each.checkId}>{each.reason} <b>{each.needed}</b></li>)}</ul>
      )}
      {gate.ways.length === 0 ? null : (
        <>
          <p className="strong">{text.ways}</p>
          <ul>{gate.ways.map((way) => <li key={way}>{way}</li>)}</ul>
        </>
      )}
      {gate.later.length === 0 ? null : <p className="soft small">{text.later}: {gate.later.join('; ')}</p>}
    </div>
  );
}

interface DecisionFormProps {
  readonly batch: Batch;
  readonly gates: readonly GateLine[];
  readonly pack: PackKind;
  readonly store: StoreKind;
  readonly last: Decision | null;
  readonly mustDecideAgain: boolean;
}

function DecisionForm({ batch, gates, pack, store, last, mustDecideAgain }: DecisionFormProps): ReactNode {
  const { onDuty } = useKitchen();
  const decide = useCommand('batch.decide');
  const [reason, setReason] = useState('');
  const [keptWhere, setKeptWhere] = useState('');
  const [initialled, setInitialled] = useState<readonly string[]>([]);
  const state = gates.find((gate) => gate.gate === 'pack')?.state;
  const released = last?.decision === 'release' && !mustDecideAgain;
  // What was released is decided again as it was released.
  const keeping = last?.decision === 'release' ? { pack: last.pack, store: last.store } : { pack, store };
  const isManager = onDuty?.role === 'manager';
  const send = async (decision: Decision['decision']): Promise<void> => {
    const answer = await decide.send({ batchId: batch.id, decision, reason, ...keeping, keptWhere, initialsForError: initialled.length > 0 });
    if (answer !== null) setReason('');
  };
  const mayRelease = state === 'may' || state === 'initials';
  return (
    <div className="stack">
      <h2>{text.decide}</h2>
      {isManager ? null : <p className="help">{text.needManager}</p>}
      <Field label={text.reason} value={reason} fault={faultOf(decide.failure, 'reason')} onChange={setReason} />
      {released ? null : <Field label={text.keptWhere} value={keptWhere} onChange={setKeptWhere} />}
      {state === 'initials' && !released ? <Several label={text.withinError} values={initialled} choices={[{ id: 'initials', text: text.withinError }]} onChange={setInitialled} /> : null}
      <ProblemNote failure={decide.failure} />
      <div className="row">
        {released ? null : <PressButton look={mayRelease ? 'next' : 'plain'} isDisabled={decide.busy} onPress={() => { void send('release'); }}>{text.decisions.release}</PressButton>}
        <PressButton look={mayRelease || last !== null ? 'plain' : 'next'} isDisabled={decide.busy} onPress={() => { void send('hold'); }}>{text.decisions.hold}</PressButton>
        <PressButton isDisabled={decide.busy} onPress={() => { void send('reject'); }}>{text.decisions.reject}</PressButton>
      </div>
    </div>
  );
}
