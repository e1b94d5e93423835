import { useState, type ReactNode } from 'react';
import type { Load } from '../../../app/contract/requests/smokehouse.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.paper.swap;

/** A probe swapped, or another logger in the cooler: the piece keeps one record, each reading the thermometer it came from. */
export function SwapInstrument({ load }: { readonly load: Load }): ReactNode {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <>
      <PressButton look="quiet" onPress={() => setIsOpen(true)}>{text.open}</PressButton>
      {isOpen ? <SwapLeaf load={load} onClose={() => setIsOpen(false)} /> : null}
    </>
  );
}

function SwapLeaf({ load, onClose }: { readonly load: Load; onClose(): void }): ReactNode {
  const office = useAsk('office.get', {});
  const move = useCommand('point.moveInstrument');
  const [pointId, setPointId] = useState(load.points[0]?.id ?? '');
  const [instrumentId, setInstrumentId] = useState('');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [why, setWhy] = useState('');
  const point = load.points.find((one) => one.id === pointId);
  const send = async (): Promise<void> => {
    const answer = await move.send({ pointId, instrumentId: instrumentId === '' ? null : instrumentId, atMs: atMs ?? Date.now(), why });
    if (answer !== null) onClose();
  };
  return (
    <Leaf title={text.open} onClose={onClose}>
      <p className="soft">{text.lead}</p>
      <Pick label={text.piece} value={pointId} choices={load.points.map((one) => ({ id: one.id, text: one.name }))} onChange={setPointId} />
      <p>{text.now(point === undefined || point.instrumentName === '' ? words.smokehouse.noProbe : point.instrumentName)}</p>
      <Pick label={text.next} value={instrumentId} empty={words.smokehouse.noProbe} fault={faultOf(move.failure, 'instrumentId')} choices={(office.data?.instruments ?? []).map((one) => ({ id: one.id, text: one.name }))} onChange={setInstrumentId} />
      <MomentField label={words.smokehouse.markAt} value={null} fault={faultOf(move.failure, 'atMs')} onChange={setAtMs} />
      <Field label={text.why} value={why} fault={faultOf(move.failure, 'why')} onChange={setWhy} />
      <ProblemNote failure={move.failure} />
      <div className="row">
        <PressButton look="next" isDisabled={move.busy} onPress={() => { void send(); }}>{text.keep}</PressButton>
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}
