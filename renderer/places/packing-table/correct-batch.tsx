import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import type { Point } from '../../../app/contract/requests/smokehouse.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.worklist;

/** Puts right how thick a batch's fish is. */
export function CorrectBatch({ batch }: { readonly batch: Batch }): ReactNode {
  const [isOpen, setIsOpen] = useState(false);
  const load = useAsk('load.get', isOpen && batch.loadId !== null ? { loadId: batch.loadId } : null);
  const pieces = load.data?.load.points.filter((point) => point.role === 'piece' && point.batchId === batch.id) ?? [];
  const isReady = batch.loadId === null || load.data !== undefined;
  return (
    <>
      <div><PressButton look="quiet" onPress={() => setIsOpen(true)}>{text.correctBatch}</PressButton></div>
      {isOpen && isReady ? <CorrectLeaf batch={batch} pieces={pieces} onClose={() => setIsOpen(false)} /> : null}
    </>
  );
}

function CorrectLeaf({ batch, pieces, onClose }: { readonly batch: Batch; readonly pieces: readonly Point[]; onClose(): void }): ReactNode {
  const correct = useCommand('batch.correct');
  const [thickest, setThickest] = useState(String(batch.thickestMm));
  const [thicknesses, setThicknesses] = useState<Readonly<Record<string, string>>>({});
  const [why, setWhy] = useState('');
  const send = async (): Promise<void> => {
    const changed = pieces.flatMap(({ id, thicknessMm }) => {
      const typed = thicknesses[id];
      return typed === undefined || typed.trim() === '' || Number(typed) === thicknessMm ? [] : [{ pointId: id, thicknessMm: Number(typed) }];
    });
    if ((await correct.send({ batchId: batch.id, thickestMm: thickest.trim() === '' ? null : Number(thickest), pieces: changed, why })) !== null) onClose();
  };
  return (
    <Leaf title={text.correctTitle(batch.shortName)} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="help">{text.correctLead}</p>
        <Field label={text.thickest} kind="figure" unit="mm" value={thickest} fault={faultOf(correct.failure, 'thickestMm')} onChange={setThickest} />
        {pieces.map(({ id, name, thicknessMm }) => (
          <Field key={id} label={text.pieceThickness(name)} kind="figure" unit="mm" value={thicknesses[id] ?? (thicknessMm === null ? '' : String(thicknessMm))} onChange={(typed) => setThicknesses({ ...thicknesses, [id]: typed })} />
        ))}
        <Field label={text.why} value={why} fault={faultOf(correct.failure, 'why')} onChange={setWhy} />
        <ProblemNote failure={correct.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={correct.busy}>{text.save}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
